/** Sawn ends against what a plane does to a cylinder: an ellipse (any textbook of geometry). */
import { describe, expect, it } from 'vitest';
import { clockFrame } from '../../server/geometry/clock';
import { sawEnd } from '../../server/geometry/sawn';

const rad = (degrees: number): number => (degrees * Math.PI) / 180;

describe('a sawn end', () => {
  const frame = clockFrame([1, 0, 0]);
  const origin = [0, 0, 0] as const;

  it('square: no swing, no long point, the edge is a circle', () => {
    const end = sawEnd(frame, origin, [1, 0, 0], 20, 17.5, [-30, 5, 5], [-1, 0, 0]);
    expect(end?.minCut).toBeCloseTo(-30, 12);
    expect(end?.maxCut).toBeCloseTo(-30, 12);
    expect(end?.sawAngle).toBe(0);
    expect(end?.sawClock).toBeNull();
    expect(end?.saddleLength).toBeCloseTo(2 * Math.PI * 20, 10);
    expect(end?.ordinates).toHaveLength(37);
  });

  it('slanting: swings by r tan α, is longest where the plane leans away, and its edge is an ellipse', () => {
    const alpha = rad(30);
    // The normal leans up from the leg's direction: the plane falls back at the top, so the top is the long point.
    const normal = [Math.cos(alpha), 0, Math.sin(alpha)] as const;
    const end = sawEnd(frame, origin, [1, 0, 0], 20, 17.5, origin, normal);
    expect(end?.sawAngle).toBeCloseTo(alpha, 12);
    expect(end?.sawClock).toBeCloseTo(0, 12);
    expect(end?.minCut).toBeCloseTo(-20 * Math.tan(alpha), 10);
    expect(end?.depth).toBeCloseTo(40 * Math.tan(alpha), 10);
    expect(end?.ordinates[0]?.inner).toBeCloseTo(-17.5 * Math.tan(alpha), 10);
    expect(end?.ordinates[9]?.cut).toBeCloseTo(0, 10);
    // Ramanujan's second approximation of an ellipse's perimeter, good to 1e-9 here: half axes 20 and 20 / cos α.
    const [a, b] = [20 / Math.cos(alpha), 20];
    const h = ((a - b) / (a + b)) ** 2;
    const ramanujan = Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
    expect(end?.saddleLength).toBeCloseTo(ramanujan, 6);
    // The sense of the normal does not matter.
    const turned = sawEnd(frame, origin, [1, 0, 0], 20, 17.5, origin, [-normal[0], 0, -normal[2]]);
    expect(turned?.sawClock).toBeCloseTo(0, 12);
    expect(turned?.minCut).toBeCloseTo(end?.minCut ?? NaN, 12);
  });

  it('a plane along the leg cuts nothing', () => {
    expect(sawEnd(frame, origin, [1, 0, 0], 20, 17.5, origin, [0, 0, 1])).toBeNull();
  });
});
