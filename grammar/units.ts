/**
 * Units and dimensions: the one place that knows how a length, an angle or a force is written,
 * what it is worth inside (mm, rad, kg, N, MPa), and how a figure is printed for a person.
 */

declare const lengthBrand: unique symbol;
declare const angleBrand: unique symbol;

/** A length in millimetres. A bare number is not one: make it with {@link mm}. */
export type Length = number & { readonly [lengthBrand]: true };
/** An angle in radians. A bare number is not one: make it with {@link rad} or {@link deg}. */
export type Angle = number & { readonly [angleBrand]: true };

/** Says that a number is millimetres. */
export const mm = (value: number): Length => value as Length;
/** Says that a number is radians. */
export const rad = (value: number): Angle => value as Angle;
/** An angle from degrees. */
export const deg = (value: number): Angle => ((value * Math.PI) / 180) as Angle;
/** Degrees of an angle. */
export const degrees = (angle: number): number => (angle * 180) / Math.PI;

/** Exponents of the base quantities. Force and stress are derived: N is kg·m/s², kept here as its own base for plain talk. */
export interface Dimension {
  readonly length: number;
  readonly angle: number;
  readonly mass: number;
  readonly force: number;
}

const dimension = (length: number, angle: number, mass: number, force: number): Dimension => ({
  length,
  angle,
  mass,
  force,
});

export const PLAIN = dimension(0, 0, 0, 0);
export const LENGTH = dimension(1, 0, 0, 0);
export const AREA = dimension(2, 0, 0, 0);
export const ANGLE = dimension(0, 1, 0, 0);
export const MASS = dimension(0, 0, 1, 0);
export const FORCE = dimension(0, 0, 0, 1);
export const STRESS = dimension(-2, 0, 0, 1);
export const DENSITY = dimension(-3, 0, 1, 0);

/** Same exponents. */
export const sameDimension = (a: Dimension, b: Dimension): boolean =>
  a.length === b.length && a.angle === b.angle && a.mass === b.mass && a.force === b.force;

export interface UnitEntry {
  readonly dimension: Dimension;
  /** What one of it is worth inside: mm, rad, kg, N, MPa (= N/mm²), kg/mm³, plain. */
  readonly factor: number;
  /** One line for the reader of a hover. */
  readonly meaning: string;
}

/** Pounds to kilograms and inches to millimetres are exact by the international agreement of 1959 (ISO 31, NIST SP 811). */
const INCH = 25.4;
const POUND = 0.45359237;
const STANDARD_GRAVITY = 9.80665;
const POUND_FORCE = POUND * STANDARD_GRAVITY;

/** Every unit of the language. `%` is a plain number over a hundred. */
export const UNITS: Readonly<Record<string, UnitEntry>> = {
  mm: { dimension: LENGTH, factor: 1, meaning: 'millimetre' },
  cm: { dimension: LENGTH, factor: 10, meaning: 'centimetre, 10 mm' },
  m: { dimension: LENGTH, factor: 1000, meaning: 'metre, 1000 mm' },
  in: { dimension: LENGTH, factor: INCH, meaning: 'inch, 25.4 mm' },
  ft: { dimension: LENGTH, factor: 12 * INCH, meaning: 'foot, 12 in' },
  cm2: { dimension: AREA, factor: 100, meaning: 'square centimetre, 100 mm²' },
  mm2: { dimension: AREA, factor: 1, meaning: 'square millimetre' },
  in2: { dimension: AREA, factor: INCH * INCH, meaning: 'square inch, 645.16 mm²' },
  deg: { dimension: ANGLE, factor: Math.PI / 180, meaning: 'degree' },
  rad: { dimension: ANGLE, factor: 1, meaning: 'radian' },
  kg: { dimension: MASS, factor: 1, meaning: 'kilogram' },
  lb: { dimension: MASS, factor: POUND, meaning: 'pound, 0.45359237 kg' },
  N: { dimension: FORCE, factor: 1, meaning: 'newton' },
  kN: { dimension: FORCE, factor: 1000, meaning: 'kilonewton' },
  lbf: { dimension: FORCE, factor: POUND_FORCE, meaning: 'pound-force, 4.448 N' },
  MPa: { dimension: STRESS, factor: 1, meaning: 'megapascal, N/mm²' },
  GPa: { dimension: STRESS, factor: 1000, meaning: 'gigapascal, 1000 MPa' },
  ksi: { dimension: STRESS, factor: (1000 * POUND_FORCE) / (INCH * INCH), meaning: '1000 psi, 6.895 MPa' },
  'kg/m3': { dimension: DENSITY, factor: 1e-9, meaning: 'kilogram per cubic metre' },
  '%': { dimension: PLAIN, factor: 0.01, meaning: 'hundredth part' },
};

/** How units are written elsewhere (lower case), with the word that is written here. */
export const UNIT_SPELLINGS: Readonly<Record<string, string>> = {
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  inch: 'in',
  inches: 'in',
  ins: 'in',
  foot: 'ft',
  feet: 'ft',
  degree: 'deg',
  degrees: 'deg',
  degs: 'deg',
  radian: 'rad',
  radians: 'rad',
  kilo: 'kg',
  kilos: 'kg',
  kgs: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  pound: 'lb',
  pounds: 'lb',
  lbs: 'lb',
  newton: 'N',
  newtons: 'N',
  percent: '%',
  pct: '%',
};

/** A file's own length unit (`units mm`). */
export type LengthUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft';
export const LENGTH_UNITS: readonly LengthUnit[] = ['mm', 'cm', 'm', 'in', 'ft'];

/** Digits behind the point that a workshop can use: a tenth of a millimetre, a thousandth of an inch. */
export const LENGTH_DIGITS: Readonly<Record<LengthUnit, number>> = { mm: 1, cm: 2, m: 4, in: 3, ft: 4 };
