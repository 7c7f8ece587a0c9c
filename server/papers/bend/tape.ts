/**
 * Whether a tape can be pulled straight between two points of a bent tube, and how far apart the outsides of its square ends
 * are. The tube is the true bent surface: all points at its outside radius from the centreline. Millimetres.
 */
import type { Centreline } from '../../centreline/centreline';
import { nearestOn, pointAt } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import { addScaled, cross, distance, dot, norm, scale, sub, unit } from '../../centreline/vector';

/** The rim of a square end: a circle. */
export interface Rim {
  readonly centre: Vec3;
  /** Unit, out of the tube. */
  readonly out: Vec3;
  readonly radius: number;
}

export function rimsOf(line: Centreline, radius: number): readonly [Rim, Rim] {
  const [first, last] = [pointAt(line, 0), pointAt(line, line.length)];
  return [
    { centre: first.point, out: scale(first.tangent, -1), radius },
    { centre: last.point, out: last.tangent, radius },
  ];
}

/** Across a direction: the point of a rim that reaches farthest along it. */
function toward(rim: Rim, direction: Vec3): Vec3 {
  const across = addScaled(direction, rim.out, -dot(direction, rim.out));
  return norm(across) < 1e-12 ? around(rim, 0) : addScaled(rim.centre, unit(across), rim.radius);
}

const ROUNDS = 60;
const STARTS = 12;

/** A point of a rim, radians round it. */
function around(rim: Rim, clock: number): Vec3 {
  const helper: Vec3 = Math.abs(rim.out[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const u = unit(cross(rim.out, helper));
  const v = cross(rim.out, u);
  return addScaled(addScaled(rim.centre, u, rim.radius * Math.cos(clock)), v, rim.radius * Math.sin(clock));
}

/** The point of a rim farthest from a place. Exact: the distance over a circle grows with the part along its plane. */
export const farthestOn = (rim: Rim, from: Vec3): Vec3 => toward(rim, sub(rim.centre, from));

/** The point of a rim nearest to a place outside of it. */
export const nearestOfRim = (rim: Rim, from: Vec3): Vec3 => toward(rim, sub(from, rim.centre));

/**
 * The points of two rims that are nearest to each other, of rims that lie apart: from the middles, in turns, until they
 * stand still.
 */
export function insideToInside(a: Rim, b: Rim): readonly [Vec3, Vec3] {
  let p = nearestOfRim(a, b.centre);
  let q = nearestOfRim(b, p);
  for (let k = 0; k < ROUNDS; k++) {
    p = nearestOfRim(a, q);
    q = nearestOfRim(b, p);
  }
  return [p, q];
}

/**
 * The points of two rims that are farthest apart. From each of a few points round the first rim: the farthest of the other,
 * then the farthest of the first from that, until it stands still; of all the farthest.
 */
export function outsideToOutside(a: Rim, b: Rim): readonly [Vec3, Vec3] {
  let best: readonly [Vec3, Vec3] = [a.centre, b.centre];
  let most = -1;
  for (let i = 0; i < STARTS; i++) {
    let p = around(a, (2 * Math.PI * i) / STARTS);
    let q = farthestOn(b, p);
    for (let k = 0; k < ROUNDS; k++) {
      const next = farthestOn(a, q);
      const still = distance(next, p) < 1e-9;
      p = next;
      q = farthestOn(b, p);
      if (still) break;
    }
    if (distance(p, q) > most + 1e-9) {
      most = distance(p, q);
      best = [p, q];
    }
  }
  return best;
}

/** A tape may press so far into the tube, mm: nothing that is seen on it. */
const PRESS = 0.05;
/** Looked at along a tape, mm. */
const STEP = 2;
/** In front of a square end, mm. */
const BEFORE = 0.02;

/** True where nothing of the tube stands between two points of its surface. */
export function isClear(line: Centreline, radius: number, from: Vec3, to: Vec3): boolean {
  const length = distance(from, to);
  const steps = Math.max(8, Math.ceil(length / STEP));
  const [first, last] = rimsOf(line, radius);
  for (let i = 1; i < steps; i++) {
    const at = addScaled(from, sub(to, from), i / steps);
    const on = nearestOn(line, at);
    if (on.distance >= radius - PRESS) continue;
    const before =
      (on.station <= 1e-9 && dot(sub(at, first.centre), first.out) > -BEFORE) ||
      (on.station >= line.length - 1e-9 && dot(sub(at, last.centre), last.out) > -BEFORE);
    if (!before) return false;
  }
  return true;
}
