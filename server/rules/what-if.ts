/**
 * What a strap would do if its bar were moved, or if it lay elsewhere on the bar: asked of the real strap model, so that
 * the figure in a message is the one that mends.
 */
import type { LengthUnit } from '../../grammar/units';
import type { Cage, Strap } from '../cage/cage';
import type { Centreline, Piece } from '../centreline/centreline';
import type { Vec3 } from '../centreline/vector';
import { add } from '../centreline/vector';
import type { Part, Shape, StrapFigures } from '../geometry/shape';
import { seatIn, strapFigures } from '../geometry/straps';
import { strapOf } from './strap-readings';

const pieceMoved = (piece: Piece, by: Vec3): Piece =>
  piece.kind === 'leg'
    ? { ...piece, from: add(piece.from, by), to: add(piece.to, by) }
    : { ...piece, centre: add(piece.centre, by) };

const lineMoved = (line: Centreline, by: Vec3): Centreline => ({
  ...line,
  pieces: line.pieces.map((piece) => pieceMoved(piece, by)),
  points: line.points.map((point) => add(point, by)),
});

/** The bar's parts alone, moved as they are. */
function barMoved(shape: Shape, tube: string, by: Vec3): ReadonlyMap<string, Part> {
  const parts = new Map<string, Part>();
  for (const [name, part] of shape.parts) {
    if (part.tube.name !== tube) continue;
    parts.set(name, { ...part, centreline: part.centreline === null ? null : lineMoved(part.centreline, by) });
  }
  return parts;
}

/** A strap and all that decides its figures. */
export interface Laid {
  readonly strap: Strap;
  /** The figures with the bar moved by `by`, mm. */
  readonly withBar: (by: Vec3) => StrapFigures;
  /** The figures with the strap at another place of the bar; null: straight behind its slot. */
  readonly at: (at: Strap['at']) => StrapFigures;
}

/** Null where the strap's seat or bar is not known. */
export function laid(cage: Cage, shape: Shape, name: string): Laid | null {
  const strap = strapOf(cage, name);
  if (strap === null || strap.seat === null || strap.tube === null) return null;
  const tube = strap.tube;
  const seat = seatIn(cage)(strap.seat);
  if (seat === null) return null;
  const still = barMoved(shape, tube, [0, 0, 0]);
  return {
    strap,
    withBar: (by) => strapFigures(strap, seat, barMoved(shape, tube, by)).figures,
    at: (at) => strapFigures({ ...strap, at }, seat, still).figures,
  };
}

/** A figure is met when it is this near, in its own unit: far finer than a message shows. */
const NEAR = 1e-9;
const HALVINGS = 80;

/**
 * Where between `bad` and `good` the figure first reaches `target`, by halving; null where the figure is not on
 * different sides of the target at the two, or cannot be computed. Continuity is all that is asked of `figure`.
 */
export function solveBetween(
  figure: (x: number) => number | null,
  bad: number,
  good: number,
  target: number,
): number | null {
  const first = figure(bad);
  const last = figure(good);
  if (first === null || last === null) return null;
  const rising = last > first;
  if (rising ? last < target || first > target : last > target || first < target) return null;
  let [low, high] = [bad, good];
  for (let i = 0; i < HALVINGS && Math.abs(high - low) > NEAR; i++) {
    const middle = (low + high) / 2;
    const value = figure(middle);
    if (value === null) return null;
    if (rising ? value >= target : value <= target) high = middle;
    else low = middle;
  }
  return high;
}

/** What a tape reads: whole millimetres, sixteenths of an inch. */
const tapeStep = (units: LengthUnit): number => (units === 'in' || units === 'ft' ? 25.4 / 16 : 1);

/** A solved length as a tape shows it, rounded away from `from`, so that whoever follows the message is inside the limit. */
export function tidy(value: number, from: number, units: LengthUnit): number {
  const step = tapeStep(units);
  const steps = value / step;
  // A solved value that is whole but for the solver's last digits stays.
  const slack = 1e-7;
  return (value > from ? Math.ceil(steps - slack) : Math.floor(steps + slack)) * step;
}
