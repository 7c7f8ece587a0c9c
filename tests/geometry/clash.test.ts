/**
 * Tubes that run into each other. Two round tubes overlap by the sum of their radii less the distance of their axes,
 * which for skew lines is |d · (u × v)| / |u × v| (any textbook of analytic geometry).
 */
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { BoxTree } from '../../server/geometry/boxes';
import type { Box } from '../../server/geometry/boxes';
import { shapeOf } from '../../server/geometry/index';
import type { Shape } from '../../server/geometry/shape';
import { CarMaker, die, OPEN, onto, past } from './car-maker';
import type { TubeOptions } from './car-maker';

const clashes = (shape: Shape): readonly (readonly [string, string, number])[] =>
  shape.findings
    .filter((f) => f.code === 'tube.clash')
    .map((f) => [String(f.params['a']), String(f.params['b']), f.measured?.value ?? NaN]);

const LOOSE: TubeOptions = { first: OPEN, last: OPEN };

const two = (
  a: readonly Vec3[],
  b: readonly Vec3[],
  one: TubeOptions = LOOSE,
  other: TubeOptions = LOOSE,
): CarMaker => {
  const car = new CarMaker();
  a.forEach((p, i) => car.node(`a${String(i)}`, p));
  b.forEach((p, i) => car.node(`b${String(i)}`, p));
  return car
    .tube(
      'one',
      a.map((_, i) => `a${String(i)}`),
      one,
    )
    .tube(
      'two',
      b.map((_, i) => `b${String(i)}`),
      other,
    );
};

describe('tubes without a joint', () => {
  const crossing = (apart: number): CarMaker =>
    two(
      [
        [-300, 0, 0],
        [300, 0, 0],
      ],
      [
        [0, -300, apart],
        [100, 300, apart],
      ],
    );

  it('that cross nearer than their radii clash, by how much they overlap', () => {
    expect(clashes(shapeOf(crossing(38.1).cage()))).toEqual([]);
    expect(clashes(shapeOf(crossing(37.5).cage()))).toEqual([['one', 'two', expect.closeTo(0.5, 6)]]);
    expect(clashes(shapeOf(crossing(10).cage()))).toEqual([['one', 'two', expect.closeTo(28, 6)]]);
  });

  it('that bend clash where the bend is', () => {
    // The middle of the arc stands this far in from both legs.
    const inward = 114 * (1 - Math.SQRT1_2);
    const car = two(
      [
        [0, 0, 0],
        [400, 0, 0],
        [400, 400, 0],
      ],
      [
        [400 - inward, inward, -300],
        [400 - inward, inward, 300],
      ],
      { ...LOOSE, die: die(38, 114) },
    );
    const found = clashes(shapeOf(car.cage()));
    expect(found).toHaveLength(1);
    expect(found[0]?.[2]).toBeCloseTo(38, 6);
  });

  it('ends are flat, not round: an open end that stops short of another tube is clear of it', () => {
    const stopping = (x: number): CarMaker =>
      two(
        [
          [x, 0, 0],
          [400, 0, 0],
        ],
        [
          [0, -300, 0],
          [0, 300, 0],
        ],
      );
    // The other tube's surface is at x = 19.
    expect(clashes(shapeOf(stopping(19.5).cage()))).toEqual([]);
    const [found] = clashes(shapeOf(stopping(16).cage()));
    expect(found?.[2]).toBeGreaterThan(2.5);
    expect(found?.[2]).toBeLessThan(3.01);
  });

  it('a tube told past runs into what stands there', () => {
    const car = (length: number): CarMaker =>
      two(
        [
          [-300, 0, 0],
          [0, 0, 0],
        ],
        [
          [60, -300, 0],
          [60, 300, 0],
        ],
        { first: OPEN, last: past(length) },
      );
    expect(clashes(shapeOf(car(40).cage()))).toEqual([]);
    expect(clashes(shapeOf(car(60).cage()))).toHaveLength(1);
  });
});

describe('tubes with a joint', () => {
  it('overlap there without a clash, straight or bent, and however they are cut', () => {
    const car = new CarMaker()
      .nodes('foot', [0, 600, 0])
      .nodes('crown', [0, 500, 1000])
      .tube('hoop', ['foot.left', 'crown.left', 'crown.right', 'foot.right'], { od: 45, die: die(45, 135), ...LOOSE })
      .node('p', [0, 0, 1000])
      .node('stay', [-600, 0, 400])
      .tube('stay', ['p', 'stay'], { last: OPEN })
      .node('ahead', [600, 0, 1100])
      .tube('ahead', ['p', 'ahead'], { last: OPEN })
      .node('q', [0, 20, 1000])
      .node('low', [0, 200, 400])
      .tube('low', ['q', 'low'], { last: OPEN });
    expect(clashes(shapeOf(car.cage()))).toEqual([]);
  });

  it('clash where they meet again elsewhere', () => {
    // A bar that leaves the rail, turns round and comes back through it.
    const car = two(
      [
        [0, 0, 0],
        [300, 0, 0],
        [300, 300, 0],
        [-300, 300, 0],
      ],
      [
        [0, -600, 0],
        [0, 600, 0],
      ],
      { die: die(38, 114), last: OPEN },
    );
    expect(clashes(shapeOf(car.cage()))).toEqual([['one', 'two', expect.closeTo(38, 6)]]);
  });

  it('a tube that is cut to another is clear of a third that passes behind it', () => {
    // The stub lands on the rail; behind the rail, 45 on, runs a third tube that the uncut stub would not reach.
    const car = two(
      [
        [0, 0, 0],
        [300, 0, 0],
      ],
      [
        [0, -300, 0],
        [0, 300, 0],
      ],
      { last: OPEN },
    )
      .node('c1', [-39, -300, 0])
      .node('c2', [-39, 300, 0])
      .tube('behind', ['c1', 'c2'], LOOSE);
    expect(clashes(shapeOf(car.cage()))).toEqual([]);
  });

  it('three at a node, a split X, and the pieces with what splits them do not clash', () => {
    const car = new CarMaker()
      .node('o', [0, 0, 0])
      .node('x', [400, 0, 0])
      .node('y', [0, 400, 0])
      .node('z', [0, 0, 400])
      .tube('c', ['o', 'z'], { od: 45, last: OPEN })
      .tube('b', ['o', 'y'], { od: 40, last: OPEN })
      .tube('a', ['o', 'x'], { last: OPEN })
      .node('u1', [1000, 0, 0])
      .node('u2', [1400, 400, 0])
      .node('v1', [1400, 0, 0])
      .node('v2', [1000, 400, 0])
      .tube('u', ['u1', 'u2'], LOOSE)
      .tube('v', ['v1', 'v2'], { ...LOOSE, split: 'u' });
    expect(clashes(shapeOf(car.cage()))).toEqual([]);
  });

  it('beside a joint: a brace told onto one tube only runs into the other that it touches too', () => {
    const car = (hosts: readonly string[]): CarMaker =>
      new CarMaker()
        .node('r1', [0, -400, 0])
        .node('r2', [0, 400, 0])
        .tube('rail', ['r1', 'r2'], { od: 45, ...LOOSE })
        .node('s', [0, 0, 0])
        .node('t', [0, 0, 400])
        .tube('post', ['s', 't'], { last: OPEN })
        // 25 up the post: its radius of 19 reaches into the rail.
        .node('p', [0, 0, 25])
        .node('q', [0, 300, 40])
        .tube('brace', ['p', 'q'], { first: onto(...hosts), last: OPEN });
    expect(clashes(shapeOf(car(['post']).cage())).map(([a, b]) => [a, b])).toEqual([['brace', 'rail']]);
    expect(clashes(shapeOf(car(['post', 'rail']).cage()))).toEqual([]);
  });
});

describe('the broad phase', () => {
  it('finds the same pairs as looking at all of them', () => {
    let state = 7;
    const roll = (): number => {
      state = (state * 1103515245 + 12345) % 2147483648;
      return state / 2147483648;
    };
    const boxes = Array.from({ length: 300 }, (): Box => {
      const [x, y, z] = [roll() * 1000, roll() * 1000, roll() * 1000];
      return [x, y, z, x + roll() * 120, y + roll() * 120, z + roll() * 120];
    });
    const slow = new Set<string>();
    for (const [i, a] of boxes.entries()) {
      for (let j = i + 1; j < boxes.length; j++) {
        const b = boxes[j] as Box;
        if (
          [0, 1, 2].every((k) => (a[k] as number) <= (b[k + 3] as number) && (b[k] as number) <= (a[k + 3] as number))
        ) {
          slow.add(`${String(i)} ${String(j)}`);
        }
      }
    }
    const quick = new Set<string>();
    new BoxTree(boxes).pairs((i, j) => quick.add(`${String(i)} ${String(j)}`));
    expect(slow.size).toBeGreaterThan(50);
    expect([...quick].sort()).toEqual([...slow].sort());
  });
});
