/** The clock of a tube's end: where 0 is, which way it grows, where the inside of the nearest bend lies. */
import type { Centreline } from '../centreline/centreline';
import { arcPoint } from '../centreline/piece';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { angleBetween, cross, dot, scale, sub, unit } from '../centreline/vector';
import type { ClockZero } from './shape';

const UP: Vec3 = [0, 0, 1];
const FORWARD: Vec3 = [1, 0, 0];
/** A leg this near to vertical, or nearer, has no useful top; the slack lets 20 degrees as computed be 20 degrees. */
const NO_TOP = (20 * Math.PI) / 180 + 1e-9;
/** A clock this little before a full turn is 0: what rounding leaves. */
const FULL_TURN_SLACK = 1e-12;

/** Which end of a tube. */
export type Which = 'first' | 'last';

/** A clock face across a leg. Looking along `travel`, from the tube's first end toward its last, clocks grow clockwise. */
export interface ClockFrame {
  /** Unit vector at clock 0, and what it is called. */
  readonly zero: ClockZero;
  /** Unit vector at clock 90 degrees: travel × zero. */
  readonly quarter: Vec3;
  /** Unit direction of the leg, from the tube's first end toward its last, at both ends. */
  readonly travel: Vec3;
}

/**
 * The clock across a leg that runs along the unit vector `travel` (first end toward last, also at the last end).
 * Clock 0 is TOP, the direction across the tube nearest to vehicle up; on a leg 20 degrees or less from vertical it
 * is FRONT, nearest to forward.
 */
export function clockFrame(travel: Vec3): ClockFrame {
  const fromVertical = angleBetween(travel, UP);
  const vertical = Math.min(fromVertical, Math.PI - fromVertical) <= NO_TOP;
  const toward = vertical ? FORWARD : UP;
  // Cross products, not a subtraction of nearly equal vectors; both are unit vectors across `travel`.
  const quarter = unit(cross(travel, toward));
  const vector = unit(cross(quarter, travel));
  return { zero: { vector, name: vertical ? 'FRONT' : 'TOP' }, quarter, travel };
}

/** The clock (radians, 0 up to a full turn) of a direction; its part along the leg does not count. */
export function clockOf(frame: ClockFrame, direction: Vec3): number {
  const clock = Math.atan2(dot(direction, frame.quarter), dot(direction, frame.zero.vector));
  if (clock >= 0) return clock + 0;
  const positive = clock + 2 * Math.PI;
  return positive >= 2 * Math.PI - FULL_TURN_SLACK ? 0 : positive;
}

/** The unit vector across the leg at `clock` radians. */
export function vectorAt(frame: ClockFrame, clock: number): Vec3 {
  const c = Math.cos(clock);
  const s = Math.sin(clock);
  const z = frame.zero.vector;
  const q = frame.quarter;
  return [z[0] * c + q[0] * s, z[1] * c + q[1] * s, z[2] * c + q[2] * s];
}

/** The end leg of a centreline. */
export interface EndLeg {
  /** The end point. */
  readonly origin: Vec3;
  /** Unit direction into the tube, away from the joint. */
  readonly away: Vec3;
  /** Unit direction from the tube's first end toward its last. */
  readonly travel: Vec3;
  /** Straight from the end to the nearest bend, or the whole length, mm; 0 where a bend begins at the end. */
  readonly straight: number;
}

/** Where a tube ends and how it leaves from there. */
export function endLeg(c: Centreline, which: Which): EndLeg {
  const first = which === 'first';
  const on = pointAt(c, first ? 0 : c.length);
  const arcs = c.pieces.filter((p) => p.kind === 'arc');
  const bend = first ? arcs[0] : arcs[arcs.length - 1];
  const straight = bend === undefined ? c.length : first ? bend.start : c.length - (bend.start + bend.length);
  return {
    origin: on.point,
    away: first ? on.tangent : scale(on.tangent, -1),
    travel: on.tangent,
    straight: straight > 0 ? straight : 0,
  };
}

/** The clock (radians) of the inside of the bend nearest to an end, on the frame of that end's leg; null without bends. */
export function bendInsideClock(c: Centreline, which: Which, frame: ClockFrame): number | null {
  const arcs = c.pieces.filter((p) => p.kind === 'arc');
  const arc = which === 'first' ? arcs[0] : arcs[arcs.length - 1];
  if (arc === undefined) return null;
  const rim = which === 'first' ? arcPoint(arc, 0) : arcPoint(arc, arc.angle);
  return clockOf(frame, sub(arc.centre, rim));
}
