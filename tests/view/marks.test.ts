/** Where findings are seen: the example of every code, and lines that are as long as the figure that they show. */
import { expect, it } from 'vitest';
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import { STAGES } from '../../grammar/explanations';
import { explanationOf } from '../../server/rules/explanations';
import { newViewCache, openFindings, viewOf } from '../../server/view/view';
import { analyse } from '../support/analyse';

/** A bent bar is measured along itself, and the formula's figure is a difference. */
const NOT_STRAIGHT: readonly string[] = ['strap.spacing', 'strap.gap', 'strap.spacing-formula'];

it('every code that measures is seen on the car of its own example', async () => {
  let lines = 0;
  for (const code of Object.keys(CODES) as Code[]) {
    const { stage, bad, files } = explanationOf(code);
    const analysis = await analyse(`${STAGES[stage]}${bad}\n`, files);
    const { findings, marks } = viewOf(analysis, newViewCache(), { pack: () => '', say: () => '', have: {} });
    const open = openFindings(analysis.findings);
    const i = open.findIndex((finding) => finding.code === code);
    const measured = open[i]?.measured;
    const finding = findings[i];
    if (finding === undefined || measured === undefined) continue;
    expect(finding.of.length, `${code}: what has it`).toBeGreaterThan(0);
    expect(finding.marks.length, `${code}: where it is`).toBeGreaterThan(0);
    for (const k of finding.marks) {
      const mark = marks[k];
      expect(mark?.says, code).toMatch(/\w/);
      if (mark?.kind !== 'distance' || NOT_STRAIGHT.includes(code)) continue;
      const length = Math.hypot(...mark.from.map((value, axis) => value - (mark.to[axis] ?? 0)));
      expect(length, code).toBeCloseTo(Math.abs(measured.value), 0);
      lines += 1;
    }
  }
  expect(lines).toBeGreaterThan(8);
}, 120_000);
