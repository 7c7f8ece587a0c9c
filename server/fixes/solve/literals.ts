/** Numbers as they are written: what one step of a tape is for each, and how a new value is written in its place. */
import type { Span } from '../../../grammar/finding';
import type { NumberLit } from '../../../grammar/tree';
import type { Dimension } from '../../../grammar/units';
import { ANGLE, LENGTH, PLAIN, sameDimension, UNITS } from '../../../grammar/units';

/** What a number means where it stands. A share is written in per cent; a count in whole things. */
export type Quantity = 'length' | 'angle' | 'share' | 'count';

/** Who holds a number: a `let`, a node, a plane, or another thing with the fact in which it stands. */
export interface Holder {
  readonly kind: 'let' | 'node' | 'plane' | 'adjust' | 'fact';
  /** Its name as a person writes it, without a side. */
  readonly name: string;
  /** The word of the fact; '' where it has none. */
  readonly fact: string;
}

/** A number that may be changed. */
export interface Literal {
  readonly file: string;
  /** Its digits alone, without the unit. */
  readonly span: Span;
  readonly text: string;
  /** In its own unit. */
  readonly value: number;
  /** `mm`, `in`, `deg`, `%`; empty for a count. */
  readonly unit: string;
  readonly quantity: Quantity;
  readonly holder: Holder;
  /** True where it may come to be written with a minus: the whole of a coordinate. */
  readonly signed: boolean;
}

/** Finest marks that a workshop measures by, in each unit: a millimetre, a sixteenth of an inch, half a degree. */
const STEPS: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 0.1,
  m: 0.001,
  in: 1 / 16,
  ft: 0.005,
  deg: 0.5,
  rad: 0.01,
  '%': 0.5,
  '': 1,
};
/** Sheet and gaps are finer than a tape: below this many steps half a step counts. */
const FEW_STEPS = 10;

/** The finest mark that a workshop measures by, in a unit. */
export const markOf = (unit: string): number => STEPS[unit] ?? 1;

/** The step by which a number is changed, in its own unit. */
export function stepOf({ unit, value, quantity }: Literal): number {
  const step = markOf(unit);
  return quantity === 'length' && Math.abs(value) < FEW_STEPS * step && value !== 0 ? step / 2 : step;
}

/** What one of a literal's own unit is inside: mm, rad, plain. */
export const worthOf = (literal: Literal): number => UNITS[literal.unit]?.factor ?? 1;

const quantityOf = (dimension: Dimension): Quantity | null =>
  sameDimension(dimension, LENGTH)
    ? 'length'
    : sameDimension(dimension, ANGLE)
      ? 'angle'
      : sameDimension(dimension, PLAIN)
        ? 'share'
        : null;

/** Unit and meaning of a number where `wanted` is wanted; null where it is neither a length nor an angle nor a share. */
export function meaningOf(
  number: NumberLit,
  wanted: Quantity,
  fileUnit: string,
  listUnit: string | null = null,
): { readonly unit: string; readonly quantity: Quantity } | null {
  const written = number.unit?.text ?? listUnit;
  if (written !== null) {
    const entry = UNITS[written];
    const quantity = entry === undefined ? null : quantityOf(entry.dimension);
    return quantity === null ? null : { unit: written, quantity };
  }
  switch (wanted) {
    case 'length':
      return { unit: fileUnit, quantity: wanted };
    case 'angle':
      return { unit: 'deg', quantity: wanted };
    case 'count':
      return { unit: '', quantity: wanted };
    case 'share':
      return null;
  }
}

const SIXTEENTHS = 16;
const MOST_DIGITS = 6;

const common = (a: number, b: number): number => (b === 0 ? a : common(b, a % b));

/** `30 9/16`; null where it is no whole number of thirty-seconds. */
function fraction(value: number): string | null {
  const below = 2 * SIXTEENTHS;
  const parts = Math.round(value * below);
  if (Math.abs(parts - value * below) > 1e-6) return null;
  const whole = Math.floor(parts / below);
  const rest = parts % below;
  if (rest === 0) return String(whole);
  const by = common(rest, below);
  const share = `${String(rest / by)}/${String(below / by)}`;
  return whole === 0 ? share : `${String(whole)} ${share}`;
}

function decimal(value: number, like: string): string {
  const text = value.toFixed(MOST_DIGITS).replace(/\.?0+$/, '');
  return like.startsWith('.') ? text.replace(/^0\./, '.') : text;
}

/** A new value in the manner in which the old one is written: a fraction of an inch stays one. */
export function write(literal: Literal, value: number): string {
  const size = Math.abs(value);
  const inches = literal.unit === 'in' && !literal.text.includes('.');
  const text = (inches ? fraction(size) : null) ?? decimal(size, literal.text);
  return value < 0 ? `-${text}` : text;
}

/** A value with its unit, for a title. */
export const sayValue = (literal: Literal, value: number): string =>
  `${write(literal, value)}${literal.unit === '' ? '' : literal.unit === '%' ? ' %' : ` ${literal.unit}`}`;
