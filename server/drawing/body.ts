/** A tube as it is drawn: its centreline with both ends trimmed to what cuts them. Millimetres. */
import type { Arc, Piece } from '../centreline/centreline';
import { arcPoint } from '../centreline/piece';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, scale } from '../centreline/vector';
import { clockFrame } from '../geometry/clock';
import type { End, Part } from '../geometry/shape';
import type { Solid } from './solids';
import { rod } from './solids';
import type { View } from './view';
import { project } from './view';

/** Where a tube ends: set-backs are measured from `origin` along `away`, at clocks from `zero` toward `quarter`. */
export interface BodyEnd {
  readonly origin: Vec3;
  readonly away: Vec3;
  readonly zero: Vec3;
  readonly quarter: Vec3;
  /** Where the generator at that clock ends. */
  readonly setback: (clock: number) => number;
  /** The same on the wall of the bore. */
  readonly bored: (clock: number) => number;
  /** Where the longest generator ends. */
  readonly longest: number;
  /** Where the shortest one ends, on the outside and in the bore; Infinity: that is not known. */
  readonly deepest: number;
}

export interface Body {
  readonly part: Part;
  readonly radius: number;
  readonly pieces: readonly Piece[];
  readonly ends: readonly [BodyEnd, BodyEnd];
}

function endOf(end: End, at: Vec3, away: Vec3): BodyEnd {
  const direction = end.away ?? away;
  // The clock's quarter turns about the travel from first to last, at both ends.
  const travel = end.which === 'first' ? direction : scale(direction, -1);
  const frame = clockFrame(travel);
  const zero = end.clockZero?.vector ?? frame.zero.vector;
  const longest = end.minOuter ?? end.minCut ?? 0;
  const { curve } = end;
  return {
    origin: end.origin ?? at,
    away: direction,
    zero,
    quarter: cross(travel, zero),
    setback: (clock) => curve?.outer(clock) ?? longest,
    bored: (clock) => curve?.inner(clock) ?? curve?.outer(clock) ?? longest,
    longest,
    deepest: curve === null ? longest : (end.maxCut ?? Infinity),
  };
}

/** Null where the centreline or the section is not known: there is nothing to draw. */
export function bodyOf(part: Part): Body | null {
  const line = part.centreline;
  const od = part.tube.section?.od ?? null;
  if (line === null || od === null || !(od > 0) || line.pieces.length === 0) return null;
  const [first, last] = [pointAt(line, 0), pointAt(line, line.length)];
  return {
    part,
    radius: od / 2,
    pieces: line.pieces,
    ends: [endOf(part.ends[0], first.point, first.tangent), endOf(part.ends[1], last.point, scale(last.tangent, -1))],
  };
}

/** A bend is cut into straight pieces that turn so much, radians: they leave its surface by less than 0.1 mm. */
const TURN = (3 * Math.PI) / 180;

function ofArc(view: View, owner: number, arc: Arc, radius: number): readonly Solid[] {
  const steps = Math.max(1, Math.ceil(arc.angle / TURN));
  const at = (i: number): Vec3 => project(view, arcPoint(arc, (arc.angle * i) / steps));
  return Array.from({ length: steps }, (_, i) => rod(owner, at(i), at(i + 1), radius, true));
}

/** The tube as solids that hide what lies behind. */
export function solidsOf(body: Body, view: View, owner: number): readonly Solid[] {
  const { pieces, radius, ends } = body;
  return pieces.flatMap((piece, i) => {
    if (piece.kind === 'arc') return ofArc(view, owner, piece, radius);
    const trim = (end: BodyEnd, point: Vec3, inward: Vec3): Vec3 =>
      addScaled(point, inward, Math.min(end.longest, piece.length));
    const from = i === 0 ? trim(ends[0], piece.from, piece.direction) : piece.from;
    const to = i === pieces.length - 1 ? trim(ends[1], piece.to, scale(piece.direction, -1)) : piece.to;
    return [rod(owner, project(view, from), project(view, to), radius, false)];
  });
}
