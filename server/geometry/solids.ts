/** Tubes as the solids that are left once their ends are cut: is a point inside, and how deep. Millimetres. */
import type { Centreline } from '../centreline/centreline';
import { nearestOn, pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, dot, sub, unit } from '../centreline/vector';
import type { ClockFrame } from './clock';
import { clockOf } from './clock';
import type { CopeCurve } from './cope';
import { lengthened } from './parts';

/** How one end of a solid is cut. */
export interface SolidEnd {
  readonly origin: Vec3;
  readonly away: Vec3;
  readonly frame: ClockFrame;
  readonly straight: number;
  /** Null: how it is cut is not known. */
  readonly curve: CopeCurve | null;
  readonly minCut: number;
  readonly maxCut: number;
}

export interface Solid {
  /** From long point to long point where the tube is longer than its path, else from node to node. */
  readonly line: Centreline;
  readonly radius: number;
  /** Of the bore. */
  readonly inner: number;
  readonly ends: readonly [SolidEnd, SolidEnd];
}

/** A solid, its centreline lengthened where an end runs on past its node. */
export function solidOf(line: Centreline, radius: number, inner: number, ends: readonly [SolidEnd, SolidEnd]): Solid {
  return { line: lengthened(line, Math.max(0, -ends[0].minCut), Math.max(0, -ends[1].minCut)), radius, inner, ends };
}

/** How deep a point lies in a solid: the distance to its side, or along the tube to its cut end; negative outside. */
export function depthIn(solid: Solid, p: Vec3): number {
  const on = nearestOn(solid.line, p);
  let depth = solid.radius - on.distance;
  if (depth <= 0) return depth;
  for (const [i, end] of solid.ends.entries()) {
    const station = i === 0 ? on.station : solid.line.length - on.station;
    const from = sub(p, end.origin);
    const along = dot(from, end.away);
    // Far up the tube, or in its bend, the end does not matter.
    if (station > Math.max(end.maxCut, 0) + Math.max(0, -end.minCut) + solid.radius && along > end.maxCut) continue;
    const cut = cutAt(solid, end, from, on.distance);
    depth = Math.min(depth, cut === null ? -1 : along - cut);
    if (depth <= 0) return depth;
  }
  return depth;
}

/**
 * Where an end is cut at a point `rho` from the axis. In the wall that is the cut; in the bore, which counts as filled so
 * that nothing hides in a tube, it is the set-back there: a host bulges into the bore of what is coped to it.
 */
function cutAt(solid: Solid, end: SolidEnd, from: Vec3, rho: number): number | null {
  if (end.curve === null) return null;
  const clock = clockOf(end.frame, from);
  return rho < solid.inner ? end.curve.setback(rho, clock) : end.curve.cut(clock);
}

const CLOCKS = 48;

/** How deep the surface of one solid, about stations `low` to `high` of its line, lies in the other; 0: not at all. */
export function depthOfSurface(
  solid: Solid,
  low: number,
  high: number,
  other: Solid,
): { depth: number; at: Vec3 | null } {
  let depth = 0;
  let at: Vec3 | null = null;
  const steps = Math.max(8, Math.min(200, Math.ceil((high - low) / (solid.radius / 5))));
  for (let i = 0; i <= steps; i++) {
    const station = low + ((high - low) * i) / steps;
    const on = pointAt(solid.line, station);
    // Any two directions across the tube will do.
    const aside: Vec3 = Math.abs(on.tangent[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
    const one = unit(cross(on.tangent, aside));
    const two = cross(on.tangent, one);
    for (let k = 0; k < CLOCKS; k++) {
      const turn = (2 * Math.PI * k) / CLOCKS;
      const rim = addScaled(
        addScaled(on.point, one, solid.radius * Math.cos(turn)),
        two,
        solid.radius * Math.sin(turn),
      );
      const inOther = depthIn(other, rim);
      if (inOther <= depth || !isThere(solid, rim)) continue;
      depth = inOther;
      at = rim;
    }
  }
  return { depth, at };
}

/** Whether a point of the surface is left once the ends are cut. */
function isThere(solid: Solid, p: Vec3): boolean {
  return solid.ends.every((end) => {
    const from = sub(p, end.origin);
    const along = dot(from, end.away);
    if (along > end.maxCut || Math.hypot(...from) > 4 * solid.radius + Math.abs(end.maxCut) + Math.abs(end.minCut))
      return true;
    const cut = end.curve === null ? null : end.curve.cut(clockOf(end.frame, from));
    return cut !== null && along >= cut;
  });
}
