/**
 * Where may the harness bar be? The region in side view in which its axis may lie so that every chosen book is satisfied
 * for every seat whose straps it carries, with the seat at every recline and slide of its ranges. The bar is moved as it is,
 * without turning; everything else of the car stays.
 */
import type { LengthUnit } from '../../../grammar/units';
import type { Cage, Seat, Strap, Tube } from '../../cage/cage';
import { slotsOf } from '../../geometry/shell';
import type { Shape } from '../../geometry/shape';
import { addScaled } from '../../centreline/vector';
import { pointAt } from '../../centreline/query';
import { Car } from '../car';
import { booksOf } from '../library';
import type { Book } from '../rule';
import { partsOfTube } from '../what-if';
import { OFF, outlines, ROUGH } from './contour';
import type { Demand, Level, Unknown } from './demands';
import { asksOf } from './demands';
import type { Exclusion } from './exclude';
import { exclusion, mostRoom } from './exclude';
import type { Box, Choice, Point } from './field';
import { Field, PREFERRED, REQUIRED } from './field';
import type { Polygon } from './polygon';
import { areaOf, boxOf, nearestOn } from './polygon';
import { search } from './search';
import { allSettings, endSettings, isAdjustable, pivotMissing, rangeUnread, seatAt } from './settings';
import type { Stage } from './stage';
import { barStage, seatStage, strapsOn } from './stage';
import { forTape, onTape, roundBar } from './tape';

export interface Region {
  /** Counter-clockwise round what is inside (x forward, z up), clockwise round holes. Empty: there is no such place. */
  readonly polygons: readonly Polygon[];
  /** mm². */
  readonly area: number;
  readonly bounds: Box | null;
  /** The largest upright rectangle inside, drawn in to what a tape reads; null: none is that large. */
  readonly rectangle: Box | null;
  /** The largest that holds the bar as it is; null: the bar is outside, or at the very edge. */
  readonly aroundBar: Box | null;
  /** True where the bar as it is lies inside. */
  readonly holdsBar: boolean;
  /** What the bar breaks as it is, the worst first. */
  readonly broken: readonly Level[];
  /** The inside place that is nearest to the bar, and the nearest one that a tape can show; null: it is inside, or none is. */
  readonly nearest: { readonly exact: Point; readonly onTape: Point | null } | null;
  /** What makes its edges, the longest first, each once. */
  readonly bounded: readonly Demand[];
  /** Sides at which the search ends before any rule does. */
  readonly open: readonly ('front' | 'rear' | 'top' | 'bottom')[];
  /** Why it is empty; null: it is not, or more than three rules do it together. */
  readonly excluded: Exclusion | null;
}

export interface BarWindow {
  readonly kind: 'window';
  readonly tube: Tube;
  readonly books: readonly Book[];
  readonly straps: readonly Strap[];
  readonly seats: readonly Seat[];
  /** The bar's axis where the straps lie; the middle of them where it does not run straight across. */
  readonly at: Point;
  /** How far the axis is from there at other straps, mm: 0 for a bar that is straight across. */
  readonly off: number;
  /** Where the axis was looked for. */
  readonly searched: Box;
  readonly required: Region;
  readonly preferred: Region;
  /** Limits that are broken wherever the bar lies, and have no part in the window. */
  readonly apart: readonly Level[];
  readonly unknown: readonly Unknown[];
  /** Limits that are told and make no window. */
  readonly told: readonly Demand[];
  readonly units: LengthUnit;
}

/** Why there is no window to be worked out, in a clause. */
export interface NoWindow {
  readonly kind: 'none';
  readonly why: string;
}

/** How far behind the backs of the seats, and above and below their slots, a bar is looked for, mm. */
const BEHIND = 600;
const ABOVE = 300;
const BELOW = 600;
/** A figure that changes by less than this from place to place does not hang on the place. */
const STILL = 1e-6;
/** A limit that a setting between the ends of the ranges breaks by less than this is kept, mm. */
const NEAR_ENOUGH = 0.1;
const MOST_ROUNDS = 6;

const none = (why: string): NoWindow => ({ kind: 'none', why });

function axisAt(
  shape: Shape,
  tube: Tube,
  straps: readonly Strap[],
): { readonly at: Point; readonly off: number } | null {
  const points = straps.flatMap(({ name }) => {
    const point = shape.straps.find((one) => one.name === name)?.barPoint ?? null;
    return point === null ? [] : [point];
  });
  if (points.length === 0) {
    const line = tube.centreline;
    if (line === null) return null;
    const { point } = pointAt(line, line.length / 2);
    return { at: [point[0], point[2]], off: 0 };
  }
  const mean = (axis: 0 | 2): number => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  const at: Point = [mean(0), mean(2)];
  return { at, off: Math.max(...points.map(([x, , z]) => Math.hypot(x - at[0], z - at[1]))) };
}

/** Behind the backs of all seats, wherever they stand. */
function boxFor(seats: readonly Seat[]): Box | null {
  const all = seats.flatMap((seat) => endSettings(seat).map((setting) => seatAt(seat, setting)));
  const backs = all.flatMap((seat) => {
    const slots = slotsOf(seat);
    if (slots === null || seat.slots === null) return [];
    return [{ face: addScaled(seat.slots, slots.aft, seat.back ?? 0)[0], z: seat.slots[2] }];
  });
  if (backs.length === 0) return null;
  const front = Math.min(...backs.map(({ face }) => face));
  const heights = backs.map(({ z }) => z);
  return { x: [front - BEHIND, front], z: [Math.min(...heights) - BELOW, Math.max(...heights) + ABOVE] };
}

const isSameLimit = (a: Demand, b: Demand): boolean => quantity(a) === quantity(b) && a.limit?.limit === b.limit?.limit;

const quantity = ({ code, subject }: Demand): string => `${code}|${subject}`;

/** What does not change with the place: nothing can be done about it by moving the bar. */
function stillOnes(field: Field, stages: readonly Stage[]): ReadonlyMap<string, Level> {
  const { box, at } = field;
  const share = (range: readonly [number, number], t: number): number => range[0] + (range[1] - range[0]) * t;
  const probes: readonly Point[] = [
    at,
    ...[
      [0.9, 0.6],
      [0.7, 0.75],
      [0.5, 0.5],
      [0.2, 0.4],
    ].map(([u = 0, v = 0]): Point => [share(box.x, u), share(box.z, v)]),
  ];
  const still = new Map<string, Level>();
  const moving = new Set<string>();
  for (const stage of stages) {
    const first = new Map<string, Level>();
    for (const probe of probes) {
      for (const level of field.ofStage(stage, probe)) {
        const { measured, demand } = level;
        if (measured === null) continue;
        const old = first.get(demand.key);
        if (old === undefined) {
          first.set(demand.key, level);
          const worst = still.get(quantity(demand));
          if (worst === undefined || level.room < worst.room) still.set(quantity(demand), level);
        } else if (Math.abs(measured.value - (old.measured?.value ?? NaN)) > STILL) moving.add(quantity(demand));
      }
    }
  }
  for (const one of moving) still.delete(one);
  return still;
}

/** What makes the edges of the outlines, by how much of them. */
function boundedBy(field: Field, choice: Choice, polygons: readonly Polygon[]): Pick<Region, 'bounded' | 'open'> {
  const shares = new Map<string, { readonly demand: Demand; share: number }>();
  const open = new Set<Region['open'][number]>();
  const { box } = field;
  for (const polygon of polygons) {
    polygon.forEach((a, i) => {
      const b = polygon[(i + 1) % polygon.length] ?? a;
      const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      const { level } = field.least(middle, choice);
      const long = Math.hypot(a[0] - b[0], a[1] - b[1]);
      if (level === null) {
        if (long < 1) return;
        const sides = [
          ['rear', middle[0] - box.x[0]],
          ['front', box.x[1] - middle[0]],
          ['bottom', middle[1] - box.z[0]],
          ['top', box.z[1] - middle[1]],
        ] as const;
        for (const [side, far] of sides) if (far < 1) open.add(side);
        return;
      }
      const { demand } = level;
      const key = `${quantity(demand)}|${demand.limit?.book.name ?? ''}|${demand.limit?.limit.citation ?? ''}`;
      const old = shares.get(key);
      if (old === undefined) shares.set(key, { demand, share: long });
      else old.share += long;
    });
  }
  const sorted = [...shares.values()].filter(({ share }) => share >= 0.5).sort((a, b) => b.share - a.share);
  return { bounded: sorted.map(({ demand }) => demand), open: [...open] };
}

function regionOf(field: Field, choice: Choice, polygons: readonly Polygon[], units: LengthUnit): Region {
  const { at } = field;
  const all = field
    .levels(at)
    .filter(({ room, demand }) => room < 0 && choice(demand))
    .sort((a, b) => a.room - b.room || (a.demand.key < b.demand.key ? -1 : 1));
  // Of a limit on a thing: where the seat stands worst.
  const broken = all.filter(({ demand }, i) => all.findIndex((one) => isSameLimit(one.demand, demand)) === i);
  const holdsBar = broken.length === 0 && field.within(at) >= 0;
  const isEmpty = polygons.length === 0;
  const edge = holdsBar || isEmpty ? null : nearestOn(polygons, at);
  return {
    polygons,
    area: areaOf(polygons),
    bounds: boxOf(polygons),
    rectangle: forTape(field, choice, polygons, units),
    aroundBar: holdsBar ? roundBar(field, choice, polygons, units) : null,
    holdsBar,
    broken,
    nearest: edge === null ? null : { exact: edge.at, onTape: onTape(field, choice, edge.at, units) },
    ...boundedBy(field, choice, polygons),
    excluded: isEmpty ? exclusion(field, choice) : null,
  };
}

/** The stages that are not at the ends of a seat's ranges. */
const inBetween = (all: readonly Stage[], ends: readonly Stage[]): readonly Stage[] =>
  all.filter(
    ({ seat, setting }) =>
      !ends.some(
        (end) =>
          end.seat === seat && end.setting?.recline === setting?.recline && end.setting?.slide === setting?.slide,
      ),
  );

/** Corners of the outlines this far apart are enough to see what settings between the ends would break, mm. */
const APART = 6;

function spaced(polygons: readonly Polygon[]): readonly Point[] {
  const places: Point[] = [];
  for (const point of polygons.flat()) {
    const last = places[places.length - 1];
    if (last === undefined || Math.hypot(point[0] - last[0], point[1] - last[1]) > APART) places.push(point);
  }
  return places;
}

/** Of each limit that a setting between the ends of the ranges breaks at one of these places: the setting that does most. */
function worstBetween(field: Field, stages: readonly Stage[], places: readonly Point[]): readonly Stage[] {
  const worst = new Map<string, { readonly stage: Stage; readonly room: number }>();
  for (const stage of stages) {
    if (field.has(stage)) continue;
    for (const place of places) {
      for (const { room, demand } of field.ofStage(stage, place)) {
        const key = quantity(demand);
        if (room < -NEAR_ENOUGH && room < (worst.get(key)?.room ?? 0) && PREFERRED(demand))
          worst.set(key, { stage, room });
      }
    }
  }
  return [...new Set([...worst.values()].map(({ stage }) => stage))];
}

interface Outlined {
  readonly polygons: readonly Polygon[];
  readonly inside: readonly Point[];
}

/** @param known places that are inside, from elsewhere */
function outlined(field: Field, choice: Choice, most: number, known: readonly Point[]): Outlined {
  const { inside, edges } = search(field, choice, { rough: most > OFF });
  const found = [...inside, ...known];
  const places = found.length > 0 ? found : [mostRoom(field, choice)].filter((point) => field.room(point, choice) >= 0);
  return { polygons: places.length === 0 ? [] : outlines(field, choice, places, edges, most), inside: places };
}

/** The window and its preferred part; whatever is in that is in the window. */
function bothOutlined(field: Field, most: number): readonly [readonly Polygon[], readonly Polygon[]] {
  const preferred = outlined(field, PREFERRED, most, []);
  return [outlined(field, REQUIRED, most, preferred.inside).polygons, preferred.polygons];
}

/**
 * The window of a tube that carries straps. Never throws.
 * @param thorough to look at the settings between the ends of a seat's ranges too, and to follow the edges to a tenth of a
 * millimetre. Without it: in a fraction of the time, for a line of words; worst is nearly always one of the ends
 * @returns why there is none, where the tube, a strap on it or a seat is not known
 */
export function barWindow(cage: Cage, shape: Shape, tubeName: string, thorough = true): BarWindow | NoWindow {
  const tube = cage.things.get(tubeName);
  if (tube?.kind !== 'tube') return none(`there is no tube ${tubeName}`);
  const straps = strapsOn(cage, tube);
  if (straps.length === 0) return none(`no strap lies on ${tube.name}`);
  const parts = partsOfTube(shape, tube.name);
  if (tube.centreline === null || parts.every(({ centreline }) => centreline === null))
    return none(`where ${tube.name} runs is not known: see what is found in the file`);
  const names = [...new Set(straps.flatMap(({ seat }) => seat ?? []))];
  const seats = names.flatMap((name) => {
    const seat = cage.things.get(name);
    return seat?.kind === 'seat' && seat.slots !== null ? [seat] : [];
  });
  const box = boxFor(seats);
  const axis = axisAt(shape, tube, straps);
  if (box === null || axis === null)
    return none(`no strap on ${tube.name} has a seat whose slots are known: see what is found in the file`);
  const car = new Car(cage, shape);
  const books = booksOf(cage);
  const { codes, judge } = asksOf(books);
  const withGap = codes.has('seat.gap');
  const staged = (settings: typeof endSettings): readonly Stage[] =>
    seats.flatMap((seat) => settings(seat).map((setting) => seatStage(car, tube, seat, setting, withGap)));
  const atEnds = staged(endSettings);
  const ends = [...atEnds, ...(codes.has('harness.diagonal') ? [barStage(car, tube)] : [])];

  const open = new Field(axis.at, box, judge, () => false);
  const still = stillOnes(open, ends);
  const field = new Field(axis.at, box, judge, (demand) => still.has(quantity(demand)));
  for (const stage of ends) field.add(stage);

  const most = thorough ? OFF : ROUGH;
  const between = thorough && seats.some(isAdjustable) ? inBetween(staged(allSettings), atEnds) : [];
  let [required, preferred] = bothOutlined(field, most);
  for (let i = 0; i < MOST_ROUNDS; i++) {
    const worst = worstBetween(field, between, spaced([...required, ...preferred]));
    if (worst.length === 0) break;
    for (const stage of worst) field.add(stage);
    [required, preferred] = bothOutlined(field, most);
  }
  const told = field
    .levels(field.at)
    .map(({ demand }) => demand)
    .filter(({ counts }) => counts === 'told');
  return {
    kind: 'window',
    tube,
    books,
    straps,
    seats,
    at: axis.at,
    off: axis.off,
    searched: box,
    required: regionOf(field, REQUIRED, required, cage.units),
    preferred: regionOf(field, PREFERRED, preferred, cage.units),
    apart: [...still.values()].filter(({ room, demand }) => room < 0 && demand.counts === 'required'),
    unknown: [...unknownOf(seats, straps, cage), ...new Map([...open.unknown, ...field.unknown]).values()],
    told: told.filter(({ limit }, i) => told.findIndex((one) => one.limit?.limit === limit?.limit) === i),
    units: cage.units,
  };
}

/** Facts without which settings or straps cannot be judged. */
function unknownOf(seats: readonly Seat[], straps: readonly Strap[], cage: Cage): readonly Unknown[] {
  const asksRun = booksOf(cage).some(({ limits }) => limits.some(({ code }) => code === 'strap.free-run'));
  const known = new Set(seats.map(({ name }) => name));
  const of = (subject: string, code: Unknown['code'], fact: string): Unknown => ({ subject, code, book: null, fact });
  return [
    ...seats.flatMap((seat) => [
      ...(pivotMissing(seat)
        ? [of(seat.name, 'rule.cannot-judge', 'its hip is not written, and about that its back turns: hip (x, y, z)')]
        : []),
      ...(rangeUnread(seat)
        ? [of(seat.name, 'rule.cannot-judge', 'its range of recline or slide cannot be read')]
        : []),
    ]),
    ...straps.flatMap(({ name, seat, hardware }) => [
      ...(seat === null || !known.has(seat)
        ? [of(name, 'rule.cannot-judge', 'its seat, or where the slots of that are, is not known')]
        : []),
      ...(hardware === null && asksRun
        ? [of(name, 'strap.free-run', 'its hardware is not written, so how much straight run it needs is not known')]
        : []),
    ]),
  ];
}
