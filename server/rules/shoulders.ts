/** Straps seen from the driver's shoulder, and pairs of straps of one seat on one bar. */
import type { Seat } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { add } from '../centreline/vector';
import type { StrapFigures } from '../geometry/shape';
import { seatIn } from '../geometry/straps';
import type { Car } from './car';
import { listOf, note } from './car';

export const NO_SHOULDER = "the driver's shoulder is not written: shoulder (forward 110, up 35) in the seat";

export interface Shouldered {
  readonly figures: StrapFigures;
  readonly seat: Seat;
  /** The top of the shoulder, or of the yoke that lies on it; null where no shoulder is written. */
  readonly shoulder: Vec3 | null;
}

function shoulderedOf(figures: StrapFigures, { cage }: Car): Shouldered | null {
  const seat = figures.seat === null ? null : seatIn(cage)(figures.seat);
  if (seat === null || figures.contact === null || figures.slot === null) return null;
  const shoulder = seat.shoulder === null ? null : add(figures.slot, add(seat.shoulder, [0, 0, seat.yoke ?? 0]));
  return { figures, seat, shoulder };
}

const allShouldered = (car: Car): readonly Shouldered[] =>
  car.shape.straps.flatMap((figures) => car.ask(shoulderedOf, figures) ?? []);

/** The straps whose run is known, with their seats. */
export const shouldered = (car: Car): readonly Shouldered[] => car.keep(allShouldered);

export interface StrapPair {
  readonly seat: Seat;
  readonly left: Shouldered;
  readonly right: Shouldered;
  /** Between the middles of the webbing, along the bar, mm. */
  readonly spacing: number;
  /** The mean width of the webbing, mm; null: not written. */
  readonly width: number | null;
}

const widthOf = ({ figures: { webbing } }: Shouldered): number | null =>
  webbing === null ? null : webbing.to - webbing.from;

const ofSeat = listOf((car) => {
  const map = new Map<string, Shouldered[]>();
  for (const one of shouldered(car)) note(map, one.seat.name, one);
  return map;
});

function pairOf(seat: Seat, car: Car): StrapPair | null {
  const own = ofSeat(car, seat.name);
  const left = own.find(({ figures }) => figures.slotSide === 'left');
  const right = own.find(({ figures }) => figures.slotSide === 'right');
  if (left === undefined || right === undefined || left.figures.part !== right.figures.part) return null;
  const [a, b] = [left.figures.station, right.figures.station];
  if (a === null || b === null) return null;
  const [one, other] = [widthOf(left), widthOf(right)];
  const width = one === null || other === null ? null : (one + other) / 2;
  return { seat, left, right, spacing: Math.abs(a - b), width };
}

const allPairs = (car: Car): readonly StrapPair[] => car.seats().flatMap((seat) => car.ask(pairOf, seat) ?? []);

/** The two straps of each seat that lie on one piece of one bar. */
export const strapPairs = (car: Car): readonly StrapPair[] => car.keep(allPairs);
