/** Figures as a build sheet prints them: as many digits as a workshop can use, never -0. */
import { roundedTo } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import { LENGTH_DIGITS, UNITS } from '../../grammar/units';

/** What stands where a figure cannot be computed. */
export const NONE = '–';

/** A number with so many digits. */
export const fixed = (value: number, digits: number): string => {
  const text = roundedTo(value, digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text;
};

/** A length in a unit, without the unit's name. */
export const lengthIn = (length: number | null, unit: LengthUnit): string =>
  length === null ? NONE : fixed(length / (UNITS[unit]?.factor ?? 1), LENGTH_DIGITS[unit]);
