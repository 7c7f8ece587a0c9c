/** The driver's helmet among the tubes: a ball, and where the hoop passes it. */
import type { Seat } from '../cage/cage';
import type { Centreline, Piece } from '../centreline/centreline';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { add } from '../centreline/vector';
import type { Car } from './car';
import { missing } from './readings';
import type { Missing } from './rule';

export const NO_HELMET = "the driver's helmet is not written: helmet (forward 60, up 280) radius 150 in the seat";

export interface Helmet {
  readonly seat: Seat;
  readonly centre: Vec3;
  readonly radius: number;
}

/** The helmets that are written, and the seats that want one. Seats whose slots are not known have a finding of their own. */
export function helmetsOf(car: Car): { readonly helmets: readonly Helmet[]; readonly bare: readonly Seat[] } {
  const seats = car.seats().filter(({ slots }) => slots !== null);
  return {
    helmets: seats.flatMap((seat) =>
      seat.helmet === null || seat.slots === null
        ? []
        : [{ seat, centre: add(seat.slots, seat.helmet.offset), radius: seat.helmet.radius }],
    ),
    bare: seats.filter(({ helmet }) => helmet === null),
  };
}

export const bareHeads = (bare: readonly Seat[], group?: string): readonly Missing[] =>
  bare.map(({ name }) => missing(name, NO_HELMET, group === undefined ? {} : { group }));

/** Height of the hoop's highest outer surface, mm; null without a main hoop of known size. */
export function hoopTop(car: Car): { readonly name: string; readonly z: number; readonly x: number } | null {
  const tops = car.mainHoops().flatMap(({ name, figures, tube, line }) => {
    const { section } = tube;
    if (section === null) return [];
    return [{ name, z: figures.top + section.od / 2, x: pointAt(line, figures.topStation).point[0] }];
  });
  return tops.reduce<(typeof tops)[number] | null>((best, one) => (best === null || one.z > best.z ? one : best), null);
}

/** A bend is followed in so many steps, then between the two next to the nearest by golden section. */
const STEPS = 12;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const ROUNDS = 25;

/** Least of a function that has one valley on each step. */
function least(figure: (share: number) => number): number {
  let best = 0;
  for (let i = 1; i <= STEPS; i++) if (figure(i / STEPS) < figure(best / STEPS)) best = i;
  let [low, high] = [Math.max(0, best - 1) / STEPS, Math.min(STEPS, best + 1) / STEPS];
  for (let i = 0; i < ROUNDS; i++) {
    const [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (figure(a) <= figure(b)) high = b;
    else low = a;
  }
  return Math.min(figure(best / STEPS), figure((low + high) / 2));
}

/** From above, the least distance of a piece's centreline from a point, of what lies no lower than `from`; null: all of it does. */
function pieceInPlan(line: Centreline, piece: Piece, [x, y]: Vec3, from: number): number | null {
  const at = (share: number): Vec3 => pointAt(line, piece.start + share * piece.length).point;
  if (Math.max(at(0)[2], at(0.5)[2], at(1)[2]) < from) return null;
  const far = (share: number): number => {
    const p = at(share);
    return p[2] < from ? Infinity : Math.hypot(p[0] - x, p[1] - y);
  };
  if (piece.kind === 'arc') {
    const found = least(far);
    return Number.isFinite(found) ? found : null;
  }
  // A leg is straight: the foot of the perpendicular, kept on the part that is high enough.
  const [a, b] = [at(0), at(1)];
  const rise = b[2] - a[2];
  const cut = rise === 0 ? 0 : (from - a[2]) / rise;
  const [low, high] = rise > 0 ? [Math.max(0, cut), 1] : rise < 0 ? [0, Math.min(1, cut)] : [0, 1];
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const size = dx * dx + dy * dy;
  const share = size > 0 ? ((x - a[0]) * dx + (y - a[1]) * dy) / size : low;
  const p = at(Math.min(high, Math.max(low, share)));
  return Math.hypot(p[0] - x, p[1] - y);
}

/** From above, from a point to the nearest of a centreline that lies no lower than `from`, mm; null: nothing does. */
export function nearestInPlan(line: Centreline, point: Vec3, from: number): number | null {
  const all = line.pieces.flatMap((piece) => pieceInPlan(line, piece, point, from) ?? []);
  return all.length === 0 ? null : Math.min(...all);
}

/** A seat with a helmet in front of the example's hoop, which is 1000 high. */
export const helmetExample = (up: number, forward = 60, more = ''): string =>
  `seat driver { slots (240, 300, 550); recline 10 deg; slot-spacing 220; back 45; helmet (forward ${String(forward)}, up ${String(up)}) radius 150${more} }`;
