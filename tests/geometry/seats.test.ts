/** Seat and bar gaps against distances worked out by hand, and against a dense sampling of both bodies. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deg, mm } from '../../grammar/units';
import type { Seat } from '../../server/cage/cage';
import { onPiece } from '../../server/centreline/piece';
import type { Vec3 } from '../../server/centreline/vector';
import { add, addScaled, cross, distance, scale, unit } from '../../server/centreline/vector';
import { Neighbours } from '../../server/geometry/neighbours';
import { seatFigures, seatsOf } from '../../server/geometry/seats';
import { rearRectangle } from '../../server/geometry/shell';
import { rectangleToTube } from '../../server/geometry/solid-distance';
import type { Part } from '../../server/geometry/shape';
import { strapsOf } from '../../server/geometry/straps';
import { cageOf, partOf, partsByName, seatOf, strapOf, tubeOf } from './strap-car';

// The shell: slots at (0, ±100, 800), 40 thick, upright. Its rear rectangle stands at x = -40 over y ±160, z 740 to 860.
const seat = seatOf([0, 0, 800]);
const near = (of: Seat, ...parts: readonly Part[]) => seatFigures(of, new Neighbours(parts), []);
const gapTo = (path: readonly Vec3[], od = 40, radius: number | null = null): number | null =>
  near(seat, partOf(tubeOf('bar', path, od, radius))).gap;

describe('the gap behind a seat', () => {
  it('is level to a bar behind the rectangle', () => {
    expect(
      gapTo([
        [-240, 500, 800],
        [-240, -500, 800],
      ]),
    ).toBeCloseTo(180, 6);
  });

  it('goes to the nearest edge where the bar is lower', () => {
    // From (-40, y, 740) to the axis at (-240, 700): hypot(200, 40), less the radius.
    expect(
      gapTo([
        [-240, 500, 700],
        [-240, -500, 700],
      ]),
    ).toBeCloseTo(Math.hypot(200, 40) - 20, 6);
  });

  it('goes to the corner where a tube passes upright beside it', () => {
    expect(
      gapTo([
        [-100, 300, 0],
        [-100, 300, 1500],
      ]),
    ).toBeCloseTo(Math.hypot(60, 140) - 20, 6);
  });

  it('counts a bend', () => {
    // Legs 45° aft on both sides of a corner at x = -200, radius 100: the bend's middle is 100 (√2 - 1) behind it.
    const gap = gapTo(
      [
        [-500, 300, 800],
        [-200, 0, 800],
        [-500, -300, 800],
      ],
      40,
      100,
    );
    expect(gap).toBeCloseTo(160 + 100 * (Math.SQRT2 - 1) - 20, 6);
  });

  it('takes an end that points at the seat as flat, not as round', () => {
    expect(
      gapTo([
        [-90, 0, 800],
        [-500, 0, 800],
      ]),
    ).toBeCloseTo(50, 6);
    // Its rim overlaps the rectangle's side at y = 160 by 10: still straight back.
    expect(
      gapTo([
        [-90, 170, 800],
        [-500, 170, 800],
      ]),
    ).toBeCloseTo(50, 6);
    // 10 beside it: to the rim.
    expect(
      gapTo([
        [-90, 190, 800],
        [-500, 190, 800],
      ]),
    ).toBeCloseTo(Math.hypot(50, 10), 6);
  });

  it('stops at the cut, not at the node', () => {
    const tube = tubeOf(
      'bar',
      [
        [-60, 0, 800],
        [-500, 0, 800],
      ],
      40,
    );
    const part = partOf(tube, { minCut: mm(25), maxCut: mm(25) });
    expect(near(seat, part).gap).toBeCloseTo(45, 6);
    const past = partOf(tube, { minCut: mm(-10), maxCut: mm(-10) });
    expect(near(seat, past).gap).toBeCloseTo(10, 6);
  });

  it('is below 0 where a tube stands inside the seat: by so much as its surface is in front of the rear face', () => {
    const across = (x: number): number | null =>
      gapTo([
        [x, 500, 800],
        [x, -500, 800],
      ]);
    // The rear face is at x = -40, the tube's radius 20.
    expect(across(-40)).toBeCloseTo(-20, 9);
    expect(across(-50)).toBeCloseTo(-10, 9);
    expect(across(-60)).toBeCloseTo(0, 9);
    expect(across(0)).toBeCloseTo(-60, 9);
    // One that leans through it: the foremost of it that is before the rectangle (160 to either side).
    expect(
      gapTo([
        [-40 - 500, 500, 800],
        [-40 + 500, -500, 800],
      ]),
    ).toBeCloseTo(-(160 + 20), 6);
    // Before the driver is not inside the seat.
    expect(across(400)).toBeCloseTo(440 - 20, 6);
  });

  it('leans with the seat', () => {
    // Reclined 20°, the face's foot is (-40 cos 20°, -40 sin 20°) from the slots and its lower edge 60 down the back.
    const [c, s] = [Math.cos(Math.PI / 9), Math.sin(Math.PI / 9)];
    const edge: Vec3 = [-40 * c + 60 * s, 0, 800 - 40 * s - 60 * c];
    const leaning = seatOf([0, 0, 800], { recline: deg(20) });
    const bar = partOf(
      tubeOf(
        'bar',
        [
          [-200, 500, 600],
          [-200, -500, 600],
        ],
        40,
      ),
    );
    expect(near(leaning, bar).gap).toBeCloseTo(Math.hypot(edge[0] + 200, edge[2] - 600) - 20, 6);
  });

  it('names the nearest tube, and the straps their own bar', () => {
    const near = partOf(
      tubeOf(
        'hoop',
        [
          [-150, 500, 800],
          [-150, -500, 800],
        ],
        40,
      ),
    );
    const bar = partOf(
      tubeOf(
        'bar',
        [
          [-240, 500, 780],
          [-240, -500, 780],
        ],
        40,
      ),
    );
    const strap = strapOf();
    const cage = cageOf(seat, strap, near.tube, bar.tube);
    const parts = partsByName(near, bar);
    const { seats } = seatsOf(cage, parts, strapsOf(cage, parts).straps);
    expect(seats).toHaveLength(1);
    expect(seats[0]).toMatchObject({ name: 'driver', to: 'hoop', bar: 'bar' });
    expect(seats[0]?.gap).toBeCloseTo(90, 6);
    expect(seats[0]?.barGap).toBeCloseTo(180, 6);
  });

  it('chooses by name between equally near tubes, whatever their order', () => {
    const a = partOf(
      tubeOf(
        'a',
        [
          [-150, 500, 800],
          [-150, -500, 800],
        ],
        40,
      ),
    );
    const b = partOf(
      tubeOf(
        'b',
        [
          [-150, 500, 780],
          [-150, -500, 780],
        ],
        40,
      ),
    );
    expect(near(seat, a, b).to).toBe('a');
    expect(near(seat, b, a).to).toBe('a');
  });

  it('is not known without the shell or without a tube', () => {
    expect(near(seatOf([0, 0, 800], { back: null })).gap).toBeNull();
    expect(near(seat)).toMatchObject({ gap: null, to: null, barGap: null });
  });
});

describe('any tube', () => {
  it('is as near as the nearest of many points of both bodies', () => {
    const c = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
    const tubes = fc.record({
      a: fc.tuple(c(-600, 200), c(-600, 600), c(400, 1200)),
      corner: fc.tuple(c(-500, -60), c(-300, 300), c(600, 1000)),
      b: fc.tuple(c(-600, 200), c(-600, 600), c(400, 1200)),
    });
    const rectangle = rearRectangle(seat);
    if (rectangle === null) throw new Error('the seat has a shell');
    fc.assert(
      fc.property(tubes, ({ a, corner, b }) => {
        const line = tubeOf('t', [a, corner, b], 40, 80).centreline;
        if (line === null) return;
        const gap = rectangleToTube(rectangle, line, { from: mm(0), to: mm(line.length) }, 20);
        let least = Infinity;
        const nearestOnRectangle = (p: Vec3): Vec3 => [
          -40,
          Math.max(-160, Math.min(160, p[1])),
          Math.max(740, Math.min(860, p[2])),
        ];
        for (const piece of line.pieces) {
          for (let i = 0; i <= 60; i++) {
            const on = onPiece(piece, (piece.length * i) / 60);
            const u = unit(cross(on.tangent, Math.abs(on.tangent[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
            const v = cross(on.tangent, u);
            for (let k = 0; k < 48; k++) {
              const t = (2 * Math.PI * k) / 48;
              const p = addScaled(add(on.point, scale(u, 20 * Math.cos(t))), v, 20 * Math.sin(t));
              least = Math.min(least, distance(p, nearestOnRectangle(p)));
            }
          }
        }
        // The sampling never finds less, and finds it to within its own spacing.
        expect(gap).toBeLessThanOrEqual(least + 1e-6);
        const longest = Math.max(...line.pieces.map((piece) => piece.length)) / 60;
        expect(least - gap).toBeLessThan(longest + 3);
      }),
      { numRuns: 60 },
    );
  });
});
