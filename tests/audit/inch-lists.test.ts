/** `in` is a unit before the `x` of a list, though it begins places elsewhere (language page, "Numbers and units"). */
import { describe, expect, it } from 'vitest';
import { analyse } from '../support/analyse';

describe('measures in inches separated by x', () => {
  // 1 in = 25.4 mm exactly (international inch, 1959).
  it.each([
    ['1 3/4 in x .095 in', 44.45, 2.413],
    ['1.75 in x 2.5 mm', 44.45, 2.5],
    ['1.75in x .095in', 44.45, 2.413],
    ['1 3/4 x .095 in', 44.45, 2.413],
    ['45 mm x 0.1 in', 45, 2.54],
  ])('size %s', async (size, od, wall) => {
    const { cage, findings } = await analyse(`section s { size ${size} }\n`);
    expect(findings).toEqual([]);
    const section = cage.sections.get('s')?.value;
    expect(section?.od).toBeCloseTo(od, 9);
    expect(section?.wall).toBeCloseTo(wall, 9);
  });

  it('a plate, with and without blanks', async () => {
    for (const plate of ['2 in x 4 in x 1/8 in', '2in x 4in x 1/8 in', '2 x 4 x 1/8 in']) {
      const { cage } = await analyse(`node n = (0, 500, 0)\nfoot f { at n; plate ${plate} }\n`);
      const foot = cage.things.get('f');
      const found = foot?.kind === 'foot' ? foot.plate : null;
      expect([found?.long, found?.wide, found?.thick].map((v) => v?.toFixed(6))).toEqual([
        '50.800000',
        '101.600000',
        '3.175000',
      ]);
    }
  });
});
