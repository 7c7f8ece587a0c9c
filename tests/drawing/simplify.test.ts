/** Curves with fewer points: none that went is farther off than allowed, measured stretch by stretch. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Point } from '../../server/drawing/scene';
import { point } from '../../server/drawing/scene';
import { simplified } from '../../server/drawing/simplify';

/** From a point to the nearest of many places along a stretch: brute force. */
const off = (p: Point, a: Point, b: Point): number =>
  Math.min(
    ...Array.from({ length: 401 }, (_, i) =>
      Math.hypot(a.x + ((b.x - a.x) * i) / 400 - p.x, a.y + ((b.y - a.y) * i) / 400 - p.y),
    ),
  );

it('keeps its ends, some of its points in their order, and all others within the tolerance', () => {
  const place = fc.record({
    x: fc.double({ min: -20, max: 20, noNaN: true }),
    y: fc.double({ min: -20, max: 20, noNaN: true }),
  });
  fc.assert(
    fc.property(
      fc.array(place, { maxLength: 30 }),
      fc.double({ min: 0.01, max: 5, noNaN: true }),
      (points, tolerance) => {
        const kept = simplified(points, tolerance);
        expect(kept[0]).toBe(points[0]);
        expect(kept.at(-1)).toBe(points.at(-1));
        let next = 0;
        points.forEach((p) => {
          if (p === kept[next]) next += 1;
          else expect(off(p, kept[next - 1] ?? p, kept[next] ?? p)).toBeLessThan(tolerance + 0.15);
        });
        expect(next).toBe(kept.length);
      },
    ),
    { numRuns: 60 },
  );
});

it('a straight line is its two ends; a circle keeps as many as its sagitta asks for', () => {
  expect(simplified([point(0, 0), point(1, 1), point(2, 2), point(3, 3)], 0.01)).toEqual([point(0, 0), point(3, 3)]);
  const round = Array.from({ length: 721 }, (_, i) =>
    point(20 * Math.cos((i * Math.PI) / 720), 20 * Math.sin((i * Math.PI) / 720)),
  );
  // A chord over an angle t stands r (1 - cos(t / 2)) off its arc: for 0.01 mm of 20 mm at most 0.0632 rad, so 50 chords.
  const { length } = simplified(round, 0.01);
  expect(length).toBeGreaterThan(50);
  expect(length).toBeLessThan(110);
  expect(simplified([], 1)).toEqual([]);
});
