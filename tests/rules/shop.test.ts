/** What the shop's own rules compute, against worked values from outside; and that the good samples are not drowned. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { STAGES } from '../../grammar/explanations';
import { nodeHost } from '../../server/host/node';
import { Project } from '../../server/project/pipeline';
import { difficulty } from '../../server/rules/measures/bend-difficulty';
import { thinning } from '../../server/rules/measures/bend-thinning';
import { between } from '../../server/rules/welds';
import { analyse, told } from '../support/analyse';

const INCH = 25.4;
const shapeOf = async (text: string, stage: keyof typeof STAGES = 'hoop') =>
  (await analyse(`${STAGES[stage]}rules shop\n${text}\n`)).shape;

describe('bends', () => {
  it('thin by (Ro - R) / Ro: 14.3 % at three diameters, .120 to .103 and .095 to .081 in (a toolmaker’s rule of thumb)', () => {
    expect(100 * thinning(1, 3)).toBeCloseTo(14.3, 1);
    expect(thinning(1.75, 5.25)).toBeCloseTo(thinning(38, 114), 12);
    expect(0.12 * (1 - thinning(1.5, 4.5))).toBeCloseTo(0.103, 3);
    expect(0.095 * (1 - thinning(1.5, 4.5))).toBeCloseTo(0.081, 3);
  });

  it('thin by 12.7 % at 6 in on 1 3/4: .120 to .105, .134 to .117 in', () => {
    expect(100 * thinning(1.75, 6)).toBeCloseTo(12.7, 1);
    expect(0.12 * (1 - thinning(1.75 * INCH, 6 * INCH))).toBeCloseTo(0.105, 3);
    expect(0.134 * (1 - thinning(1.75, 6))).toBeCloseTo(0.117, 3);
  });

  it('are as difficult as the toolmaker’s figure says: (2 x 2 + 0.2 od / wall + angle / 180) / (radius / od)', () => {
    // By hand: 1.75 x .120 at 5.25, 90 degrees: (4 + 2.917 + 0.5) / 3.
    expect(difficulty({ od: 1.75, wall: 0.12 }, 5.25, 90)).toBeCloseTo(2.472, 3);
    // 1.5 x .065 at 3.0, 180 degrees: (4 + 4.615 + 1) / 2.
    expect(difficulty({ od: 1.5, wall: 0.065 }, 3, 180)).toBeCloseTo(4.808, 3);
  });

  it('strain their outer fibre by od / (2 radius): 16.7 % at three diameters, as the explanation of welds near them says', () => {
    expect(100 / (2 * 3)).toBeCloseTo(16.7, 1);
    expect(100 * (thinning(1, 3) / (1 - thinning(1, 3)))).toBeCloseTo(16.7, 1);
  });
});

describe('joints', () => {
  const square = (od: number, wall: number): string =>
    `section host { od ${String(od)}; wall ${String(wall)} }
node a = (0, -300, 0)
node b = (0, 300, 0)
node c = (0, 0, 0)
node d = (400, 0, 0)
tube bar as brace { section host; path a, b; first open; last open }
tube stub as brace { section host; path c, d; first onto bar; last open }`;

  it('equal tubes at a right angle: half a diameter deep outside, about a third in the middle of the wall', async () => {
    // depth(phi) = R - sqrt(R^2 - (r sin phi)^2): geometry of two cylinders.
    for (const [od, wall] of [
      [1.5 * INCH, 0.095 * INCH],
      [1.5 * INCH, 0.12 * INCH],
      [1.75 * INCH, 0.12 * INCH],
    ] as const) {
      const end = (await shapeOf(square(od, wall), 'parts')).parts.get('stub')?.ends[0];
      const depth = (rho: number): number => {
        const at = [0, 90, 180, 270].map((deg) => end?.curve?.setback(rho, (deg * Math.PI) / 180) ?? NaN);
        return Math.max(...at) - Math.min(...at);
      };
      expect(depth(od / 2 - 1e-9) / od).toBeCloseTo(0.5, 3);
      const middle = depth(od / 2 - wall / 2) / od;
      expect(middle).toBeGreaterThan(0.295);
      expect(middle).toBeLessThan(0.345);
      const inside = depth(od / 2 - wall) / od;
      expect(inside).toBeGreaterThan(0.225);
      expect(inside).toBeLessThan(0.275);
    }
  });

  it('the groove of a square cut is never wider than the wall, and 0.9 of it for equal tubes at a right angle', async () => {
    const gap = (await shapeOf(square(45, 2.5), 'parts')).parts.get('stub')?.ends[0].widestGap ?? NaN;
    // The outer edge stands at the cut of the inner: hypot of sqrt(22.5² - 20²) and 22.5, less 22.5.
    expect(gap).toBeCloseTo(Math.hypot(Math.sqrt(22.5 ** 2 - 20 ** 2), 22.5) - 22.5, 2);
  });

  it('what an end covers of its host on the acute side: (r + R cos a) / sin a, at an angle a', async () => {
    for (const deg of [90, 60, 45]) {
      const a = (deg * Math.PI) / 180;
      const shape = await shapeOf(
        `node a = (0, -300, 0)
node b = (0, 300, 0)
node c = (0, 0, 0)
node d = (${(400 * Math.sin(a)).toFixed(9)}, ${(400 * Math.cos(a)).toFixed(9)}, 0)
tube bar as brace { section t45; path a, b; first open; last open }
tube stub as brace { section t38; path c, d; last open }`,
        'parts',
      );
      const print = shape.parts.get('stub')?.ends[0].prints[0];
      // In the plane of both axes the cut lies on the crown of the host, R above its axis.
      expect(print?.after).toBeCloseTo(19 / Math.sin(a) + 22.5 / Math.tan(a), 2);
    }
  });

  it('edges side by side are as far apart as their nearest points', () => {
    const ring = (y: number): readonly (readonly [number, number, number])[] =>
      Array.from({ length: 72 }, (_, i) => {
        const phi = (2 * Math.PI * (i + 0.5)) / 72;
        return [10 * Math.cos(phi), y + 10 * Math.sin(phi), 0] as const;
      });
    expect(between(ring(0), ring(27.3))).toBeCloseTo(7.3, 1);
    expect(between([], ring(0))).toBeNull();
  });
});

describe('the good samples', () => {
  const root = path.resolve(__dirname, '../..');
  it.each([
    ['plover-rollbar.cage', 6],
    ['siskin-club-bar.cage', 3],
    ['curlew-cage.cage', 8],
  ] as const)('%s is told no warning by the shop, and at most %i figures', async (name, most) => {
    const text = readFileSync(path.join(root, 'samples', name), 'utf8');
    const project = new Project();
    const { findings } = project.analyse(await project.load(nodeHost({ root }), `samples/${name}`, text));
    const shop = findings.filter(({ rule }) => rule?.book === 'shop');
    expect(told(shop.filter(({ severity }) => severity !== 'information'))).toEqual([]);
    expect(shop.length, told(shop).join('\n')).toBeLessThanOrEqual(most);
  });
});
