/** Makes a finding of geometry: severity from the table of codes, no notes and no fixes unless given. */
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { Anchor, Finding, Measure, MeasureUnit, Params } from '../../grammar/finding';
import { degrees } from '../../grammar/units';

/** A figure in the JSON's units; angles come in radians. */
export const figure = (value: number, unit: MeasureUnit): Measure => ({
  value: unit === 'deg' ? degrees(value) : value,
  unit,
});

/** A finding with the severity that its code has where no book speaks. */
export function tell(
  code: Code,
  subject: string,
  at: Anchor,
  params: Params,
  more: Partial<Pick<Finding, 'measured' | 'allowed' | 'notes' | 'fixes'>> = {},
): Finding {
  return { code, severity: CODES[code].severity, subject, at, params, notes: [], fixes: [], ...more };
}

/** Order of names that no locale changes. */
export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
