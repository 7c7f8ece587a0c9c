/** Lengths as they are read on a tape: in the file's unit first, the other tradition's beside it. */
import { sayMeasure } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import { UNITS } from '../../grammar/units';
import { otherUnit } from './quantity';

const INCH = UNITS['in']?.factor ?? 25.4;
/** Parts of an inch: about as fine as half a millimetre, and what steel rules show. */
const PARTS = 32;

/** `12 3/32 in`: to the nearest thirty-second. `length` in mm. */
export function inchFraction(length: number): string {
  const parts = Math.round((Math.abs(length) / INCH) * PARTS + 1e-9);
  const whole = Math.floor(parts / PARTS);
  let [over, under] = [parts % PARTS, PARTS];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const fraction = over === 0 ? '' : `${String(over)}/${String(under)}`;
  const text =
    whole > 0 && fraction !== '' ? `${String(whole)} ${fraction}` : whole > 0 ? String(whole) : fraction || '0';
  return `${length < 0 && parts > 0 ? '-' : ''}${text} in`;
}

/** In one unit: feet and inches as inches with a fraction, others to a tenth of a millimetre. */
const inUnit = (length: number, units: LengthUnit): string =>
  units === 'in' || units === 'ft' ? inchFraction(length) : sayMeasure({ value: length, unit: 'mm' }, units);

/** `307.2 mm (12 3/32 in)`; in a file of inches `12 3/32 in (307.2 mm)`. What is not known says so. */
export const onTape = (length: number | null, units: LengthUnit): string =>
  length === null || !Number.isFinite(length)
    ? 'not known'
    : `${inUnit(length, units)} (${inUnit(length, otherUnit(units))})`;
