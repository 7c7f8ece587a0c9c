/** What a saw wants of an end that a plane cuts. */
import type { ChildEnd, PlaneHost } from './setback';
import type { Vec3 } from '../centreline/vector';
import { angleBetween, dot } from '../centreline/vector';

/** A cut less than this off square has no long point, radians. */
const SQUARE = 1e-9;

export interface SawCut {
  /** Off square, 0 up to (not including) π/2. */
  readonly angle: number;
  /** Clock of the long point, radians 0..2π, where the set-back is smallest; null for a square cut. */
  readonly longPoint: number | null;
}

/**
 * How an end that a plane cuts is sawn: the angle between the plane's normal and the leg, and the clock of the long
 * point. Null where the plane runs along the leg, or is none.
 */
export function sawCut(child: ChildEnd, plane: PlaneHost): SawCut | null {
  const between = angleBetween(plane.normal, child.away);
  const flipped = between > Math.PI / 2;
  const angle = flipped ? Math.PI - between : between;
  const size = dot(plane.normal, plane.normal);
  if (!(size > 0 && size < Infinity) || !(Math.PI / 2 - angle > SQUARE)) return null;
  if (angle < SQUARE) return { angle: 0, longPoint: null };
  // Set-back falls toward the normal on the child's side: s = (n·(P - E) - ρ n·d(φ)) / n·u.
  const n: Vec3 = flipped ? [-plane.normal[0], -plane.normal[1], -plane.normal[2]] : plane.normal;
  const clock = Math.atan2(dot(n, child.quarter), dot(n, child.zero));
  return { angle, longPoint: clock < 0 ? clock + 2 * Math.PI : clock + 0 };
}
