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

it('a tube that has no shape yet is seen as the way of its nodes, on both sides of the car', async () => {
  const text =
    'cage "P"\nunits mm\nsection s { od 40; wall 2 }\nmirror left {\nnode a = (0, 500, 0)\nnode b = (0, 500, 900)\n' +
    'node c = (-700, 500, 900)\ntube t { section s; path a, b, c }\n}\nnode d = (0, 0, 1)\ntube u { section s; path a.left, d }\n';
  const analysis = await analyse(text);
  const { findings, marks } = viewOf(analysis, newViewCache(), { pack: () => '', say: () => '', have: {} });
  const bend = findings.find(({ code }) => code === 'bend.no-die');
  const paths = (bend?.marks ?? []).flatMap((k) => {
    const mark = marks[k];
    return mark?.kind === 'path' ? [mark.points] : [];
  });
  const way = (y: number) => [
    [0, y, 0],
    [0, y, 900],
    [-700, y, 900],
  ];
  expect(paths).toEqual([way(500), way(-500)]);
  expect(bend?.of).toEqual(['tube:t.left', 'tube:t.right']);
  // One that has a shape is not drawn a second time.
  expect(marks.filter(({ kind, of }) => kind === 'path' && of.includes('tube:u'))).toHaveLength(0);
});
