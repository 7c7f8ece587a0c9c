/**
 * Bend tables against handbook arithmetic: bend allowance 0.017453 · CLR · degrees, tangent length CLR · tan(angle / 2)
 * (any tube bender's handbook, e.g. Machinery's Handbook, "Lengths of straight stock for bending"; figures from memory).
 */
import { describe, expect, it } from 'vitest';
import { deg } from '../../grammar/units';
import { shapeOf } from '../../server/geometry/index';
import { bendRotation } from '../../server/geometry/bends';
import type { Part, Shape } from '../../server/geometry/shape';
import type { Vec3 } from '../../server/centreline/vector';
import { CarMaker, die, OPEN } from './car-maker';

const HANDBOOK = 0.017453292519943295;
const codes = (shape: Shape): readonly string[] =>
  shape.findings
    .map((f) => f.code)
    .filter((code) => !code.startsWith('space.'))
    .sort();

/** One tube through points, both ends open. */
const bent = (points: readonly Vec3[], od = 38, bender = die(38, 114, { grip: 75, between: 50 })): Shape => {
  const car = new CarMaker();
  points.forEach((p, i) => car.node(`n${String(i)}`, p));
  car.tube(
    'bar',
    points.map((_, i) => `n${String(i)}`),
    { od, die: bender, first: OPEN, last: OPEN },
  );
  return shapeOf(car.cage());
};
const bar = (shape: Shape): Part => {
  const part = shape.parts.get('bar');
  if (part === undefined) throw new Error('no bar');
  return part;
};

describe('the bend table', () => {
  it('of one right angle: straights, allowance, mark, no tail where the die can hold', () => {
    const shape = bent([
      [0, 0, 0],
      [400, 0, 0],
      [400, 300, 0],
    ]);
    expect(codes(shape)).toEqual([]);
    const part = bar(shape);
    const [bend] = part.bends;
    expect(bend?.angle).toBeCloseTo(Math.PI / 2, 12);
    expect(bend?.rotation).toBeNull();
    expect(bend?.radius).toBe(114);
    expect(bend?.straightBefore).toBeCloseTo(400 - 114, 9);
    expect(bend?.arcLength).toBeCloseTo(HANDBOOK * 114 * 90, 9);
    expect(part.straightAfter).toBeCloseTo(300 - 114, 9);
    expect(part.centrelineLength).toBeCloseTo(286 + HANDBOOK * 114 * 90 + 186, 9);
    expect(part.cutLength).toBeCloseTo(part.centrelineLength ?? NaN, 9);
    expect(part.stickLength).toBeCloseTo(part.cutLength ?? NaN, 9);
    expect(bend?.startMark).toBeCloseTo(286, 9);
    expect(bend?.overbend).toBeNull();
  });

  it('a straight shorter than the die grips is a tail on the stick, not a fault', () => {
    // 150 - 114 = 36 before the bend, 39 short of the grip of 75; 160 - 114 = 46 after it, 44 short of the follow of 90.
    const shape = bent(
      [
        [0, 0, 0],
        [150, 0, 0],
        [150, 160, 0],
      ],
      38,
      die(38, 114, { grip: 75, follow: 90 }),
    );
    expect(codes(shape)).toEqual([]);
    const part = bar(shape);
    expect(part.stickLength).toBeCloseTo((part.cutLength ?? NaN) + 39 + 44, 9);
    expect(part.bends[0]?.startMark).toBeCloseTo(75, 9);
  });

  it('tails count from the long point, marks from the end of the stick', () => {
    const car = new CarMaker()
      .node('r1', [0, -300, 0])
      .node('r2', [0, 300, 0])
      .tube('rail', ['r1', 'r2'], { od: 45, first: OPEN, last: OPEN })
      .node('a', [0, 0, 0])
      .node('b', [190, 0, 0])
      .node('c', [190, 0, 400])
      .tube('bar', ['a', 'b', 'c'], { die: die(38, 114, { grip: 75, between: 50 }), last: OPEN });
    const shape = shapeOf(car.cage());
    expect(codes(shape)).toEqual([]);
    const part = bar(shape);
    const cut = part.ends[0].minCut ?? NaN;
    expect(cut).toBeCloseTo(Math.sqrt(22.5 ** 2 - 16.5 ** 2), 8);
    // From node to bend 76; the long point stands `cut` nearer.
    const tail = 75 - (76 - cut);
    expect(part.stickLength).toBeCloseTo((part.cutLength ?? NaN) + tail, 9);
    expect(part.bends[0]?.startMark).toBeCloseTo(tail + 76 - cut, 9);
    // The bend rises from the bar's end: its inside is on top.
    expect(part.ends[0].bendInsideClock).toBeCloseTo(0, 9);
  });

  it('springback is given for 90 degrees and grows in proportion', () => {
    const bender = { ...die(38, 114), springback: deg(2.1) };
    const shape = bent(
      [
        [0, 0, 0],
        [400, 0, 0],
        [400 + 400 * Math.cos(Math.PI / 6), 400 * Math.sin(Math.PI / 6), 0],
      ],
      38,
      bender,
    );
    expect(bar(shape).bends[0]?.overbend).toBeCloseTo(deg(0.7), 12);
  });

  it('rotation is right-handed about the travel, and half a turn is +180', () => {
    // Along x, bend to +y, then to +z: the second plane is the first turned about +y. Normals: x × y = z, y × z = x;
    // from z to x is +90 about y.
    const up = bent([
      [0, 0, 0],
      [400, 0, 0],
      [400, 400, 0],
      [400, 400, 400],
    ]);
    expect(bar(up).bends[1]?.rotation).toBeCloseTo(Math.PI / 2, 12);
    const down = bent([
      [0, 0, 0],
      [400, 0, 0],
      [400, 400, 0],
      [400, 400, -400],
    ]);
    expect(bar(down).bends[1]?.rotation).toBeCloseTo(-Math.PI / 2, 12);
    const same = bent([
      [0, 0, 0],
      [400, 0, 0],
      [400, 400, 0],
      [0, 400, 0],
    ]);
    expect(bar(same).bends[1]?.rotation).toBeCloseTo(0, 12);
    const ess = bent([
      [0, 0, 0],
      [400, 0, 0],
      [400, 400, 0],
      [800, 400, 0],
    ]);
    expect(bar(ess).bends[1]?.rotation).toBeCloseTo(Math.PI, 12);
    expect(bendRotation([0, 0, 1], [1e-12, 0, -1], [0, 1, 0])).toBeCloseTo(Math.PI, 11);
    expect(bendRotation([0, 0, 1], [-1e-12, 0, -1], [0, 1, 0])).toBeCloseTo(Math.PI, 11);
  });

  it('the straight of the first row counts from the node, the others between bends, and all add up', () => {
    const part = bar(
      bent([
        [0, 0, 0],
        [300, 0, 0],
        [300, 350, 0],
        [300, 350, 500],
      ]),
    );
    expect(part.bends.map((b) => b.straightBefore)).toEqual([
      expect.closeTo(300 - 114, 9),
      expect.closeTo(350 - 228, 9),
    ]);
    const sum = part.bends.reduce(
      (s, b) => s + (b.straightBefore ?? NaN) + (b.arcLength ?? NaN),
      part.straightAfter ?? NaN,
    );
    expect(sum).toBeCloseTo(part.centrelineLength ?? NaN, 9);
  });

  it('corners that turn less than 1e-6 degrees are left out', () => {
    const tiny = (9e-7 * Math.PI) / 180;
    const part = bar(
      bent([
        [0, 0, 0],
        [400, 0, 0],
        [400 + 400 * Math.cos(tiny), 400 * Math.sin(tiny), 0],
      ]),
    );
    expect(part.bends).toEqual([]);
    expect(part.straightAfter).toBeCloseTo(800, 9);
  });
});

describe('what is wrong with bends', () => {
  it('overlap says by how much; the bends stay listed with their angles, their lengths null', () => {
    const shape = bent([
      [0, 0, 0],
      [400, 0, 0],
      [400, 200, 0],
      [800, 200, 0],
    ]);
    expect(codes(shape)).toEqual(['bend.overlap']);
    // Two tangents of 114 on a leg of 200.
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(28, 9);
    expect(shape.findings[0]?.params['need']).toEqual({ value: expect.closeTo(228, 9) as number, unit: 'mm' });
    const part = bar(shape);
    expect(part.bends).toHaveLength(2);
    for (const bend of part.bends) {
      expect(bend.angle).toBeCloseTo(Math.PI / 2, 12);
      expect([bend.straightBefore, bend.arcLength, bend.startMark]).toEqual([null, null, null]);
    }
    expect(part.bends[1]?.rotation).toBeCloseTo(Math.PI, 12);
    expect([part.centrelineLength, part.cutLength, part.stickLength, part.mass]).toEqual([null, null, null, null]);
    expect(shape.mass).toBeNull();
    // Just enough: touching bends are no overlap, though the die wants 50 between them.
    const touching = bent([
      [0, 0, 0],
      [400, 0, 0],
      [400, 228, 0],
      [800, 228, 0],
    ]);
    expect(codes(touching)).toEqual(['bend.between']);
  });

  it('less straight between bends than the die holds', () => {
    const between = (length: number): Shape =>
      bent([
        [0, 0, 0],
        [400, 0, 0],
        [400, 228 + length, 0],
        [800, 228 + length, 0],
      ]);
    const shape = between(49);
    expect(codes(shape)).toEqual(['bend.between']);
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(49, 9);
    expect(shape.findings[0]?.allowed?.from).toBe(50);
    expect(codes(between(50))).toEqual([]);
  });

  it('a turn without a die, a path that stands still', () => {
    const car = new CarMaker()
      .node('a', [0, 0, 0])
      .node('b', [400, 0, 0])
      .node('c', [400, 300, 0])
      .node('d', [400, 300, 0])
      .tube('turn', ['a', 'b', 'c'], { first: OPEN, last: OPEN })
      .tube('still', ['a', 'c', 'd'], { first: OPEN, last: OPEN });
    const found = shapeOf(car.cage()).findings.filter((f) => f.code === 'bend.no-die' || f.code === 'leg.zero');
    expect(found.map((f) => [f.code, f.subject])).toEqual([
      ['bend.no-die', 'turn'],
      ['leg.zero', 'still'],
    ]);
    expect(found[0]?.measured?.value).toBeCloseTo(90, 9);
  });

  const corner = (degrees: number): readonly Vec3[] => {
    const a = (degrees * Math.PI) / 180;
    return [
      [0, 0, 0],
      [400, 0, 0],
      [400 + 400 * Math.cos(a), 400 * Math.sin(a), 0],
    ];
  };

  it('a die for another tube, with 0.3 mm of slack', () => {
    expect(codes(bent(corner(60), 38, die(38.3, 114)))).toEqual([]);
    const shape = bent(corner(60), 38, die(38.4, 120));
    expect(codes(shape)).toEqual(['bend.die-diameter']);
  });

  it('a radius under three diameters, with 0.5 mm of slack', () => {
    expect(codes(bent(corner(60), 38, die(38, 113.5)))).toEqual([]);
    const shape = bent(corner(60), 38, die(38, 113));
    expect(codes(shape)).toEqual(['bend.radius']);
    expect(shape.findings[0]?.measured?.value).toBe(113);
  });

  it('a bend by accident', () => {
    expect(codes(bent(corner(0.5)))).toEqual([]);
    const shape = bent(corner(0.4));
    expect(codes(shape)).toEqual(['bend.tiny']);
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(0.4, 9);
    expect(shape.findings[0]?.at).toEqual({ kind: 'thing', thing: 'bar', fact: 'path', item: 1 });
  });

  it('a bend out of the plane of the one before by accident, also in an S', () => {
    const turned = (degrees: number, away: 1 | -1): Shape => {
      const a = (degrees * Math.PI) / 180;
      return bent([
        [0, 0, 0],
        [400, 0, 0],
        [400, 400, 0],
        [400 - away * 400 * Math.cos(a), 400, 400 * Math.sin(a)],
      ]);
    };
    expect(codes(turned(2.1, 1))).toEqual([]);
    const shape = turned(1.9, 1);
    expect(codes(shape)).toEqual(['bend.rotation-tiny']);
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(1.9, 9);
    expect(codes(turned(1.9, -1))).toEqual(['bend.rotation-tiny']);
    expect(codes(turned(0, -1))).toEqual([]);
  });
});
