/** The window of a harness bar in words: places and ranges as a tape shows them, what bounds it, what stands in its way. */
import { sayAllowed, sayInches, sayMeasure, sayNumber } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import { degrees } from '../../grammar/units';
import type { Seat } from '../cage/cage';
import { limitWords, sourceWords } from '../rules/limit-words';
import type { Demand, Level, Unknown } from '../rules/window/demands';
import type { Exclusion } from '../rules/window/exclude';
import type { Box, Point } from '../rules/window/field';
import type { Setting } from '../rules/window/settings';
import type { BarWindow } from '../rules/window/window';
import { tapeStep } from '../rules/what-if';

const imperial = (units: LengthUnit): boolean => units === 'in' || units === 'ft';

/** The unit in which a tape is read. */
export const tapeUnit = (units: LengthUnit): string => (imperial(units) ? 'in' : 'mm');

/** A length as a tape shows it: whole millimetres or sixteenths of an inch; finer where it is finer. */
export function onTape(length: number, units: LengthUnit): string {
  const step = tapeStep(units);
  const whole = Math.abs(length / step - Math.round(length / step)) < 1e-6;
  if (imperial(units)) return whole ? sayInches(length) : sayNumber(length / 25.4, 3);
  return sayNumber(length, whole ? 0 : 1);
}

/** `x -170 to -210, z 768 to 802`: from the front to the rear, from below to above. */
export const boxWords = ({ x, z }: Box, units: LengthUnit): string =>
  `x ${onTape(x[1], units)} to ${onTape(x[0], units)}, z ${onTape(z[0], units)} to ${onTape(z[1], units)}`;

export const pointWords = ([x, z]: Point, units: LengthUnit): string =>
  `x = ${onTape(x, units)}, z = ${onTape(z, units)}`;

const say = (length: number, units: LengthUnit): string => sayMeasure({ value: length, unit: 'mm' }, units);

const range = (from: number, to: number, words: (value: number) => string): string =>
  from === to ? words(from) : `${words(from).replace(/[^\d.]+$/, '')} to ${words(to)}`;

const degreesWords = (angle: number): string => `${sayNumber(degrees(angle), 1)}°`;

/** `recline 12 to 25°, slide 0 to 80 mm`. */
export function rangesOf({ recline, reclineRange, slideRange }: Seat, units: LengthUnit): string {
  const turning = reclineRange ?? { from: recline, to: recline };
  const slides = slideRange !== null && slideRange.to > slideRange.from;
  const slide = slides ? `, slide ${range(slideRange.from, slideRange.to, (value) => say(value, units))}` : '';
  return `recline ${range(turning.from, turning.to, degreesWords)}${slide}`;
}

const settingWords = (setting: Setting, seat: Seat | undefined, units: LengthUnit): string => {
  if (seat === undefined) return '';
  const { reclineRange, slideRange } = seat;
  const words = [
    ...(reclineRange !== null && reclineRange.to > reclineRange.from ? [`at ${degreesWords(setting.recline)}`] : []),
    ...(slideRange !== null && slideRange.to > slideRange.from ? [`slid ${say(setting.slide, units)} forward`] : []),
  ];
  return words.length === 0 ? '' : `, with ${seat.name} ${words.join(' and ')}`;
};

const askedWords = ({ limit, allowed }: Demand, units: LengthUnit): string => {
  if (limit === null) return '';
  const { strict } = limit.limit;
  const words = allowed === null ? limitWords(limit.limit, units) : sayAllowed(allowed, units);
  const range = strict === true ? words.replace(/^at most/, 'less than').replace(/^at least/, 'more than') : words;
  return `${limit.book.name} ${limit.limit.force} ${range}; ${sourceWords(limit.limit)}`;
};

/** `strap.drop of driver-outer, with driver at 12° (fia-253 allows 0 to 45°; 253-6.2, 2013 text, published)`. */
export function demandWords(demand: Demand, { seats, units }: BarWindow): string {
  const seat = seats.find(({ name }) => name === demand.seat);
  const setting = demand.setting === null ? '' : settingWords(demand.setting, seat, units);
  if (demand.limit === null) return `strap ${demand.subject} has to reach the bar${setting}`;
  return `${demand.code} of ${demand.subject}${setting} (${askedWords(demand, units)})`;
}

/** A limit without a thing: `strap.bar-drop (fia-253 wants at least 10°; …)`. */
export const limitOnly = (demand: Demand, units: LengthUnit): string => `${demand.code} (${askedWords(demand, units)})`;

/** The same with what it measures. */
export function levelWords({ demand, measured }: Level, window: BarWindow): string {
  const figure = measured === null ? '' : `: ${sayMeasure(measured, window.units)}`;
  return `${demandWords(demand, window)}${figure}`;
}

export const unknownWords = ({ subject, code, book, fact }: Unknown): string =>
  `${code === 'rule.cannot-judge' ? '' : `${code} of `}${subject}${book === null ? '' : ` (${book})`}: ${fact}`;

const EXCLUDED = [
  '',
  'one limit alone is met nowhere in the searched area',
  'two limits exclude each other: each leaves places, both together none',
  'three limits together leave no place, though any two of them do',
] as const;

/** Why a window is empty: a sentence, then a line for each limit with what it measures where they come closest. */
export function exclusionWords(excluded: Exclusion | null, window: BarWindow): readonly string[] {
  if (excluded === null) return ['more than three limits together leave no place'];
  const { demands, closest, there } = excluded;
  const lines = demands.map((demand) => {
    const level = there.find((one) => one.demand === demand);
    return level === undefined ? demandWords(demand, window) : levelWords(level, window);
  });
  const where = `where least is missing, at x = ${say(closest[0], window.units)}, z = ${say(closest[1], window.units)}:`;
  return [`${EXCLUDED[demands.length] ?? ''}`, ...lines.map((line, i) => (i === 0 ? `${where} ${line}` : line))];
}
