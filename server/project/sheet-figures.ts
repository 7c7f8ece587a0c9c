/** Figures as a build sheet prints them: as many digits as a workshop can use, never -0. */
import type { LengthUnit } from '../../grammar/units';
import { UNITS } from '../../grammar/units';

/** Digits behind the point: a tenth of a millimetre, a thousandth of an inch. */
const DIGITS: Readonly<Record<LengthUnit, number>> = { mm: 1, cm: 2, m: 4, in: 3, ft: 4 };

/** What stands where a figure cannot be computed. */
export const NONE = '–';

/** A number with so many digits. */
export const fixed = (value: number, digits: number): string => {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text;
};

/** A length in a unit, without the unit's name. */
export const lengthIn = (length: number | null, unit: LengthUnit): string =>
  length === null ? NONE : fixed(length / (UNITS[unit]?.factor ?? 1), DIGITS[unit]);
