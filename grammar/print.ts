/** Quantities and findings in a person's words, in the units of the file. */
import { CODES } from './codes';
import type { Allowed, Finding, Measure, MeasureUnit, Params } from './finding';
import { LENGTH_DIGITS, UNITS, type LengthUnit } from './units';

const MOST_DIGITS = 6;

/** What sums in inches leave of a half, as a share: 1 3/4 in is 44.449999999999996 mm, and half of that goes up. */
const HALF_UP = 1e-12;

/** So many digits, a half rounded away from 0. */
export const roundedTo = (value: number, digits: number): string => (value + value * HALF_UP).toFixed(digits);

/** A number with at most so many digits behind the point, without idle zeros, never `-0`; one that is not 0 never says 0. */
export function sayNumber(value: number, digits: number): string {
  if (!Number.isFinite(value)) return 'no number';
  for (let more = digits; ; more++) {
    const text = roundedTo(value, more);
    const rounded = Number.parseFloat(text);
    if (rounded === 0 && Math.abs(value) > 1e-9 && more < MOST_DIGITS) continue;
    return rounded === 0 ? '0' : text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  }
}

/** `22 7/8`: inches as a whole number of marks, of which `perInch` (a power of two) make an inch. */
function sayMarks(marks: number, perInch: number): string {
  const count = Math.abs(marks);
  const [whole, rest] = [Math.floor(count / perInch), count % perInch];
  let [over, under] = [rest, perInch];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const fraction = rest === 0 ? '' : `${String(over)}/${String(under)}`;
  const text = whole === 0 && fraction !== '' ? fraction : `${String(whole)} ${fraction}`.trim();
  return `${marks < 0 ? '-' : ''}${text}`;
}

/** `22 7/8`: inches as a tape shows them, to the nearest sixteenth. `length` in mm. */
export const sayInches = (length: number): string => sayMarks(Math.round((length / worth('in')) * 16), 16);

/** The finest mark of a steel rule that is still called by its fraction: drills and plates come in 5/32 and 3/32. */
const FINEST = 32;

/**
 * `3/16`, `30 1/8`: inches that stand on a mark, as a tape has them; null for what lies between marks. That stays in
 * thousandths, since rounding it could hide on which side of a limit it lies.
 */
function onMark(inches: number): string | null {
  const marks = Math.round(inches * FINEST);
  return marks !== 0 && Math.abs(inches * FINEST - marks) < 1e-6 ? sayMarks(marks, FINEST) : null;
}

/** A length up to the next mark of a tape: whole millimetres, sixteenths of an inch. Whoever adds so much has enough. */
export function sayOnTape(length: number, units: LengthUnit): string {
  const step = imperial(units) ? worth('in') / 16 : units === 'mm' ? 1 : 0;
  if (step === 0 || !Number.isFinite(length)) return sayMeasure({ value: length, unit: 'mm' }, units);
  // What is on a mark but for rounding stays there; what is wanted is never nothing.
  const up = Math.max(1, Math.ceil(Math.abs(length) / step - 1e-6)) * step;
  return imperial(units) ? `${sayInches(up)} in` : sayMeasure({ value: up, unit: 'mm' }, units);
}

const worth = (unit: string): number => UNITS[unit]?.factor ?? 1;
const imperial = (units: LengthUnit): boolean => units === 'in' || units === 'ft';

interface Printed {
  readonly value: number;
  readonly digits: number;
  readonly unit: string;
  /** True for lengths in inches: what stands on a mark is said as a fraction. */
  readonly fractions?: boolean;
}

/** A figure without its unit, with so many digits more than usual. */
const sayPrinted = ({ value, digits, fractions }: Printed, more: number): string =>
  (fractions === true ? onMark(value) : null) ?? sayNumber(value, digits + more);

/** A figure of the JSON in the unit that a person reads. */
function inUnits({ value, unit }: Measure, units: LengthUnit): Printed {
  switch (unit) {
    case 'mm':
      return {
        value: value / worth(units),
        digits: LENGTH_DIGITS[units],
        unit: ` ${units}`,
        fractions: units === 'in',
      };
    case 'mm2':
      return { value: value / worth(units) ** 2, digits: LENGTH_DIGITS[units], unit: ` ${units}²` };
    case 'deg':
      return { value, digits: 1, unit: '°' };
    case 'kg':
      return imperial(units)
        ? { value: value / worth('lb'), digits: 2, unit: ' lb' }
        : { value, digits: 2, unit: ' kg' };
    case 'N':
      return imperial(units)
        ? { value: value / worth('lbf'), digits: 0, unit: ' lbf' }
        : { value, digits: 0, unit: ' N' };
    case 'MPa':
      return imperial(units)
        ? { value: value / worth('ksi'), digits: 1, unit: ' ksi' }
        : { value, digits: 0, unit: ' MPa' };
    case '1':
      return { value, digits: 4, unit: '' };
  }
}

/**
 * A figure for a person: lengths in the file's unit (a tenth of a millimetre; inches as a fraction where they stand on a
 * mark, else in thousandths), angles in tenths of a degree. `more`: so many digits more.
 */
export function sayMeasure(measure: Measure, units: LengthUnit, more = 0): string {
  const printed = inUnits(measure, units);
  return `${sayPrinted(printed, more)}${printed.unit}`;
}

/** The same without its unit, as the file itself would have it: `z = 781`. */
const sayBare = (measure: Measure, units: LengthUnit): string => sayPrinted(inUnits(measure, units), 0);

/** A range that is allowed: `0 to 45°`, `at most 20°`, `at least 50 mm`. */
export function sayAllowed({ from, to, unit }: Allowed, units: LengthUnit, more = 0): string {
  const say = (value: number): string => sayMeasure({ value, unit }, units, more);
  if (from !== null && to !== null) {
    return `${sayPrinted(inUnits({ value: from, unit }, units), more)} to ${say(to)}`;
  }
  return to !== null ? `at most ${say(to)}` : from !== null ? `at least ${say(from)}` : 'anything';
}

const isMeasure = (value: Params[string]): value is Measure =>
  typeof value === 'object' && value !== null && 'unit' in value && 'value' in value;

/** Parameters that are phrases with `{names}` of their own: written by the tool, never taken from a file. */
const PHRASES: ReadonlySet<string> = new Set([
  'near',
  'ask',
  'hoopSize',
  'mend',
  'size',
  'way',
  'what',
  'where',
  'why',
]);

/** Digits more than usual until what was measured and its limit read differently: never "10°, at most 10°". */
function digitsToTell(measured: Measure | undefined, limits: readonly (number | null)[], units: LengthUnit): number {
  if (measured === undefined) return 0;
  const same = (limit: number, more: number): boolean =>
    sayMeasure(measured, units, more) === sayMeasure({ value: limit, unit: measured.unit }, units, more);
  let more = 0;
  for (const limit of limits) {
    if (limit === null || Math.abs(limit - measured.value) < 1e-6) continue;
    while (more < 3 && same(limit, more)) more++;
  }
  return more;
}

const limitsOf = (finding: Pick<Finding, 'measured' | 'allowed' | 'params'>): readonly (number | null)[] => {
  const unit: MeasureUnit | undefined = finding.measured?.unit;
  const told = ['limit', 'need'].map((name) => finding.params[name]);
  return [
    finding.allowed?.from ?? null,
    finding.allowed?.to ?? null,
    ...told.map((value) => (value !== undefined && isMeasure(value) && value.unit === unit ? value.value : null)),
  ];
};

const counted = (number: string, thing: string): string =>
  number === '1' ? `1 ${thing}` : `${number === '0' ? 'no' : number} ${thing}s`;

/**
 * The sentence of a finding, from the template of its code. Figures come in the units of the file, lists with commas;
 * a parameter that is missing leaves nothing behind. `{name#}`: a figure without its unit, as the file would have it;
 * `{name~}`: a length that somebody has to add, to the next mark of a tape; `{name:bend}`: a number of things, `no
 * bends`, `1 bend`, `2 bends`.
 */
export function wordFinding(
  finding: Pick<Finding, 'code' | 'params' | 'measured' | 'allowed'>,
  units: LengthUnit,
): string {
  const { measured, allowed, params } = finding;
  const more = digitsToTell(measured, limitsOf(finding), units);
  const say = (name: string, inPhrase: boolean): string => {
    if (name === 'measured' && measured !== undefined) return sayMeasure(measured, units, more);
    if (name === 'allowed' && allowed !== undefined) return sayAllowed(allowed, units, more);
    const value = params[name];
    if (value === undefined || value === null) return '';
    if (typeof value === 'number') return sayNumber(value, MOST_DIGITS);
    if (typeof value === 'string') return PHRASES.has(name) && !inPhrase ? fill(value, true) : value;
    if (!isMeasure(value)) return value.join(', ');
    return sayMeasure(value, units, (name === 'limit' || name === 'need') && value.unit === measured?.unit ? more : 0);
  };
  const bare = (name: string): string => {
    const value = params[name];
    return value !== undefined && isMeasure(value) ? sayBare(value, units) : say(name, true);
  };
  const onTape = (name: string): string => {
    const value = params[name];
    return value !== undefined && isMeasure(value) && value.unit === 'mm'
      ? sayOnTape(value.value, units)
      : say(name, true);
  };
  const fill = (text: string, inPhrase: boolean): string =>
    text.replace(/\{([A-Za-z]\w*)(#|~|:[a-z ]+)?\}/g, (_, name: string, mark: string | undefined) =>
      mark === '#'
        ? bare(name)
        : mark === '~'
          ? onTape(name)
          : mark === undefined
            ? say(name, inPhrase)
            : counted(say(name, inPhrase), mark.slice(1)),
    );
  const sentence = fill(CODES[finding.code].says, false)
    .replace(/\s*[:;,]?\s*\.$/, '.')
    .replace(/\.\.$/, '.')
    .replace(/(did you mean '[^']*')\.$/, '$1?');
  return params['bothSides'] === 'yes' ? `${sentence} On both sides.` : sentence;
}
