/**
 * The car with its harness bar at another place, and one seat at one setting: only what decides the figures of that seat's
 * straps is in it, so that it is judged in microseconds. Measuring and judging are those of the whole car.
 */
import type { Cage, Seat, Strap, Thing, Tube } from '../../cage/cage';
import type { Vec3 } from '../../centreline/vector';
import { add } from '../../centreline/vector';
import { Neighbours } from '../../geometry/neighbours';
import { seatFigures } from '../../geometry/seats';
import type { End, Part, SeatFigures, Shape, StrapFigures } from '../../geometry/shape';
import { markCrossed, strapFigures } from '../../geometry/straps';
import type { Miss } from '../../geometry/straps';
import { Car } from '../car';
import { lineMoved, partsOfTube } from '../what-if';
import type { Setting } from './settings';
import { seatAt } from './settings';

/** Everything but its place is the end's own; much of it is only made when a person asks. */
const endMoved = (end: End, by: Vec3): End =>
  Object.create(end, { origin: { value: end.origin === null ? null : add(end.origin, by), enumerable: true } }) as End;

const tubeMoved = (tube: Tube, by: Vec3): Tube => ({
  ...tube,
  centreline: tube.centreline === null ? null : lineMoved(tube.centreline, by),
});

const partMoved = (part: Part, by: Vec3): Part => ({
  ...part,
  centreline: part.centreline === null ? null : lineMoved(part.centreline, by),
  ends: [endMoved(part.ends[0], by), endMoved(part.ends[1], by)],
});

/** A part of the car, with what the whole car says of itself. */
class PartCar extends Car {
  override readonly kind: Car['kind'];
  override readonly driverSide: Car['driverSide'];
  override readonly alone: Car['alone'];
  override readonly pair: Car['pair'];

  constructor(cage: Cage, shape: Shape, whole: Car) {
    super(cage, shape);
    this.kind = whole.kind;
    this.driverSide = whole.driverSide;
    this.alone = whole.alone;
    this.pair = whole.pair;
  }
}

/** How the bar lies to one strap. */
export interface Run {
  readonly figures: StrapFigures;
  readonly miss: Miss | null;
}

/** The car that is judged, and how each strap of the bar runs in it. */
export interface Placed {
  readonly car: Car;
  readonly runs: readonly Run[];
}

/** What is judged together: a seat at one setting with its straps; or the bar by itself. */
export interface Stage {
  readonly seat: Seat | null;
  readonly setting: Setting | null;
  /** The things whose figures count. */
  readonly subjects: ReadonlySet<string>;
  /** With the bar moved by `by`, mm. */
  readonly placed: (by: Vec3) => Placed;
}

const isOn = (strap: Strap, tube: Tube): boolean =>
  strap.tube === tube.name || partNames(tube).includes(strap.tube ?? '');
const partNames = (tube: Tube): readonly string[] => [`${tube.name}.a`, `${tube.name}.b`];

/** The straps that lie on a tube, or on a piece of it, in the order of their names. */
export const strapsOn = (cage: Cage, tube: Tube): readonly Strap[] =>
  [...cage.things.values()]
    .filter((thing): thing is Strap => thing.kind === 'strap' && isOn(thing, tube))
    .sort((a, b) => (a.name < b.name ? -1 : 1));

/** No part at all: of the gaps of a seat only that to the bar is looked for. */
const NOBODY = new Neighbours([]);

function gapTo(seat: Seat, bars: readonly Part[]): SeatFigures {
  const figures = seatFigures(seat, NOBODY, bars);
  return { ...figures, gap: figures.barGap, to: figures.bar };
}

/** One seat at one setting. `withGap`: the seat's distance to the bar is asked for. */
export function seatStage(whole: Car, bar: Tube, seat: Seat, setting: Setting, withGap: boolean): Stage {
  const { cage, shape } = whole;
  const straps = [...cage.things.values()].filter(
    (thing): thing is Strap => thing.kind === 'strap' && thing.seat === seat.name,
  );
  const onBar = straps.filter((strap) => isOn(strap, bar));
  const placedSeat = seatAt(seat, setting);
  const others = straps.filter((strap) => !isOn(strap, bar) && strap.tube !== null);
  const stillParts = others.flatMap(({ tube }) => (tube === null ? [] : partsOfTube(shape, tube)));
  const stillThings = others.flatMap(({ tube }) => cage.things.get(tube ?? '') ?? []);
  const barParts = partsOfTube(shape, bar.name);
  const seatNamed = (name: string): Seat | null => (name === seat.name ? placedSeat : null);
  return {
    seat,
    setting,
    subjects: new Set([seat.name, ...onBar.map(({ name }) => name)]),
    placed: (by) => {
      const moved = barParts.map((part) => partMoved(part, by));
      const parts = new Map([...stillParts, ...moved].map((part) => [part.name, part]));
      const results = straps.map((strap) => strapFigures(strap, placedSeat, parts));
      const figures = markCrossed(
        results.map((result) => result.figures),
        seatNamed,
      );
      const things: readonly Thing[] = [placedSeat, ...straps, ...stillThings, tubeMoved(bar, by)];
      const own: Cage = { ...cage, things: new Map(things.map((thing) => [thing.name, thing])) };
      const seats = withGap ? [gapTo(placedSeat, moved)] : [];
      const car = new PartCar(own, { ...shape, cage: own, parts, straps: figures, seats }, whole);
      const runs = figures.flatMap((one, i) =>
        onBar.some(({ name }) => name === one.name) ? [{ figures: one, miss: results[i]?.miss ?? null }] : [],
      );
      return { car, runs };
    },
  };
}

/** The bar and the tubes that it has to meet, without a seat. */
export function barStage(whole: Car, bar: Tube): Stage {
  const { cage, shape } = whole;
  const diagonals = whole.tubesOf('diagonal').filter(({ name }) => name !== bar.name);
  const stillParts = diagonals.flatMap(({ name }) => partsOfTube(shape, name));
  const barParts = partsOfTube(shape, bar.name);
  return {
    seat: null,
    setting: null,
    subjects: new Set([bar.name]),
    placed: (by) => {
      const moved = barParts.map((part) => partMoved(part, by));
      const things: readonly Thing[] = [...diagonals, tubeMoved(bar, by)];
      const own: Cage = { ...cage, things: new Map(things.map((thing) => [thing.name, thing])) };
      const parts = new Map([...stillParts, ...moved].map((part) => [part.name, part]));
      const car = new PartCar(own, { ...shape, cage: own, parts, straps: [], seats: [] }, whole);
      return { car, runs: [] };
    },
  };
}
