/** Outlines that turn inward: triangles against the shoelace formula, the even-odd rule and points strewn over the face. */
import { describe, expect, it } from 'vitest';
import { facesOf } from '../../server/centreline/outline';
import type { Vec3 } from '../../server/centreline/vector';
import { add, cross, distance, norm, scale, sub } from '../../server/centreline/vector';
import { crossesPanel } from '../../server/papers/order/through';
import { weldLines } from '../../server/papers/weld/list';
import { distanceTo } from '../../server/rules/panels';
import { between, random } from '../geometry/joint-maker';
import { inputOf } from '../papers/bend/support';

type Flat = readonly [number, number];

/** Round the origin, near and far by turns as it comes: plain, and most often not convex. */
const anyOutline = (roll: () => number): readonly Flat[] => {
  const count = 3 + Math.floor(roll() * 9);
  return Array.from({ length: count }, (_, i): Flat => {
    const turn = ((i + between(roll, 0.1, 0.9)) / count) * 2 * Math.PI;
    const far = between(roll, 50, 400);
    return [far * Math.cos(turn), far * Math.sin(turn)];
  });
};

/** The shoelace formula. */
const area = (of: readonly Flat[]): number =>
  of.reduce((sum, [x, y], i) => {
    const [u, v] = of[(i + 1) % of.length] ?? [0, 0];
    return sum + (x * v - u * y) / 2;
  }, 0);

/** The even-odd rule: a line from the point crosses the edge an odd number of times. */
const isIn = (of: readonly Flat[], [x, y]: Flat): boolean =>
  of.filter(([x1, y1], i) => {
    const [x2, y2] = of[(i + 1) % of.length] ?? [0, 0];
    return y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1);
  }).length %
    2 ===
  1;

/** Somewhere in space, in a plane that leans. */
const U: Vec3 = [0.6, 0.64, 0.48];
const V: Vec3 = [-0.8, 0.48, 0.36];
const lifted = ([x, y]: Flat): Vec3 => add([100, -50, 700], add(scale(U, x), scale(V, y)));

const panel = (outline: readonly Vec3[]): Parameters<typeof distanceTo>[0] => ({ outline });

describe('an outline that turns inward', () => {
  it('is made of triangles of its whole area, and of nothing else', () => {
    const roll = random(5);
    for (let n = 0; n < 200; n++) {
      const flat = anyOutline(roll);
      const faces = facesOf(flat.map(lifted));
      const sum = faces.reduce((all, [a, b, c]) => all + norm(cross(sub(b, a), sub(c, a))) / 2, 0);
      expect(sum / Math.abs(area(flat))).toBeCloseTo(1, 9);
    }
  });

  it('is crossed where the even-odd rule says so', () => {
    const roll = random(6);
    const normal = cross(U, V);
    let [inside, outside] = [0, 0];
    for (let n = 0; n < 60; n++) {
      const flat = anyOutline(roll);
      const outline = flat.map(lifted);
      for (let k = 0; k < 30; k++) {
        const at: Flat = [between(roll, -400, 400), between(roll, -400, 400)];
        const p = lifted(at);
        const met = crossesPanel(add(p, scale(normal, 10)), add(p, scale(normal, -7)), outline);
        expect(met).toBe(isIn(flat, at));
        if (met) inside++;
        else outside++;
      }
    }
    expect(inside).toBeGreaterThan(200);
    expect(outside).toBeGreaterThan(200);
  });

  it('is as far away as the nearest of many points strewn over it', () => {
    const roll = random(7);
    for (let n = 0; n < 25; n++) {
      const flat = anyOutline(roll);
      const far = distanceTo(panel(flat.map(lifted)));
      const strewn: Vec3[] = [];
      for (let x = -400; x <= 400; x += 8)
        for (let y = -400; y <= 400; y += 8) if (isIn(flat, [x, y])) strewn.push(lifted([x, y]));
      if (strewn.length < 50) continue;
      for (let k = 0; k < 8; k++) {
        const p: Vec3 = [between(roll, -400, 600), between(roll, -500, 400), between(roll, 300, 1100)];
        const nearest = Math.min(...strewn.map((q) => distance(p, q)));
        const told = far?.(p) ?? NaN;
        expect(told).toBeLessThanOrEqual(nearest + 1e-9);
        // A thin tip of the outline may lie between the strewn points.
        expect(told).toBeGreaterThan(nearest - 60);
        expect(Math.abs(told - nearest) < 8 || told < nearest).toBe(true);
      }
    }
  });

  it('is not there in its notch (worked by hand), said twice or not', () => {
    const ell: readonly Vec3[] = [
      [0, 0, 0],
      [100, 0, 0],
      [100, 20, 0],
      [20, 20, 0],
      [20, 100, 0],
      [0, 100, 0],
    ];
    expect(distanceTo(panel(ell))?.([60, 60, 0])).toBeCloseTo(40, 9);
    expect(distanceTo(panel(ell))?.([10, 90, 5])).toBeCloseTo(5, 9);
    expect(distanceTo(panel([...ell, [0, 0, 0]]))?.([60, 60, 0])).toBeCloseTo(40, 9);
    // Begun at another corner it is the same outline.
    expect(distanceTo(panel([...ell.slice(2), ...ell.slice(0, 2)]))?.([60, 60, 0])).toBeCloseTo(40, 9);
  });

  it('what crosses itself, a line and a point do not throw', () => {
    const bow: readonly Vec3[] = [
      [0, 0, 0],
      [2, 2, 0],
      [2, 0, 0],
      [0, 2, 0],
    ];
    expect(distanceTo(panel(bow))?.([0, 0, 3])).toBeCloseTo(3, 9);
    expect(distanceTo(panel(bow.slice(0, 2)))?.([0, 0, 3])).toBeCloseTo(3, 9);
    expect(distanceTo(panel(bow.slice(0, 1)))).toBeNull();
    expect(facesOf([])).toEqual([]);
  });
});

it('a torch gets into the notch of a panel as if that were not there', async () => {
  const tee = (skin: string): string => `cage "Tee"
units mm
section bar { od 40; wall 2 }
node low = (0, 0, 0)
node high = (0, 0, 1000)
node root = (0, 0, 500)
node tip = (0, 600, 500)
tube post as brace { section bar; path low, high }
tube arm as brace { section bar; path root, tip }
${skin}
`;
  const blocked = async (skin: string): Promise<number> => {
    const line = weldLines(await inputOf(tee(skin))).find(
      ({ part, end }) => part.name === 'arm' && end.which === 'first',
    );
    return line?.reach?.blocked ?? NaN;
  };
  // A U round the joint, its arms far to both sides: a fan from its first corner would lie right over the joint.
  const u =
    '(-400, -400, 535), (400, -400, 535), (400, 900, 535), (300, 900, 535), (300, -300, 535), (-300, -300, 535), (-300, 900, 535), (-400, 900, 535)';
  expect(await blocked(`panel skin as roof { outline ${u} }`)).toBe(0);
  expect(
    await blocked(
      'panel skin as roof { outline (-400, -400, 535), (400, -400, 535), (400, 900, 535), (-400, 900, 535) }',
    ),
  ).toBeGreaterThan(0);
});
