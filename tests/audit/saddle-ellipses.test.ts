/**
 * Equal tubes whose axes cross meet in two plane curves: ellipses with the semi-axes r and r / sin(a/2), and r and
 * r / cos(a/2) (solid geometry: cylinders of one radius have a common inscribed sphere, so their curve is of two planes).
 * An end that stops on the other tube keeps half of each. The perimeter is the complete elliptic integral, here by the
 * arithmetic-geometric mean (Abramowitz and Stegun 17.6).
 */
import { describe, expect, it } from 'vitest';
import { mirrorY } from '../../server/centreline/vector';
import type { Vec3 } from '../../server/centreline/vector';
import { shapeOf } from '../../server/geometry/index';
import { CarMaker, OPEN } from '../geometry/car-maker';

/** Perimeter of an ellipse: 2 pi (1 - sum 2^(n-1) c_n^2) a^2 / M(a, b), with c_0^2 = a^2 - b^2. */
function perimeter(long: number, short: number): number {
  let [a, b] = [long, short];
  let sum = (a * a - b * b) / 2;
  for (let power = 1; power < 1e6; power *= 2) {
    const c = (a - b) / 2;
    [a, b] = [(a + b) / 2, Math.sqrt(a * b)];
    sum += power * c * c;
    if (c < 1e-16) break;
  }
  return (2 * Math.PI * (long * long - sum)) / a;
}

const R = 22.5;
const saddle = (angle: number, turn: number, twin = false): number | null => {
  // A host aslant in the car, and a child that leaves it at `angle`, turned about it.
  const at = (p: Vec3): Vec3 => (twin ? mirrorY(p) : p);
  const along: Vec3 = [0.36, 0.48, 0.8];
  const one: Vec3 = [0.8, -0.6, 0];
  const two: Vec3 = [0.48, 0.64, -0.6];
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const out = (k: number): number =>
    (along[k] ?? 0) * c + s * ((one[k] ?? 0) * Math.cos(turn) + (two[k] ?? 0) * Math.sin(turn));
  const far = (k: number, by: number): number => (along[k] ?? 0) * by;
  const shape = shapeOf(
    new CarMaker()
      .node('a', at([far(0, -600), far(1, -600), far(2, -600)]))
      .node('b', at([far(0, 600), far(1, 600), far(2, 600)]))
      .node('o', [0, 0, 0])
      .node('e', at([600 * out(0), 600 * out(1), 600 * out(2)]))
      .tube('host', ['a', 'b'], { od: 2 * R, first: OPEN, last: OPEN })
      .tube('child', ['o', 'e'], { od: 2 * R, last: OPEN })
      .cage(),
  );
  return shape.parts.get('child')?.ends[0].saddleLength ?? null;
};

describe('saddle length of equal tubes', () => {
  it('the reference: a circle, and an ellipse from a table', () => {
    expect(perimeter(1, 1)).toBeCloseTo(2 * Math.PI, 12);
    // Semi-axes 2 and 1: 9.688448220547... (from memory).
    expect(perimeter(2, 1)).toBeCloseTo(9.6884482205, 9);
  });

  it.each([90, 75, 60, 45, 35])('at %d degrees is half of both ellipses', (degrees) => {
    const angle = (degrees * Math.PI) / 180;
    const halves = (perimeter(R / Math.sin(angle / 2), R) + perimeter(R / Math.cos(angle / 2), R)) / 2;
    // At the two kinks the child's side grazes the host: a set-back there is known to some 5e-7 (a root of rounding).
    for (const turn of [0, 0.3, 1.234, 2.9, 4.4]) {
      expect(Math.abs((saddle(angle, turn) ?? NaN) - halves)).toBeLessThan(3e-6);
      expect(Math.abs((saddle(angle, turn) ?? NaN) - (saddle(angle, turn, true) ?? NaN))).toBeLessThan(2e-6);
    }
  });
});
