import { describe, expect, it } from 'vitest';
import type { Code } from '../../grammar/codes';
import { CODES, RULE_CODES } from '../../grammar/codes';
import { STAGES } from '../../grammar/explanations';
import { explanationOf } from '../../server/rules/explanations';
import { explainMarkdown, explainText } from '../../server/rules/explain';
import { analyse, told } from '../support/analyse';

const codes = Object.keys(CODES) as readonly Code[];

describe('every code is explained', () => {
  it.each(codes)('%s says what, why, how measured, source and mend', (code) => {
    const { what, why, measured, source, mend } = explanationOf(code);
    for (const text of [what, why, measured, source, mend]) {
      expect(text.length).toBeGreaterThan(10);
      expect(text).not.toMatch(/undefined|\{\w+\}(?! )/);
    }
    expect(explainText(code)).toContain(code);
    expect(explainMarkdown(code)).toContain(explanationOf(code).what);
  });

  it('knows no other code', () => {
    expect(explainText('strap.dropp')).toBeNull();
    expect(explainText('constructor')).toBeNull();
    expect(explainMarkdown('__proto__')).toBeNull();
  });
});

describe('every example shows what it says', () => {
  it.each(codes)('%s: the bad one yields it, the good one does not', async (code) => {
    const { stage, bad, good, files } = explanationOf(code);
    const worse = await analyse(`${STAGES[stage]}${bad}\n`, files);
    expect(
      worse.findings.map((f) => f.code),
      told(worse.findings).join('\n'),
    ).toContain(code);
    const better = await analyse(`${STAGES[stage]}${good}\n`, files);
    expect(
      better.findings.map((f) => f.code),
      told(better.findings).join('\n'),
    ).not.toContain(code);
  });

  it.each(codes)('%s: the good one brings no error', async (code) => {
    const { stage, good, files } = explanationOf(code);
    const better = await analyse(`${STAGES[stage]}${good}\n`, files);
    // The little cars of the rules are no whole cages: what else their book asks for is not their matter.
    const own = better.findings.filter((f) => f.severity === 'error' && (!Object.hasOwn(RULE_CODES, code) || !f.rule));
    expect(told(own)).toEqual([]);
  });
});
