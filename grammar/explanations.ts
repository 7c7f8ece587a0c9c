/** What `explain` and the editor's link say about a code: what, why, how it is measured, source, how to mend. */
import type { Code, RuleCode } from './codes';
import { ENDS } from './explanations/ends';
import type { Explanation } from './explanations/explanation';
import { HARDWARE } from './explanations/hardware';
import { NAMES } from './explanations/names';
import { PLACES } from './explanations/places';
import { RULEBOOKS } from './explanations/rulebooks';
import { OWN_BOOKS } from './explanations/own-books';
import { STOCK } from './explanations/stock';
import { STRAPS } from './explanations/straps';
import { TEXT } from './explanations/text';

export type { Explanation, Stage } from './explanations/explanation';
export { STAGES, STAGE_WORDS } from './explanations/explanation';

/** Codes on which no book puts a limit. Those of rules are explained where the rule stands. */
export type PlainCode = Exclude<Code, RuleCode>;

/** One for every such code: the compiler asks for it. */
export const EXPLANATIONS: Readonly<Record<PlainCode, Explanation>> = {
  ...TEXT,
  ...NAMES,
  ...PLACES,
  ...ENDS,
  ...HARDWARE,
  ...STOCK,
  ...STRAPS,
  ...RULEBOOKS,
  ...OWN_BOOKS,
};
