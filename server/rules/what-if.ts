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

/** A centreline that is moved as it is, mm. */
export const lineMoved = (line: Centreline, by: Vec3): Centreline => ({
  ...line,
  pieces: line.pieces.map((piece) => pieceMoved(piece, by)),
  points: line.points.map((point) => add(point, by)),
});

/** The parts of a tube: itself, or the two pieces of a split one. */
export const partsOfTube = (shape: Shape, tube: string): readonly Part[] =>
  [tube, `${tube}.a`, `${tube}.b`].flatMap((name) => shape.parts.get(name) ?? []);

const partsMoved = (parts: readonly Part[], by: Vec3): ReadonlyMap<string, Part> =>
  new Map(
    parts.map((part) => [
      part.name,
      { ...part, centreline: part.centreline === null ? null : lineMoved(part.centreline, by) },
    ]),
  );

/** A strap and all that decides its figures. */
export interface Laid {
  readonly strap: Strap;
  /** The figures as they are. */
  readonly figures: StrapFigures;
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
  const parts = partsOfTube(shape, tube);
  const still = new Map(parts.map((part) => [part.name, part]));
  return {
    strap,
    figures: strapFigures(strap, seat, still).figures,
    withBar: (by) => strapFigures(strap, seat, partsMoved(parts, by)).figures,
    at: (at) => strapFigures({ ...strap, at }, seat, still).figures,
  };
}

/** A place is found when it is known to this, mm: far finer than a tape. */
const NEAR = 1e-7;
const MOST_STEPS = 100;

/**
 * Where between `bad` and `good` the figure reaches `target`, within `near` and on the good side; null where the figure is
 * not on different sides of the target at the two, or cannot be computed. Regula falsi with halved weights (the
 * "Illinois" method; Dowell and Jarratt 1971), and plain halving where that does not close in: a figure that jumps,
 * because the webbing comes to lie on the slot's edge, is found too.
 */
export function solveBetween(
  figure: (x: number) => number | null,
  bad: number,
  good: number,
  target: number,
  near = NEAR,
): number | null {
  const first = figure(bad);
  const last = figure(good);
  if (first === null || last === null) return null;
  let [low, high] = [bad, good];
  let [off, on] = [first - target, last - target];
  if (on === 0) return good;
  if (off * on > 0) return null;
  for (let i = 0, side = 0; i < MOST_STEPS && Math.abs(high - low) > near; i++) {
    const falsi = (low * on - high * off) / (on - off);
    const middle = i % 3 === 2 || !Number.isFinite(falsi) ? (low + high) / 2 : inside(falsi, low, high, near);
    const value = figure(middle);
    if (value === null) return null;
    const error = value - target;
    if (error * on >= 0) {
      high = middle;
      on = error;
      if (error === 0) break;
      if (side === 1) off /= 2;
      side = 1;
    } else {
      low = middle;
      off = error;
      if (side === -1) on /= 2;
      side = -1;
    }
  }
  return high;
}

/** Kept off both ends by a little, so that each step closes the bracket from one side or the other. */
function inside(x: number, low: number, high: number, near: number): number {
  const nudge = Math.min(near / 2, Math.abs(high - low) / 4) * Math.sign(high - low);
  const [from, to] = low < high ? [low + nudge, high - nudge] : [high - nudge, low + nudge];
  return Math.min(Math.max(x, Math.min(from, to)), Math.max(from, to));
}

/** What a tape reads: whole millimetres, sixteenths of an inch. */
export const tapeStep = (units: LengthUnit): number => (units === 'in' || units === 'ft' ? 25.4 / 16 : 1);

/** A solved length as a tape shows it, rounded away from `from`, so that whoever follows the message is inside the limit. */
export function tidy(value: number, from: number, units: LengthUnit): number {
  const step = tapeStep(units);
  const steps = value / step;
  // A solved value that is whole but for the solver's last digits stays.
  const slack = 1e-7;
  return (value > from ? Math.ceil(steps - slack) : Math.floor(steps + slack)) * step;
}
