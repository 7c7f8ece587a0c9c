/**
 * A second way to every set-back, that shares nothing with the geometry under test: march along a generator in small
 * steps, ask at each whether the point is inside a body, and bisect the last way out. Bodies are told by their
 * definitions alone: nearer to an axis than its radius, and for a half beyond a flat.
 */
import type { Vec3 } from '../../server/centreline/vector';

export type Inside = (p: Vec3) => boolean;

const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const times = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const crossed = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const long = (a: Vec3): number => Math.sqrt(times(a, a));
const unitOf = (a: Vec3): Vec3 => [a[0] / long(a), a[1] / long(a), a[2] / long(a)];
const plus = (a: Vec3, b: Vec3, k: number): Vec3 => [a[0] + b[0] * k, a[1] + b[1] * k, a[2] + b[2] * k];

/** The solid of a straight tube from a toward b; a half begins at the flat across its axis through a. */
export function straight(a: Vec3, b: Vec3, radius: number, half: boolean): Inside {
  const along = unitOf(minus(b, a));
  return (p) => {
    const rel = minus(p, a);
    const k = times(rel, along);
    return long(plus(rel, along, -k)) < radius && (!half || k >= 0);
  };
}

/** Where 0 stands on a leg's clock and a quarter turn on; `travel` from first end to last. */
export function clockFace(travel: Vec3): (clock: number) => Vec3 {
  const d = unitOf(travel);
  const steep = Math.acos(Math.min(1, Math.abs(d[2]))) <= (20 * Math.PI) / 180 + 1e-9;
  const toward: Vec3 = steep ? [1, 0, 0] : [0, 0, 1];
  const zero = unitOf(plus(toward, d, -times(toward, d)));
  const quarter = crossed(d, zero);
  return (clock) => plus(plus([0, 0, 0], zero, Math.cos(clock)), quarter, Math.sin(clock));
}

/** The last way out of any body on the generator, mm from E along `away`; null where it is inside none. */
export function lastExit(
  bodies: readonly Inside[],
  origin: Vec3,
  away: Vec3,
  radial: Vec3,
  rho: number,
  limit: number,
): number | null {
  const u = unitOf(away);
  const from = plus(origin, radial, rho);
  const inside = (s: number): boolean => bodies.some((body) => body(plus(from, u, s)));
  const step = 0.05;
  for (let s = limit; s > -limit; s -= step) {
    if (!inside(s)) continue;
    let low = s;
    let high = s + step;
    for (let i = 0; i < 50; i++) {
      const middle = (low + high) / 2;
      if (inside(middle)) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }
  return null;
}
