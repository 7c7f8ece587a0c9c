/**
 * A bent centreline: straight legs joined by arcs tangent to both. Numbers only.
 * Stations are millimetres along the bent centreline from its first point.
 */
import type { Vec3 } from './vector';

export interface Leg {
  readonly kind: 'leg';
  readonly from: Vec3;
  readonly to: Vec3;
  /** Unit direction of travel. */
  readonly direction: Vec3;
  readonly start: number;
  readonly length: number;
}

export interface Arc {
  readonly kind: 'arc';
  readonly centre: Vec3;
  readonly radius: number;
  /** Unit vector from the centre to where the arc begins. */
  readonly fromCentre: Vec3;
  /** Unit tangent of travel where the arc begins. */
  readonly tangent: Vec3;
  /** Unit normal of the bend plane: fromCentre × tangent. Travel is right-handed about it. */
  readonly axis: Vec3;
  /** Turn, radians, > 0. */
  readonly angle: number;
  readonly start: number;
  readonly length: number;
  /** Index of the path point that is this bend's corner. */
  readonly corner: number;
}

export type Piece = Leg | Arc;

export interface Centreline {
  /** In the order of travel. Legs of zero length between touching bends are left out. */
  readonly pieces: readonly Piece[];
  readonly length: number;
  /** The path's points, corners included. */
  readonly points: readonly Vec3[];
}

/** A corner of a path: how far it turns and how much of both legs its bend takes. */
export interface Corner {
  /** Index into the path's points. */
  readonly index: number;
  /** Turn in radians, 0 = straight on. */
  readonly angle: number;
  /** Centreline radius · tan(angle / 2); 0 where the path runs straight on; null without a radius. */
  readonly tangentLength: number | null;
}

export type PathProblem =
  | { readonly kind: 'zero-leg'; readonly leg: number }
  | { readonly kind: 'no-radius'; readonly corner: number; readonly angle: number }
  /** The bends at the two ends of leg `leg` (or the bend and the path's end) need `by` mm more than the leg has. */
  | { readonly kind: 'overlap'; readonly leg: number; readonly by: number };

export interface PathResult {
  /** Null when a problem stands in the way. */
  readonly centreline: Centreline | null;
  readonly corners: readonly Corner[];
  readonly problems: readonly PathProblem[];
}

export interface OnCentreline {
  readonly point: Vec3;
  /** Unit direction of travel. */
  readonly tangent: Vec3;
  readonly station: number;
}
