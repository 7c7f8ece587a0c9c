/** Figures in the file's unit with the other tradition's beside them: a shop has both tapes. */
import type { Measure } from '../../grammar/finding';
import { sayMeasure } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';

export const otherUnit = (units: LengthUnit): LengthUnit => (units === 'in' || units === 'ft' ? 'mm' : 'in');

/** `259.1 mm (10.201 in)`; a figure that reads the same in both stands once. */
export function sayBoth(measure: Measure, units: LengthUnit): string {
  const own = sayMeasure(measure, units);
  const other = sayMeasure(measure, otherUnit(units));
  return own === other ? own : `${own} (${other})`;
}

export const sayLength = (value: number | null, units: LengthUnit): string =>
  value === null ? 'not known' : sayBoth({ value, unit: 'mm' }, units);

const SENSE = /^(at most|at least|less than|more than) /;

/** Words in both units, where they differ: `at most 100 mm (3.937 in)`. */
export function inBoth(say: (units: LengthUnit) => string, units: LengthUnit): string {
  const [own, other] = [say(units), say(otherUnit(units))];
  if (own === other) return own;
  const same = SENSE.exec(own)?.[0];
  return `${own} (${same !== undefined && other.startsWith(same) ? other.slice(same.length) : other})`;
}

/** Diameter and wall, a digit finer than other lengths: `1.75 in x 0.12 in (44.45 mm x 3.05 mm)`. */
export const saySize = (od: Measure, wall: Measure, units: LengthUnit): string =>
  inBoth((unit) => `${sayMeasure(od, unit, 1)} x ${sayMeasure(wall, unit, 1)}`, units);

/** The same of a tube's section; lengths in mm. What is not known says so. */
export const sayTube = (section: { readonly od: number; readonly wall: number } | null, units: LengthUnit): string =>
  section === null
    ? 'not known'
    : saySize({ value: section.od, unit: 'mm' }, { value: section.wall, unit: 'mm' }, units);
