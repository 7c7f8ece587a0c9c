/** Gussets and plates among tubes: what hides them and what they hide, where plain geometry tells it. */
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { bodyOf } from '../../server/drawing/body';
import type { Flat } from '../../server/drawing/car-lines';
import { flatLines } from '../../server/drawing/car-lines';
import { prism } from '../../server/drawing/solids';
import type { ViewName } from '../../server/drawing/view';
import { VIEWS } from '../../server/drawing/view';
import { analyse } from '../support/analyse';

/** A corner in the plane y = 0 with a gusset of plate in it, a tube before it, and one behind it. */
const CORNER = `units mm
section t { od 40; wall 2 }
section before { od 30; wall 2 }
section behind { od 10; wall 1 }
node a = (0, 0, 0)
node b = (0, 0, 600)
node c = (500, 0, 0)
node d = (-100, 200, 60)
node e = (600, 200, 60)
node f = (40, -200, -300)
node g = (40, -200, 500)
tube up { section t; path a, b; last open }
tube along { section t; path a, c; last open }
tube front { section before; path d, e; first open; last open }
tube rear { section behind; path f, g; first open; last open }
gusset g1 { at a; between up, along; legs 100 x 100; thickness 4; kind KIND }
`;

const linesOf = async (text: string, view: ViewName): Promise<readonly Flat[]> => {
  const { shape } = await analyse(text);
  const bodies = [...shape.parts.values()].flatMap((part) => bodyOf(part) ?? []);
  return flatLines(shape, VIEWS[view], bodies, 2, null).lines;
};

/** Stretches of a style along a line, as shares of the way from its one end to its other, in order. */
function along(lines: readonly Flat[], style: Flat['style'], [p, q]: readonly [readonly number[], readonly number[]]) {
  const [px = NaN, py = NaN] = p;
  const [dx, dy] = [(q[0] ?? NaN) - px, (q[1] ?? NaN) - py];
  const size = Math.hypot(dx, dy);
  const share = ([u, v]: readonly [number, number]): number => ((u - px) * dx + (v - py) * dy) / size ** 2;
  const off = ([u, v]: readonly [number, number]): number => Math.abs((u - px) * dy - (v - py) * dx) / size;
  return lines
    .filter((one) => one.style === style && one.points.every((at) => off(at) < 0.01))
    .map(({ points }) => points.map(share))
    .map((shares): [number, number] => [Math.min(...shares), Math.max(...shares)])
    .sort((a, b) => a[0] - b[0]);
}

/** In side view forward is to the left: (x, z) stands at (-x, z). */
const SLOPE = [
  [0, 100],
  [-100, 0],
] as const;

describe('a gusset of plate', () => {
  it('is broken where a tube passes before it, and drawn where it stands free', async () => {
    const lines = await linesOf(CORNER.replace('KIND', 'flat'), 'side');
    // The tube before it covers heights from 45 to 75: shares from 0.25 to 0.55 of the slope from z = 100 to z = 0. Both
    // faces of the plate, 4 mm apart, lie on one another in this view.
    const hidden = along(lines, 'hidden', SLOPE);
    expect(hidden.length).toBe(2);
    for (const [from, to] of hidden) {
      expect(from).toBeCloseTo(0.25, 2);
      expect(to).toBeCloseTo(0.55, 2);
    }
    // It begins and ends inside of its own tubes, 20 mm from their axes, where no line is drawn.
    const seen = along(lines, 'plate', SLOPE);
    expect(seen.length).toBe(4);
    expect(seen[0]?.[0]).toBeCloseTo(0.2, 2);
    expect(seen[0]?.[1]).toBeCloseTo(0.25, 2);
    expect(seen[3]?.[0]).toBeCloseTo(0.55, 2);
    expect(seen[3]?.[1]).toBeCloseTo(0.8, 2);
  });

  it('hides the tube behind it', async () => {
    // The rear tube's edge at x = 35 is behind the plate from the lower tube's top, z = 20, to the slope, z = 65.
    const at = (lines: readonly Flat[], z: number): readonly string[] =>
      lines
        .filter(
          ({ points }) =>
            points.every(([u]) => Math.abs(u + 35) < 0.01) &&
            Math.min(...points.map(([, v]) => v)) < z &&
            Math.max(...points.map(([, v]) => v)) > z,
        )
        .map(({ style }) => style);
    const free = CORNER.replace('node d = (-100, 200, 60)', 'node d = (-100, 200, 400)').replace(
      'node e = (600, 200, 60)',
      'node e = (600, 200, 400)',
    );
    const with_ = await linesOf(free.replace('KIND', 'flat'), 'side');
    expect(at(with_, 40)).toEqual(['hidden']);
    expect(at(with_, 62)).toEqual(['hidden']);
    expect(at(with_, 68)).toEqual(['outline']);
    const without = await linesOf(free.replace(/gusset.*\n/, ''), 'side');
    expect(at(without, 40)).toEqual(['outline']);
  });

  it('of sheet is as wide as its tubes from above, one of tube is as thick as half of them', async () => {
    // From above forward is to the left and the car's left below: (x, y) stands at (-x, -y).
    const lines = await linesOf(CORNER.replace('KIND', 'sheet').replace(/(node [de] .*), 60\)/g, '$1, -400)'), 'plan');
    const edge = along(lines, 'plate', [
      [-100, -20],
      [-100, 20],
    ]);
    expect(edge.length).toBeGreaterThan(0);
    const rod = await linesOf(CORNER.replace('KIND', 'tube').replace(/(node [de] .*), 60\)/g, '$1, -400)'), 'side');
    const offset = 10 * Math.SQRT1_2;
    for (const side of [1, -1])
      expect(
        along(rod, 'plate', [
          [side * -offset, 100 + side * offset],
          [-100 + side * -offset, side * offset],
        ]).length,
      ).toBeGreaterThan(0);
  });
});

describe('a plate', () => {
  it('behind a tube is drawn as hidden, its own far edges are not drawn', async () => {
    const text = `units mm
section t { od 40; wall 2 }
node a = (0, 0, 0)
node b = (0, 0, 600)
node d = (-300, 200, -3)
node e = (-300, 200, 300)
node h = (-30, 200, -100)
node i = (-30, 200, 300)
tube post { section t; path a, b; last open }
tube front { section t; path h, i; first open; last open }
foot plate { at a; plate 140 x 100 x 6; lies level }
`;
    const lines = await linesOf(text, 'side');
    // Its top edge nearest to the viewer, from x = -70 to 70 at z = 0; the tube before it covers x from -50 to -10. The far
    // top edge lies on it in this view: it is hidden behind that tube too, and by the plate's own tube, x from -20 to 20.
    const top = [
      [70, 0],
      [-70, 0],
    ] as const;
    const seen = along(lines, 'plate', top);
    expect(seen.some(([from, to]) => from < 0.001 && Math.abs(to - 20 / 140) < 0.005)).toBe(true);
    expect(seen.some(([from, to]) => to > 0.999 && Math.abs(from - 60 / 140) < 0.005)).toBe(true);
    const hidden = along(lines, 'hidden', top);
    expect(hidden.some(([from, to]) => Math.abs(from - 20 / 140) < 0.005 && Math.abs(to - 60 / 140) < 0.005)).toBe(
      true,
    );
    // From above the lower edges lie right below the upper ones: they are hidden by nothing but their own plate.
    const above = await linesOf(text.replace(/tube front.*\n/, ''), 'plan');
    expect(above.filter(({ style }) => style === 'plate').length).toBeGreaterThan(0);
    expect(above.filter(({ style }) => style === 'hidden')).toEqual([]);
  });
});

describe('a prism', () => {
  const at = (x: number, y: number, z: number): Vec3 => [x, y, z];
  it('says how near it comes', () => {
    const flat = prism(0, [at(0, 0, 5), at(100, 0, 5), at(0, 100, 5)], at(0, 0, 2));
    expect(flat.depth(20, 20)).toBeCloseTo(7, 9);
    expect(flat.depth(49, 49)).toBeCloseTo(7, 9);
    expect(flat.depth(51, 51)).toBe(-Infinity);
    expect(flat.depth(-1, 20)).toBe(-Infinity);
    // On edge: a triangle in the plane of u and depth, 4 mm to either side; over u = 30 it rises to 70.
    const upright = prism(0, [at(0, 0, 0), at(100, 0, 0), at(0, 0, 100)], at(0, 4, 0));
    expect(upright.depth(30, 3.9)).toBeCloseTo(70, 9);
    expect(upright.depth(30, 4.1)).toBe(-Infinity);
  });
});
