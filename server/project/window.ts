/** The window of a harness bar, for whoever prints it: found by the tube's name, as text, as JSON, as a drawing. */
import type { LengthUnit } from '../../grammar/units';
import { MARK } from '../papers/page';
import { windowScene } from '../papers/window-drawing';
import {
  boxWords,
  demandWords,
  limitOnly,
  exclusionWords,
  levelWords,
  onTape,
  pointWords,
  rangesOf,
  tapeUnit,
  unknownWords,
} from '../papers/window-words';
import { svgFile } from '../drawing/svg';
import type { Tube } from '../cage/cage';
import { barNamed, bars } from '../rules/window/bars';
import type { Demand, Level } from '../rules/window/demands';
import type { Box, Point } from '../rules/window/field';
import type { BarWindow, Region } from '../rules/window/window';
import { barWindow } from '../rules/window/window';
import type { Figure } from './json-figures';
import { angle, rounded } from './json-figures';
import type { Analysis } from './project';
import { CAUTION } from './describe-text';

/**
 * The window of the tube of that name; without a name of the one that carries straps.
 * @returns a string: why there is none, in a clause
 */
export function windowOf({ cage, shape }: Pick<Analysis, 'cage' | 'shape'>, name: string | null): BarWindow | string {
  const tube = barNamed(cage, name);
  if (typeof tube === 'string') return tube;
  const window = barWindow(cage, shape, tube.name);
  return window.kind === 'none' ? window.why : window;
}

/** True where the bar lies inside, and nothing stands in the way of any place. */
export const isGood = ({ required, apart }: BarWindow): boolean => required.holdsBar && apart.length === 0;

const lengthWords = (value: number, units: LengthUnit): string => `${onTape(value, units)} ${tapeUnit(units)}`;

/** `36 mm aft and 12 mm up`. */
function moveWords(from: Point, to: Point, units: LengthUnit): string {
  const [dx, dz] = [to[0] - from[0], to[1] - from[1]];
  const least = 0.05;
  const parts = [
    ...(Math.abs(dx) < least ? [] : [`${lengthWords(Math.abs(dx), units)} ${dx < 0 ? 'aft' : 'forward'}`]),
    ...(Math.abs(dz) < least ? [] : [`${lengthWords(Math.abs(dz), units)} ${dz < 0 ? 'down' : 'up'}`]),
  ];
  return parts.join(' and ');
}

const SIDES = { front: 'the front', rear: 'the rear', top: 'the top', bottom: 'the bottom' } as const;

/** The first line of a region: its rectangle round the bar, else its largest. */
function rectangleLine({ rectangle, aroundBar, polygons }: Region, units: LengthUnit): string {
  if (polygons.length === 0) return 'none';
  const box = aroundBar ?? rectangle;
  return box === null ? 'too narrow for a rectangle that a tape can show' : boxWords(box, units);
}

function regionLines(region: Region, window: BarWindow): readonly string[] {
  const { units, at } = window;
  const { polygons, rectangle, aroundBar, nearest } = region;
  if (polygons.length === 0) {
    const [why = '', ...limits] = exclusionWords(region.excluded, window);
    return [`  ${why[0]?.toUpperCase() ?? ''}${why.slice(1)}`, ...limits.map((line) => `    ${line}`)];
  }
  const largest =
    rectangle === null || aroundBar === null || boxWords(rectangle, units) === boxWords(aroundBar, units)
      ? []
      : [`  the largest rectangle: ${boxWords(rectangle, units)}`];
  const to = nearest?.onTape ?? nearest?.exact ?? null;
  const move = to === null ? [] : [`  nearest place: ${pointWords(to, units)}, ${moveWords(at, to, units)}`];
  return [
    ...largest,
    ...(region.bounds === null ? [] : [`  all of it lies in ${boxWords(region.bounds, units)}`]),
    ...move,
    ...region.broken.slice(0, 12).map((level) => `  broken now: ${levelWords(level, window)}`),
    ...region.bounded.map((demand) => `  bounded by ${demandWords(demand, window)}`),
    ...(region.open.length === 0
      ? []
      : [`  at ${region.open.map((side) => SIDES[side]).join(' and ')} no limit ends it, only the searched area`]),
  ];
}

/** For a terminal, without a trailing newline. */
export function windowText(window: BarWindow): string {
  const { tube, at, units, required, preferred, searched } = window;
  const where = required.holdsBar ? (preferred.holdsBar ? 'inside, also the preferred part' : 'inside') : 'outside';
  const off =
    window.off < 0.5
      ? ''
      : ` (the middle of its straps; it does not run straight across, by ${lengthWords(window.off, units)})`;
  const seats = window.seats.map((seat) => `${seat.name} (${rangesOf(seat, units)})`).join(', ');
  const lines = [
    `Where the axis of ${tube.name} may lie in side view, in ${tapeUnit(units)}: x forward, z up`,
    `Books: ${window.books.map(({ name }) => name).join(', ')}`,
    `Seats: ${seats}`,
    `Searched: ${boxWords(searched, units)}, behind the backs of the seats`,
    '',
    `Window: ${rectangleLine(required, units)}`,
    ...regionLines(required, window),
    `Preferred, with the recommendations of the books: ${rectangleLine(preferred, units)}`,
    ...regionLines(preferred, window),
    `The bar now: ${pointWords(at, units)}${off}: ${where}`,
    ...window.apart.map((level) => `Broken wherever the bar lies: ${levelWords(level, window)}`),
    ...window.unknown.map((one) => `Cannot be judged: ${unknownWords(one)}`),
    ...window.told.map((demand) => `Told only, not counted: ${limitOnly(demand, units)}`),
    '',
    'A rectangle holds its whole area: every place in it is inside. Limits from memory and of practice count like others.',
    CAUTION,
  ];
  return lines.join('\n');
}

/** What a hover says of a tube that carries straps; empty where none lies on it, or nothing can be said. */
export function windowLines({ cage, shape }: Pick<Analysis, 'cage' | 'shape'>, tube: Tube): readonly string[] {
  if (!bars(cage).includes(tube)) return [];
  const window = barWindow(cage, shape, tube.name, false);
  if (window.kind === 'none') return [];
  const { units, required, preferred, at } = window;
  const unit = tapeUnit(units);
  const to = required.nearest?.onTape ?? required.nearest?.exact ?? null;
  const isNone = required.polygons.length === 0;
  const now = required.holdsBar ? 'inside' : to === null ? 'outside' : `outside: move it ${moveWords(at, to, units)}`;
  const words = (region: Region): string =>
    region.polygons.length === 0
      ? ['none', ...exclusionWords(region.excluded, window)].join('; ')
      : `${rectangleLine(region, units)} (${unit})`;
  return [
    `Window: ${words(required)}`,
    ...(isNone ? [] : [`Preferred, with the recommendations: ${words(preferred)}`]),
    `The bar now: ${pointWords(at, units)}, ${now}`,
    ...window.apart.map((level) => `Broken wherever it lies: ${levelWords(level, window)}`),
    ...window.unknown.slice(0, 3).map((one) => `Cannot be judged: ${unknownWords(one)}`),
  ];
}

const spanJson = ([from, to]: readonly [number, number]): readonly [Figure, Figure] => [rounded(from), rounded(to)];
const boxJson = (box: Box | null): object | null => (box === null ? null : { x: spanJson(box.x), z: spanJson(box.z) });
const pointJson = ([x, z]: Point): readonly [Figure, Figure] => [rounded(x), rounded(z)];

const demandJson = ({ code, subject, seat, setting, limit, allowed, counts }: Demand): object => ({
  code,
  subject,
  seat,
  setting: setting === null ? null : { recline: angle(setting.recline), slide: rounded(setting.slide) },
  counts,
  allowed: allowed === null ? null : { from: rounded(allowed.from), to: rounded(allowed.to), unit: allowed.unit },
  rule:
    limit === null
      ? null
      : {
          book: limit.book.name,
          force: limit.limit.force,
          citation: limit.limit.citation,
          edition: limit.limit.edition,
          source: limit.limit.source,
        },
});

const levelJson = ({ demand, measured }: Pick<Level, 'demand' | 'measured'>): object => ({
  ...demandJson(demand),
  measured: measured === null ? null : { value: rounded(measured.value), unit: measured.unit },
});

function regionJson(region: Region, at: Point): object {
  const { nearest, excluded } = region;
  return {
    empty: region.polygons.length === 0,
    polygons: region.polygons.map((polygon) => polygon.map(pointJson)),
    area: rounded(region.area),
    bounds: boxJson(region.bounds),
    rectangle: boxJson(region.rectangle),
    rectangleAroundBar: boxJson(region.aroundBar),
    holdsBar: region.holdsBar,
    broken: region.broken.map(levelJson),
    nearest:
      nearest === null
        ? null
        : {
            exact: pointJson(nearest.exact),
            distance: rounded(Math.hypot(nearest.exact[0] - at[0], nearest.exact[1] - at[1])),
            onTape: nearest.onTape === null ? null : pointJson(nearest.onTape),
          },
    boundedBy: region.bounded.map(demandJson),
    openTo: region.open,
    excluded:
      excluded === null
        ? null
        : {
            closest: pointJson(excluded.closest),
            limits: excluded.demands.map((demand) =>
              levelJson(excluded.there.find((one) => one.demand === demand) ?? { demand, measured: null }),
            ),
          },
  };
}

/** Lengths mm, angles degrees; x forward, z up; polygons counter-clockwise round what is inside, clockwise round holes. */
export const windowJson = (window: BarWindow): object => ({
  format: 'cagewright-window',
  version: 1,
  tube: window.tube.name,
  books: window.books.map(({ name }) => name),
  straps: window.straps.map(({ name }) => name),
  seats: window.seats.map(({ name, recline, reclineRange, slideRange }) => ({
    name,
    recline: [angle(reclineRange?.from ?? recline), angle(reclineRange?.to ?? recline)],
    slide: slideRange === null ? [0, 0] : [rounded(slideRange.from), rounded(slideRange.to)],
  })),
  searched: boxJson(window.searched),
  bar: { at: pointJson(window.at), off: rounded(window.off), inside: window.required.holdsBar, good: isGood(window) },
  window: regionJson(window.required, window.at),
  preferred: regionJson(window.preferred, window.at),
  brokenAnywhere: window.apart.map(levelJson),
  unknown: window.unknown.map(({ subject, code, book, fact }) => ({ subject, code, book, fact })),
  toldOnly: window.told.map(demandJson),
  caution: CAUTION,
});

/** A picture of it, self-contained. */
export const windowSvg = (window: BarWindow): string => svgFile(windowScene(window), MARK);
