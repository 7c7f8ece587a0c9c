/** Points and one bend radius -> straight legs joined by arcs that are tangent to both. */
import type { Arc, Centreline, Corner, Leg, PathProblem, PathResult, Piece } from './centreline';
import type { Vec3 } from './vector';
import { addScaled, angleBetween, cross, distance, scale, sub, unit } from './vector';

/** A corner that turns less than 1e-6 degrees is straight on, radians. */
export const STRAIGHT_ON = (1e-6 * Math.PI) / 180;
/** A leg of this length or less has no direction worth the name, mm. */
const ZERO_LEG = 1e-6;
/** What rounding may leave of a leg that two touching bends use up, mm. */
const ROUNDING = 1e-9;

/**
 * Bends a path: at each inner point an arc of `radius` (mm), tangent to both legs; points in mm.
 *
 * Tangent length = radius · tan(turn / 2). Corners that turn less than {@link STRAIGHT_ON} are told with angle 0 and
 * get no arc. Problems, each named by its leg or corner, leave `centreline` null:
 * a leg without length (also one with a coordinate that is no finite number), a turn without a radius (null, or not
 * a positive number), a leg shorter than what the bends at its ends take of it (the first and last leg: the one bend).
 * Fewer than two points: no centreline, and no problem to name. Never throws.
 */
export function buildPath(points: readonly Vec3[], radius: number | null): PathResult {
  const problems: PathProblem[] = [];
  const corners: Corner[] = [];
  const legCount = points.length - 1;
  if (legCount < 1) return { centreline: null, corners, problems };

  const usable = radius !== null && Number.isFinite(radius) && radius > 0 ? radius : null;
  const lengths: number[] = [];
  const directions: Vec3[] = [];
  for (let i = 0; i < legCount; i++) {
    const from = points[i] as Vec3;
    const to = points[i + 1] as Vec3;
    const length = distance(from, to);
    lengths.push(length);
    directions.push(unit(sub(to, from)));
    if (!(length > ZERO_LEG && length < Infinity)) problems.push({ kind: 'zero-leg', leg: i });
  }
  const sound = problems.length === 0;

  for (let i = 1; i < legCount; i++) {
    const turn = angleBetween(directions[i - 1] as Vec3, directions[i] as Vec3);
    // A leg without direction (NaN, or zero) has no turn that could be told.
    const angle = turn > STRAIGHT_ON ? turn : 0;
    if (angle > 0 && usable === null && sound) problems.push({ kind: 'no-radius', corner: i, angle });
    const tangentLength = angle === 0 ? 0 : usable === null ? null : usable * Math.tan(angle / 2);
    corners.push({ index: i, angle, tangentLength });
  }
  if (problems.length > 0) return { centreline: null, corners, problems };

  const taken = (point: number): number => corners[point - 1]?.tangentLength ?? 0;
  for (let i = 0; i < legCount; i++) {
    const by = taken(i) + taken(i + 1) - (lengths[i] as number);
    if (by > ROUNDING) problems.push({ kind: 'overlap', leg: i, by });
  }
  if (problems.length > 0) return { centreline: null, corners, problems };
  return { centreline: join(points, directions, lengths, corners, usable ?? 0), corners, problems };
}

/** Strings legs and arcs together once nothing stands in the way. */
function join(
  points: readonly Vec3[],
  directions: readonly Vec3[],
  lengths: readonly number[],
  corners: readonly Corner[],
  radius: number,
): Centreline {
  const pieces: Piece[] = [];
  let station = 0;
  for (let i = 0; i < directions.length; i++) {
    const direction = directions[i] as Vec3;
    const before = corners[i - 1]?.tangentLength ?? 0;
    const after = corners[i]?.tangentLength ?? 0;
    const length = (lengths[i] as number) - before - after;
    if (length > ROUNDING) {
      const from = before === 0 ? (points[i] as Vec3) : addScaled(points[i] as Vec3, direction, before);
      const to = after === 0 ? (points[i + 1] as Vec3) : addScaled(points[i + 1] as Vec3, direction, -after);
      const leg: Leg = { kind: 'leg', from, to, direction, start: station, length };
      pieces.push(leg);
      station += length;
    }
    const corner = corners[i];
    if (corner !== undefined && corner.angle > 0) {
      const arc = arcAt(points[i + 1] as Vec3, direction, directions[i + 1] as Vec3, radius, corner, station);
      pieces.push(arc);
      station += arc.length;
    }
  }
  return { pieces, length: station, points };
}

function arcAt(at: Vec3, arriving: Vec3, leaving: Vec3, radius: number, corner: Corner, start: number): Arc {
  const axis = unit(cross(arriving, leaving));
  const inward = unit(cross(axis, arriving));
  const begin = addScaled(at, arriving, -(corner.tangentLength ?? 0));
  return {
    kind: 'arc',
    centre: addScaled(begin, inward, radius),
    radius,
    fromCentre: scale(inward, -1),
    tangent: arriving,
    axis,
    angle: corner.angle,
    start,
    // Handbook bend allowance: radius · angle in radians (0.017453 · CLR · degrees).
    length: radius * corner.angle,
    corner: corner.index,
  };
}
