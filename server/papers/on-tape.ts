/** Lengths as they are read on a tape: in the file's unit first, the other tradition's beside it. */
import { sayMeasure } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import { UNITS } from '../../grammar/units';
import { otherUnit } from './quantity';

const INCH = UNITS['in']?.factor ?? 25.4;
/** Parts of an inch: about as fine as half a millimetre, and what steel rules show. */
const PARTS = 32;

/** Lays a figure on the marks of a tape: `Math.round` to the nearest, `Math.floor` never beyond. */
type Rounding = (steps: number) => number;
/** What a figure in the middle of two marks misses by what it was worked out with. */
const HAIR = 1e-6;

/** `12 3/32 in`: in whole parts of an inch, the nearest thirty-second unless told otherwise. `length` in mm. */
export function inchFraction(length: number, perInch = PARTS, round: Rounding = Math.round): string {
  const signed = round((length / INCH) * perInch + HAIR);
  const parts = Math.abs(signed);
  const whole = Math.floor(parts / perInch);
  let [over, under] = [parts % perInch, perInch];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const fraction = over === 0 ? '' : `${String(over)}/${String(under)}`;
  const text =
    whole > 0 && fraction !== '' ? `${String(whole)} ${fraction}` : whole > 0 ? String(whole) : fraction || '0';
  return `${signed < 0 ? '-' : ''}${text} in`;
}

const isInches = (units: LengthUnit): boolean => units === 'in' || units === 'ft';

/** To a tenth of a millimetre, in the unit of the file. */
const inTenths = (length: number, units: LengthUnit): string =>
  sayMeasure({ value: Math.round(length * 10) / 10 + 0, unit: 'mm' }, units);

/** In one unit: feet and inches as inches with a fraction, others to a tenth of a millimetre. */
const inUnit = (length: number, units: LengthUnit): string =>
  isInches(units) ? inchFraction(length) : inTenths(length, units);

/** `307.2 mm (12 3/32 in)`; in a file of inches `12 3/32 in (307.2 mm)`. What is not known says so. */
export const onTape = (length: number | null, units: LengthUnit): string =>
  length === null || !Number.isFinite(length)
    ? 'not known'
    : `${inUnit(length, units)} (${inUnit(length, otherUnit(units))})`;

/** What a steel rule shows at its best: sixty-fourths. */
const FINE = 64;

/** The same with sixty-fourths of an inch, laid on the marks as told; millimetres to the nearest tenth. */
export function fineOnTape(length: number | null, units: LengthUnit, round: Rounding): string {
  if (length === null || !Number.isFinite(length)) return onTape(length, units);
  const say = (unit: LengthUnit): string =>
    isInches(unit) ? inchFraction(length, FINE, round) : inTenths(length, unit);
  return `${say(units)} (${say(otherUnit(units))})`;
}

/** A length that a cut may not come short of, measured toward the end: sixty-fourths are rounded up. */
export const noLess = (length: number | null, units: LengthUnit): string =>
  fineOnTape(length, units, (steps) => Math.ceil(steps - 2 * HAIR));

/** A length that a cut may not go beyond, measured from the end: sixty-fourths are rounded down. */
export const noMore = (length: number | null, units: LengthUnit): string => fineOnTape(length, units, Math.floor);

/** From where a bend begins along the straight: `53.2 mm (2 7/64 in) from bend 1`; `4.8 mm (3/16 in) into bend 1`. */
export const fromBend = (length: number | null, bend: string, units: LengthUnit): string =>
  length !== null && length < 0 ? `${noMore(-length, units)} into ${bend}` : `${noLess(length, units)} from ${bend}`;
