/** One leg or arc: its points, its directions, its point nearest to another. */
import type { Arc, Leg, OnCentreline, Piece } from './centreline';
import type { Vec3 } from './vector';
import { addScaled, dot, sub } from './vector';

/** Point of an arc at `angle` radians from where it begins. */
export const arcPoint = (arc: Arc, angle: number): Vec3 => {
  const c = arc.radius * Math.cos(angle);
  const s = arc.radius * Math.sin(angle);
  return [
    arc.centre[0] + arc.fromCentre[0] * c + arc.tangent[0] * s,
    arc.centre[1] + arc.fromCentre[1] * c + arc.tangent[1] * s,
    arc.centre[2] + arc.fromCentre[2] * c + arc.tangent[2] * s,
  ];
};

/** Unit direction of travel of an arc at `angle` radians from where it begins. */
export const arcTangent = (arc: Arc, angle: number): Vec3 => {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return [
    arc.tangent[0] * c - arc.fromCentre[0] * s,
    arc.tangent[1] * c - arc.fromCentre[1] * s,
    arc.tangent[2] * c - arc.fromCentre[2] * s,
  ];
};

/** A piece's point `along` mm from where the piece begins; beyond its ends it goes on as it would. */
export function onPiece(piece: Piece, along: number): OnCentreline {
  if (piece.kind === 'leg') {
    return {
      point: along === piece.length ? piece.to : addScaled(piece.from, piece.direction, along),
      tangent: piece.direction,
      station: piece.start + along,
    };
  }
  const angle = along / piece.radius;
  return { point: arcPoint(piece, angle), tangent: arcTangent(piece, angle), station: piece.start + along };
}

/** How far along a leg (mm from its begin) its point nearest to `p` lies. */
function alongLeg(leg: Leg, p: Vec3): number {
  const d = leg.direction;
  const along = (p[0] - leg.from[0]) * d[0] + (p[1] - leg.from[1]) * d[1] + (p[2] - leg.from[2]) * d[2];
  return along > 0 ? Math.min(along, leg.length) : 0;
}

/** The angle (radians from its begin) of an arc's point nearest to `p`; the begin for a point on the bend's axis. */
function angleOnArc(arc: Arc, p: Vec3): number {
  const rel = sub(p, arc.centre);
  const x = dot(rel, arc.fromCentre);
  const y = dot(rel, arc.tangent);
  let angle = Math.atan2(y, x);
  if (angle >= 0 && angle <= arc.angle) return angle;
  if (angle < 0) angle += 2 * Math.PI;
  if (angle <= arc.angle) return angle;
  // Outside the sector: the nearer end is the one with the smaller turn to it.
  return 2 * Math.PI - angle < angle - arc.angle ? 0 : arc.angle;
}

/** How far along a piece (mm from its begin) its point nearest to `p` lies. */
export const alongPiece = (piece: Piece, p: Vec3): number =>
  piece.kind === 'leg' ? alongLeg(piece, p) : piece.radius * angleOnArc(piece, p);
