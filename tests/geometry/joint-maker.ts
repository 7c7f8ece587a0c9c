/** Joints for tests: chosen by a small random number generator of our own, so that a seed says which. */
import { buildPath } from '../../server/centreline/build';
import type { Centreline } from '../../server/centreline/centreline';
import { pointAt } from '../../server/centreline/query';
import type { Vec3 } from '../../server/centreline/vector';
import { addScaled, cross, unit } from '../../server/centreline/vector';
import { clockFrame } from '../../server/geometry/clock';
import type { ChildEnd, TubeHost } from '../../server/geometry/setback';

/** Mulberry32 (public domain, T. Ettinger): 32 bits of state, numbers from 0 up to 1. */
export function random(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export const between = (roll: () => number, low: number, high: number): number => low + (high - low) * roll();

/** A direction evenly spread over the sphere. */
export function anyDirection(roll: () => number): Vec3 {
  const z = between(roll, -1, 1);
  const turn = between(roll, 0, 2 * Math.PI);
  const flat = Math.sqrt(1 - z * z);
  return [flat * Math.cos(turn), flat * Math.sin(turn), z];
}

/** A unit vector across `axis`, turned about it at random. */
export const anyAcross = (roll: () => number, axis: Vec3): Vec3 => {
  for (;;) {
    const across = cross(axis, anyDirection(roll));
    if (Math.hypot(...across) > 0.1) return unit(across);
  }
};

/** A path that has a centreline. */
export function line(points: readonly Vec3[], radius: number | null = null): Centreline {
  const { centreline } = buildPath(points, radius);
  if (centreline === null) throw new Error('this path was meant to be sound');
  return centreline;
}

/** An end at `origin` that leaves along `away`; the tube's first end. */
export function endOf(origin: Vec3, away: Vec3, outerRadius: number, wall: number, limit: number): ChildEnd {
  const frame = clockFrame(away);
  return {
    origin,
    away,
    zero: frame.zero.vector,
    quarter: frame.quarter,
    outerRadius,
    innerRadius: outerRadius - wall,
    limit,
  };
}

/** A tube that runs through at `station`. */
export const through = (centreline: Centreline, radius: number, station: number): TubeHost => ({
  kind: 'tube',
  centreline,
  radius,
  station,
  from: null,
  to: null,
});

/** A direction at `angle` to `axis`, turned about it at random. */
export const leaning = (roll: () => number, axis: Vec3, angle: number): Vec3 =>
  unit(
    addScaled(
      [axis[0] * Math.cos(angle), axis[1] * Math.cos(angle), axis[2] * Math.cos(angle)],
      anyAcross(roll, axis),
      Math.sin(angle),
    ),
  );

/** A host bent once, somewhere in space: two legs and the arc between. */
export function bentOnce(roll: () => number, bendRadius: number): Centreline {
  const start: Vec3 = [between(roll, -200, 200), between(roll, -200, 200), between(roll, -200, 200)];
  const first = anyDirection(roll);
  const second = leaning(roll, first, between(roll, 0.3, 1.9));
  const corner = addScaled(start, first, bendRadius * 1.6 + 250);
  return line([start, corner, addScaled(corner, second, bendRadius * 1.6 + 250)], bendRadius);
}

export { pointAt };
