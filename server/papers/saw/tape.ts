/** Lengths that a cut is marked by, rounded to a tape's marks on the safe side: never into the part. */
import type { LengthUnit } from '../../../grammar/units';
import { UNITS } from '../../../grammar/units';
import { onTape } from '../on-tape';
import { otherUnit } from '../quantity';

const INCH = UNITS['in']?.factor ?? 25.4;
const HAIR = 1e-6;

/** The marks of a tape: half millimetres, or thirty-seconds of an inch. */
export const stepOf = (units: LengthUnit): number => (units === 'in' || units === 'ft' ? INCH / 32 : 0.5);

const inOne = (length: number, units: LengthUnit, round: (steps: number) => number): string => {
  const step = stepOf(units);
  return onTape(round(length / step) * step, units).split(' (')[0] ?? '';
};

const inBoth = (length: number, units: LengthUnit, round: (steps: number) => number): string =>
  `${inOne(length, units, round)} (${inOne(length, otherUnit(units), round)})`;

/** From the long point into the part: rounded down, so that the mark never moves past the cut. Millimetres in. */
export const markFromEnd = (length: number, units: LengthUnit): string =>
  inBoth(Math.max(0, length), units, (steps) => Math.floor(steps + HAIR));

/** From a bend toward the end: rounded up, for the same reason. */
export const markFromBend = (length: number, units: LengthUnit): string =>
  inBoth(length, units, (steps) => Math.ceil(steps - HAIR));
