/**
 * Figures with their dimension: what an expression is worth, and the rules by which figures meet.
 * Inside: mm, rad, kg, N, MPa. A fault is returned, never thrown; nothing here knows where in the text it stands.
 */
import type { Code } from '../../grammar/codes';
import type { Params } from '../../grammar/finding';
import type { Dimension, LengthUnit } from '../../grammar/units';
import { ANGLE, deg, DENSITY, FORCE, LENGTH, MASS, PLAIN, sameDimension, STRESS, UNITS } from '../../grammar/units';

export interface Quantity {
  readonly kind: 'quantity';
  readonly value: number;
  readonly dimension: Dimension;
  /**
   * For a plain number: the length unit of the file in which its digits stand, which it takes when a length is wanted.
   * Null where it has no digits of its own (a ratio of two lengths, a share) or carries a unit.
   */
  readonly bare: LengthUnit | null;
  /** A share (`40 %`), or worked out from one. */
  readonly share: boolean;
}

/** Why a figure could not be had. `on` says what to point at: the operator (or function's name), or the operand itself. */
export interface Fault {
  readonly kind: 'fault';
  readonly code: Code;
  readonly params: Params;
}

export type Figure = Quantity | Fault;

const fault = (code: Code, params: Params): Fault => ({ kind: 'fault', code, params });
const cannot = (why: string): Fault => fault('number.arithmetic', { why });

/** Powers of a unit beyond these mean nothing, and would be lost to rounding. */
const HIGHEST_POWER = 100;
const LOWEST_POWER = 1e-6;

const isMeant = ({ length, angle, mass, force }: Dimension): boolean =>
  [length, angle, mass, force].every(
    (power) => power === 0 || (Math.abs(power) >= LOWEST_POWER && Math.abs(power) <= HIGHEST_POWER),
  );

/** A figure with a dimension; one that is no finite number is a fault. */
export function quantity(value: number, dimension: Dimension, bare: LengthUnit | null = null, share = false): Figure {
  if (Number.isNaN(value)) return cannot('it is divided by zero');
  if (!Number.isFinite(value)) return cannot('the figure is too large');
  if (!isMeant(dimension)) return cannot('its unit is to a power that means nothing');
  return { kind: 'quantity', value: value === 0 ? 0 : value, dimension, bare, share };
}

/** A length in mm. */
export const lengthOf = (value: number): Figure => quantity(value, LENGTH);
/** An angle in rad. */
export const angleOf = (value: number): Figure => quantity(value, ANGLE);

/** The digits of a literal with the unit behind them; `unit` null: bare digits of a file in `file`. Unknown unit: null. */
export function literal(value: number, unit: string | null, file: LengthUnit): Figure | null {
  if (unit === null) return quantity(value, PLAIN, file);
  const entry = Object.hasOwn(UNITS, unit) ? UNITS[unit] : undefined;
  if (entry === undefined) return null;
  return quantity(value * entry.factor, entry.dimension, null, unit === '%');
}

const NAMED: readonly (readonly [Dimension, string])[] = [
  [LENGTH, 'a length'],
  [ANGLE, 'an angle'],
  [MASS, 'a mass'],
  [FORCE, 'a force'],
  [STRESS, 'a stress'],
  [DENSITY, 'a density'],
  [PLAIN, 'a plain number'],
  [{ ...PLAIN, length: 2 }, 'an area'],
  [{ ...PLAIN, length: 3 }, 'a volume'],
];

/** A dimension in words: `a length`, `an area`, `mm^4`. */
export function dimensionName(d: Dimension): string {
  const named = NAMED.find(([dimension]) => sameDimension(dimension, d));
  if (named !== undefined) return named[1];
  const part = (unit: string, exponent: number): string =>
    exponent === 0 ? '' : exponent === 1 ? unit : `${unit}^${exponent}`;
  const parts = [part('mm', d.length), part('rad', d.angle), part('kg', d.mass), part('N', d.force)];
  return `a figure in ${parts.filter((text) => text !== '').join(' ')}`;
}

const wrong = (found: Dimension, wanted: string, hint = ''): Fault =>
  fault('unit.dimension', { found: dimensionName(found), wanted, hint });

const isPlain = (q: Quantity): boolean => sameDimension(q.dimension, PLAIN);

/** An example of a unit for a bare number, as a hint. */
const unitHint = (d: Dimension): string => {
  const example = Object.entries(UNITS).find(([, entry]) => sameDimension(entry.dimension, d));
  return example === undefined ? '' : `: write its unit, such as ${example[0]}`;
};

/**
 * A figure as one of dimension `d`: its worth inside. A bare number takes the length unit of its file, or degrees;
 * for other dimensions it needs its unit written.
 */
export function as(q: Quantity, d: Dimension): number | Fault {
  if (sameDimension(q.dimension, d)) return q.value;
  if (isPlain(q) && q.bare !== null) {
    if (sameDimension(d, LENGTH)) return q.value * (UNITS[q.bare]?.factor ?? Number.NaN);
    if (sameDimension(d, ANGLE)) return deg(q.value);
  }
  if (q.share && isPlain(q))
    return fault('unit.dimension', { found: 'a share in %', wanted: dimensionName(d), hint: '' });
  return wrong(q.dimension, dimensionName(d), isPlain(q) ? unitHint(d) : '');
}

/** The unit that two plain numbers have in common, or the fault that they have none. */
function bareOf(a: Quantity, b: Quantity): LengthUnit | null | Fault {
  if (a.bare !== null && b.bare !== null && a.bare !== b.bare) return fault('unit.mixed', { a: a.bare, b: b.bare });
  return a.bare ?? b.bare;
}

const isFault = (x: unknown): x is Fault =>
  typeof x === 'object' && x !== null && (x as { kind?: unknown }).kind === 'fault';

/** Brings two figures to one dimension, as `+` wants it; the one that is bare follows the other. */
function alike(
  a: Quantity,
  b: Quantity,
): { a: number; b: number; dimension: Dimension; bare: LengthUnit | null } | Fault {
  if (sameDimension(a.dimension, b.dimension)) {
    const bare = isPlain(a) ? bareOf(a, b) : null;
    return isFault(bare) ? bare : { a: a.value, b: b.value, dimension: a.dimension, bare };
  }
  const dimension = isPlain(a) ? b.dimension : a.dimension;
  if (!isPlain(a) && !isPlain(b)) return wrong(b.dimension, dimensionName(a.dimension));
  const left = as(a, dimension);
  const right = as(b, dimension);
  if (isFault(left)) return left;
  if (isFault(right)) return right;
  return { a: left, b: right, dimension, bare: null };
}

/** a + b, or a - b with `sign` -1. */
export function plus(a: Quantity, b: Quantity, sign: 1 | -1): Figure {
  const pair = alike(a, b);
  if (isFault(pair)) return pair;
  return quantity(pair.a + sign * pair.b, pair.dimension, pair.bare, isShare(a, b, pair.dimension));
}

const isShare = (a: Quantity, b: Quantity, d: Dimension): boolean => sameDimension(d, PLAIN) && (a.share || b.share);

const combine = (a: Dimension, b: Dimension, sign: 1 | -1): Dimension => ({
  length: a.length + sign * b.length,
  angle: a.angle + sign * b.angle,
  mass: a.mass + sign * b.mass,
  force: a.force + sign * b.force,
});

/** a · b. */
export function times(a: Quantity, b: Quantity): Figure {
  const bare = isPlain(a) && isPlain(b) ? bareOf(a, b) : null;
  if (isFault(bare)) return bare;
  const dimension = combine(a.dimension, b.dimension, 1);
  return quantity(a.value * b.value, dimension, bare, isShare(a, b, dimension));
}

/** a / b; a zero below is a fault. */
export function over(a: Quantity, b: Quantity): Figure {
  const bare = isPlain(a) && isPlain(b) ? bareOf(a, b) : null;
  if (isFault(bare)) return bare;
  if (b.value === 0) return cannot('it is divided by zero');
  const dimension = combine(a.dimension, b.dimension, -1);
  return quantity(a.value / b.value, dimension, bare, isShare(a, b, dimension));
}

/** -a. */
export const negated = (a: Quantity): Figure => quantity(-a.value, a.dimension, a.bare, a.share);

/** What rounding may leave beyond 1 in a sine or cosine, or of a cosine at a right angle. */
const ROUNDING = 1e-12;

/** A function of figures by its name; the number of arguments has been checked. Unknown name: null. */
export function applied(name: string, args: readonly Quantity[]): Figure | null {
  const [a, b] = args;
  if (a === undefined) return null;
  switch (name) {
    case 'sqrt':
      return root(a);
    case 'abs':
      return quantity(Math.abs(a.value), a.dimension, a.bare, a.share);
    case 'min':
    case 'max':
      return extreme(name, args);
    case 'sin':
    case 'cos':
    case 'tan':
      return circular(name, a);
    case 'asin':
    case 'acos':
      return inverse(name, a);
    case 'atan2':
      return b === undefined ? null : slope(a, b);
    default:
      return null;
  }
}

function root(a: Quantity): Figure {
  if (a.value < 0) return cannot('it is the square root of a negative figure');
  const half: Dimension = {
    length: a.dimension.length / 2,
    angle: a.dimension.angle / 2,
    mass: a.dimension.mass / 2,
    force: a.dimension.force / 2,
  };
  return quantity(Math.sqrt(a.value), half, a.bare);
}

function extreme(name: 'min' | 'max', args: readonly Quantity[]): Figure {
  let best = args[0] as Quantity;
  for (const next of args.slice(1)) {
    const pair = alike(best, next);
    if (isFault(pair)) return pair;
    const value = name === 'min' ? Math.min(pair.a, pair.b) : Math.max(pair.a, pair.b);
    const figure = quantity(value, pair.dimension, pair.bare, isShare(best, next, pair.dimension));
    if (isFault(figure)) return figure;
    best = figure;
  }
  return best;
}

function circular(name: 'sin' | 'cos' | 'tan', a: Quantity): Figure {
  const angle = as(a, ANGLE);
  if (isFault(angle)) return angle;
  if (name === 'sin') return quantity(Math.sin(angle), PLAIN);
  if (name === 'cos') return quantity(Math.cos(angle), PLAIN);
  if (Math.abs(Math.cos(angle)) < ROUNDING) return cannot('a right angle has no tangent');
  return quantity(Math.tan(angle), PLAIN);
}

function inverse(name: 'asin' | 'acos', a: Quantity): Figure {
  const value = as(a, PLAIN);
  if (isFault(value)) return value;
  if (Math.abs(value) > 1 + ROUNDING) return cannot(`no angle has a ${name === 'asin' ? 'sine' : 'cosine'} beyond 1`);
  const clamped = Math.max(-1, Math.min(1, value));
  return angleOf(name === 'asin' ? Math.asin(clamped) : Math.acos(clamped));
}

function slope(a: Quantity, b: Quantity): Figure {
  const pair = alike(a, b);
  if (isFault(pair)) return pair;
  if (pair.a === 0 && pair.b === 0) return cannot('a slope needs a rise or a run');
  return angleOf(Math.atan2(pair.a, pair.b));
}

/** True for a fault. */
export const failed = isFault;
