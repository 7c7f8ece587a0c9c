/**
 * The car with its harness bar at another place, and one seat at one setting: only what decides the figures of that seat's
 * straps is in it, so that it is judged in microseconds. Measuring and judging are those of the whole car.
 */
import { mm } from '../../../grammar/units';
import type { Cage, Seat, Strap, Thing, Tube } from '../../cage/cage';
import type { Vec3 } from '../../centreline/vector';
import { add } from '../../centreline/vector';
import { Neighbours } from '../../geometry/neighbours';
import { seatFigures } from '../../geometry/seats';
import type { Part, SeatFigures, Shape, StrapFigures } from '../../geometry/shape';
import { markCrossed, strapFigures } from '../../geometry/straps';
import type { Miss } from '../../geometry/straps';
import { Car } from '../car';
import { lineMoved, partsOfTube } from '../what-if';
import type { Setting } from './settings';
import { seatAt } from './settings';

const tubeMoved = (tube: Tube, by: Vec3): Tube => ({
  ...tube,
  centreline: tube.centreline === null ? null : lineMoved(tube.centreline, by),
});

const partMoved = (part: Part, by: Vec3): Part => ({
  ...part,
  centreline: part.centreline === null ? null : lineMoved(part.centreline, by),
});

const seatMoved = (seat: Seat, by: Vec3): Seat => ({
  ...seat,
  hip: seat.hip === null ? null : add(seat.hip, by),
  slots: seat.slots === null ? null : add(seat.slots, by),
});

const AXES = { x: 0, y: 1, z: 2 } as const;

const strapMoved = (strap: Strap, by: Vec3): Strap => {
  const { at } = strap;
  return at === null || by[AXES[at.axis]] === 0
    ? strap
    : { ...strap, at: { ...at, value: mm(at.value + by[AXES[at.axis]]) } };
};

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

/**
 * One seat at one setting. Straps and seat know of each other and of their bars only, and of nothing but where these are
 * to each other: so the bar stays, and the seat is moved the other way.
 * @param withGap the seat's distance to the bar is asked for
 */
export function seatStage(whole: Car, bar: Tube, seat: Seat, setting: Setting, withGap: boolean): Stage {
  const { cage, shape } = whole;
  const straps = [...cage.things.values()].filter(
    (thing): thing is Strap => thing.kind === 'strap' && thing.seat === seat.name,
  );
  const onBar = straps.map((strap) => isOn(strap, bar));
  const standing = seatAt(seat, setting);
  const others = straps.filter((_, i) => onBar[i] !== true);
  const otherParts = others.flatMap(({ tube }) => (tube === null ? [] : partsOfTube(shape, tube)));
  const otherTubes = others.flatMap(({ tube }) => cage.things.get(tube ?? '') ?? []);
  const bars = partsOfTube(shape, bar.name);
  return {
    seat,
    setting,
    subjects: new Set([seat.name, ...straps.filter((_, i) => onBar[i] === true).map(({ name }) => name)]),
    placed: (by) => {
      const back: Vec3 = [-by[0], -by[1], -by[2]];
      const placed = seatMoved(standing, back);
      const laid = straps.map((strap) => strapMoved(strap, back));
      // Bars of other straps do not stay behind.
      const moved = otherParts.map((part) => partMoved(part, back));
      const parts = new Map([...moved, ...bars].map((part) => [part.name, part]));
      const results = laid.map((strap) => strapFigures(strap, placed, parts));
      const figures = markCrossed(
        results.map((result) => result.figures),
        (name) => (name === seat.name ? placed : null),
      );
      const things: readonly Thing[] = [placed, ...laid, ...otherTubes, bar];
      const own: Cage = { ...cage, things: new Map(things.map((thing) => [thing.name, thing])) };
      const seats = withGap ? [gapTo(placed, bars)] : [];
      const car = new PartCar(own, { ...shape, cage: own, parts, straps: figures, seats }, whole);
      const runs = figures.flatMap((one, i) =>
        onBar[i] === true ? [{ figures: one, miss: results[i]?.miss ?? null }] : [],
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
