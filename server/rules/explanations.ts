/** What is said of every code: those of the rules come from the rules themselves. */
import type { Code } from '../../grammar/codes';
import type { Explanation } from '../../grammar/explanations';
import { EXPLANATIONS } from '../../grammar/explanations';
import { RULES } from './rules';

/** The limits of the books stand where this is shown. */
const BOOKS = 'The rulebooks; their limits stand below.';

const OF_RULES: Readonly<Record<string, Explanation>> = Object.fromEntries(
  RULES.map(({ code, explanation }) => [code, { ...explanation, source: BOOKS }]),
);

const PLAIN: Readonly<Record<string, Explanation>> = EXPLANATIONS;

/** The explanation of a code. Every code has one: a test holds it. */
export const explanationOf = (code: Code): Explanation => {
  const found = Object.hasOwn(OF_RULES, code) ? OF_RULES[code] : PLAIN[code];
  return found ?? { what: code, why: '', measured: '', source: '', mend: '', stage: 'empty', bad: '', good: '' };
};
