/** A tube as it leaves the bender: its own centreline with the tails of the stick, or cut off square at its long points. */
import type { Arc, Centreline, Leg, Piece } from '../../centreline/centreline';
import { onPiece } from '../../centreline/piece';
import type { Vec3 } from '../../centreline/vector';
import { addScaled, cross, norm } from '../../centreline/vector';
import type { Part } from '../../geometry/shape';

/** Lengths below this are rounding, mm. */
const NOTHING = 1e-9;
/** Bends whose planes lean by less than this against each other lie in one plane, as a sine: a hundredth of a degree. */
const IN_PLANE = Math.sin((0.01 * Math.PI) / 180);

/** Bends in the order of travel. */
export const arcsOf = (line: Centreline | null): readonly Arc[] =>
  (line?.pieces ?? []).filter((piece): piece is Arc => piece.kind === 'arc');

/** True where all bends lie in one plane: the tube lies flat on the floor, whichever way round. */
export function isFlat(arcs: readonly Arc[]): boolean {
  const first = arcs[0];
  return first !== undefined && arcs.every((arc) => norm(cross(arc.axis, first.axis)) < IN_PLANE);
}

const legFrom = (from: Vec3, direction: Vec3, length: number): Leg => ({
  kind: 'leg',
  from,
  to: addScaled(from, direction, length),
  direction,
  start: 0,
  length,
});

/** The pieces with the first end moved outward by `by` mm (inward below 0); null where that would cut into a bend. */
function grown(pieces: readonly Piece[], by: number): readonly Piece[] | null {
  const first = pieces[0];
  if (first === undefined || !Number.isFinite(by)) return null;
  const at = onPiece(first, 0);
  if (first.kind === 'leg') {
    const length = first.length + by;
    if (length < -NOTHING) return null;
    return [legFrom(addScaled(at.point, at.tangent, -by), at.tangent, Math.max(0, length)), ...pieces.slice(1)];
  }
  if (Math.abs(by) <= NOTHING) return pieces;
  return by < 0 ? null : [legFrom(addScaled(at.point, at.tangent, -by), at.tangent, by), ...pieces];
}

/** As {@link grown}, at the last end. */
function grownLast(pieces: readonly Piece[], by: number): readonly Piece[] | null {
  const last = pieces[pieces.length - 1];
  if (last === undefined || !Number.isFinite(by)) return null;
  const at = onPiece(last, last.length);
  if (last.kind === 'leg') {
    const length = last.length + by;
    return length < -NOTHING ? null : [...pieces.slice(0, -1), legFrom(last.from, last.direction, Math.max(0, length))];
  }
  if (Math.abs(by) <= NOTHING) return pieces;
  return by < 0 ? null : [...pieces, legFrom(at.point, at.tangent, by)];
}

/**
 * The bent stick, both ends square: each end leg longer by `first` and `last` mm than the part's centreline (shorter below
 * 0). Stations count from its own first end. Null where the part has no centreline, or a bend would be cut.
 */
export function bentStick(part: Part, first: number, last: number): Centreline | null {
  const line = part.centreline;
  const one = line === null ? null : grown(line.pieces, first);
  const both = one === null ? null : grownLast(one, last);
  if (line === null || both === null) return null;
  let station = 0;
  const pieces = both.map((piece): Piece => {
    const moved = { ...piece, start: station };
    station += piece.length;
    return moved;
  });
  const [begin, end] = [pieces[0], pieces[pieces.length - 1]];
  if (begin === undefined || end === undefined) return null;
  const points = [...line.points];
  points[0] = onPiece(begin, 0).point;
  points[points.length - 1] = onPiece(end, end.length).point;
  return { pieces, length: station, points };
}
