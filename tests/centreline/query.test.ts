import { describe, expect, it } from 'vitest';
import { onPiece } from '../../server/centreline/piece';
import { bendSpan, nearestBetween, nearestOn, planeCrossings, pointAt } from '../../server/centreline/query';
import { mirrorCentreline } from '../support/mirrored';
import type { Vec3 } from '../../server/centreline/vector';
import { cross, distance, dot, mirrorY, sub } from '../../server/centreline/vector';
import { anyDirection, between, bentOnce, line, random } from '../geometry/joint-maker';

/** Up 500, a quarter round with radius 100, then 500 along y: the crown's top stands at z = 600. */
const quarter = line(
  [
    [0, 0, 0],
    [0, 0, 600],
    [0, 600, 600],
  ],
  100,
);

const hoop = line(
  [
    [0, 600, 0],
    [0, 600, 1000],
    [0, -600, 1000],
    [0, -600, 0],
  ],
  150,
);

/** The nearest of many points, the slow way. */
function bruteNearest(c: typeof hoop, p: Vec3): number {
  let least = Infinity;
  for (let i = 0; i <= 40000; i++) least = Math.min(least, distance(pointAt(c, (c.length * i) / 40000).point, p));
  return least;
}

describe('the point at a station', () => {
  it('is clamped to the ends', () => {
    expect(pointAt(quarter, -5).point).toEqual([0, 0, 0]);
    expect(pointAt(quarter, NaN).station).toBe(0);
    expect(pointAt(quarter, 1e9).point).toEqual([0, 600, 600]);
    expect(pointAt(quarter, Infinity).station).toBe(quarter.length);
  });

  it('on the arc stands where trigonometry puts it', () => {
    const mid = pointAt(quarter, 500 + (50 * Math.PI) / 2);
    expect(mid.point[1]).toBeCloseTo(100 - 100 * Math.SQRT1_2, 10);
    expect(mid.point[2]).toBeCloseTo(500 + 100 * Math.SQRT1_2, 10);
    expect(mid.tangent[1]).toBeCloseTo(Math.SQRT1_2, 12);
  });

  it('bendSpan gives where a bend begins, is half done and ends', () => {
    const span = bendSpan(quarter, 1);
    expect(span?.start).toBeCloseTo(500, 10);
    expect(span?.mid).toBeCloseTo(500 + 25 * Math.PI, 10);
    expect(span?.end).toBeCloseTo(500 + 50 * Math.PI, 10);
    expect(bendSpan(quarter, 0)).toBeNull();
    expect(bendSpan(quarter, 2)).toBeNull();
  });
});

describe('the nearest point', () => {
  it('agrees with the nearest of forty thousand points', () => {
    const roll = random(21);
    for (let i = 0; i < 20; i++) {
      const p: Vec3 = [between(roll, -300, 300), between(roll, -900, 900), between(roll, -300, 1300)];
      const found = nearestOn(hoop, p);
      expect(found.distance).toBeLessThanOrEqual(bruteNearest(hoop, p) + 1e-9);
      expect(found.distance).toBeGreaterThan(bruteNearest(hoop, p) - 1e-3);
      expect(distance(pointAt(hoop, found.station).point, found.point)).toBeLessThan(1e-9);
    }
  });

  it('of the bend’s own centre is one of the arc, at the radius', () => {
    const found = nearestOn(quarter, [0, 100, 500]);
    expect(found.distance).toBeCloseTo(100, 10);
  });
});

describe('crossings with a plane', () => {
  it('of a hoop with a level: one on each leg', () => {
    const { crossings, liesIn } = planeCrossings(hoop, [0, 0, 1], 775);
    expect(liesIn).toBe(false);
    expect(crossings.map((c) => c.point.map((v) => Math.round(v)))).toEqual([
      [0, 600, 775],
      [0, -600, 775],
    ]);
    expect(crossings[0]?.station).toBeCloseTo(775, 10);
  });

  it('in a bend stand where the circle says', () => {
    const { crossings } = planeCrossings(hoop, [0, 0, 2], 2 * 900);
    expect(crossings).toHaveLength(2);
    expect(crossings[0]?.point[2]).toBeCloseTo(900, 10);
    expect(crossings[0]?.point[1]).toBeCloseTo(450 + Math.sqrt(150 ** 2 - 50 ** 2), 10);
  });

  it('a touch at the tangent of a bend counts once, and a crossing where two pieces meet', () => {
    // The outermost point of this arc is its middle: a plane that touches it there.
    const c = line(
      [
        [0, 0, 0],
        [300, 300, 0],
        [600, 0, 0],
      ],
      100,
    );
    const top = pointAt(c, c.length / 2).point[1];
    expect(planeCrossings(c, [0, 1, 0], top).crossings).toHaveLength(1);
    expect(planeCrossings(c, [0, 1, 0], top + 1e-6).crossings).toHaveLength(0);
    expect(planeCrossings(c, [0, 1, 0], top - 1e-6).crossings).toHaveLength(2);
    const border = bendSpan(quarter, 1)?.start ?? NaN;
    expect(planeCrossings(quarter, [0, 0, 1], border).crossings).toHaveLength(1);
  });

  it('an end that stands in the plane counts once', () => {
    expect(planeCrossings(hoop, [0, 0, 1], 0).crossings.map((c) => c.station)).toEqual([0, hoop.length]);
    expect(planeCrossings(quarter, [0, 1, 0], 600).crossings.map((c) => c.station)).toEqual([quarter.length]);
  });

  it('a leg that lies in the plane is told, and is no crossing', () => {
    const found = planeCrossings(hoop, [0, 0, 1], 1000);
    expect(found.liesIn).toBe(true);
    expect(found.crossings).toEqual([]);
    const whole = planeCrossings(hoop, [1, 0, 0], 0);
    expect(whole.liesIn).toBe(true);
    expect(whole.crossings).toEqual([]);
  });

  it('every crossing lies on both, and the sides of the plane alternate between them', () => {
    const roll = random(22);
    for (let i = 0; i < 300; i++) {
      const c = bentOnce(roll, between(roll, 50, 200));
      const n = anyDirection(roll);
      const offset = dot(n, pointAt(c, c.length * roll()).point) + between(roll, -30, 30);
      const { crossings } = planeCrossings(c, n, offset);
      let side = Math.sign(dot(n, pointAt(c, 0).point) - offset);
      for (const crossing of crossings) {
        expect(Math.abs(dot(n, crossing.point) - offset)).toBeLessThan(1e-8);
        expect(distance(pointAt(c, crossing.station).point, crossing.point)).toBeLessThan(1e-8);
        side = -side;
      }
      expect(side).toBe(Math.sign(dot(n, pointAt(c, c.length).point) - offset));
    }
  });

  it('of no plane at all: none', () => {
    expect(planeCrossings(hoop, [0, 0, 0], 1)).toEqual({ crossings: [], liesIn: false });
    expect(planeCrossings(hoop, [0, 0, 1], NaN)).toEqual({ crossings: [], liesIn: false });
    expect(planeCrossings(hoop, [NaN, 0, 1], 5)).toEqual({ crossings: [], liesIn: false });
  });
});

describe('the nearest points of two tubes', () => {
  it('of two skew legs: the closed form', () => {
    const a = line([
      [-100, 0, 0],
      [100, 0, 0],
    ]);
    const b = line([
      [20, -100, 30],
      [20, 100, 30],
    ]);
    const found = nearestBetween(a, b);
    expect(found.distance).toBeCloseTo(30, 12);
    expect(found.onA.station).toBeCloseTo(120, 12);
    expect(found.onB.station).toBeCloseTo(100, 12);
  });

  it('of two parallel legs: the middle of what they share', () => {
    const a = line([
      [0, 0, 0],
      [100, 0, 0],
    ]);
    const b = line([
      [160, 7, 0],
      [60, 7, 0],
    ]);
    const found = nearestBetween(a, b);
    expect(found.distance).toBeCloseTo(7, 12);
    expect(found.onA.station).toBeCloseTo(80, 12);
    expect(found.onB.station).toBeCloseTo(80, 12);
  });

  it('is never farther than from any of many points, and square to both tubes inside them', () => {
    const roll = random(23);
    for (let i = 0; i < 60; i++) {
      const a = bentOnce(roll, between(roll, 50, 200));
      const b = bentOnce(roll, between(roll, 50, 200));
      const found = nearestBetween(a, b);
      expect(distance(found.onA.point, found.onB.point)).toBeCloseTo(found.distance, 10);
      let least = Infinity;
      for (let k = 0; k <= 600; k++)
        least = Math.min(least, nearestOn(b, pointAt(a, (a.length * k) / 600).point).distance);
      expect(found.distance).toBeLessThanOrEqual(least + 1e-9);
      expect(nearestBetween(b, a).distance).toBeCloseTo(found.distance, 8);
      const inside = found.onA.station > 1e-6 && found.onA.station < a.length - 1e-6;
      if (inside && found.distance > 1e-3) {
        const gap = sub(found.onB.point, found.onA.point);
        expect(Math.abs(dot(gap, found.onA.tangent)) / found.distance).toBeLessThan(1e-7);
      }
    }
  });

  it('finds the point where an arc meets a leg', () => {
    const onArc = pointAt(quarter, 540).point;
    const b = line([
      [-200, onArc[1] - 50, onArc[2] + 20],
      [200, onArc[1] + 50, onArc[2] - 20],
    ]);
    const found = nearestBetween(b, quarter);
    expect(found.distance).toBeLessThan(1e-9);
    expect(found.onB.station).toBeCloseTo(540, 7);
  });
});

describe('the mirror image', () => {
  it('is the image of every point, with stations kept and arcs still right-handed', () => {
    const roll = random(24);
    for (let i = 0; i < 20; i++) {
      const c = bentOnce(roll, 120);
      const image = mirrorCentreline(c);
      expect(image.length).toBe(c.length);
      for (let k = 0; k <= 20; k++) {
        const on = pointAt(c, (c.length * k) / 20);
        const there = pointAt(image, (c.length * k) / 20);
        expect(distance(there.point, mirrorY(on.point))).toBeLessThan(1e-10);
        expect(distance(there.tangent, mirrorY(on.tangent))).toBeLessThan(1e-12);
      }
      for (const piece of image.pieces) {
        if (piece.kind !== 'arc') continue;
        expect(distance(cross(piece.fromCentre, piece.tangent), piece.axis)).toBeLessThan(1e-12);
        expect(distance(onPiece(piece, 0).point, onPiece(piece, piece.length).point)).toBeGreaterThan(1);
      }
    }
  });
});
