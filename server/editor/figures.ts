/** Figures in the words of a hover: in the file's own unit, and in the other system beside it. */
import { sayInches } from '../../grammar/print';
import { degrees, type LengthUnit } from '../../grammar/units';
import type { Vec3 } from '../centreline/vector';
import { fixed, lengthIn as inUnit, NONE } from '../project/sheet-figures';

const LB_PER_KG = 1 / 0.45359237;

/** The unit of the other system. */
export const otherUnit = (unit: LengthUnit): LengthUnit => (unit === 'in' || unit === 'ft' ? 'mm' : 'in');

/** `45.0 mm (1.772 in)`. */
export const bothLengths = (length: number | null, unit: LengthUnit): string => {
  if (length === null) return NONE;
  const other = otherUnit(unit);
  return `${inUnit(length, unit)} ${unit} (${inUnit(length, other)} ${other})`;
};

/** `88.2°`. */
export const inDegrees = (angle: number | null): string => (angle === null ? NONE : `${fixed(degrees(angle), 1)}°`);

/** `2.75 kg (6.06 lb)`. */
export const bothMasses = (mass: number | null): string =>
  mass === null ? NONE : `${fixed(mass, 2)} kg (${fixed(mass * LB_PER_KG, 2)} lb)`;

/** `(1.0, 2.0, 3.0)`. */
export const pointIn = (point: Vec3, unit: LengthUnit): string =>
  `(${point.map((value) => inUnit(value, unit)).join(', ')})`;

/** A name as code, so that its `_` and `-` stay what they are. */
export const code = (name: string | null): string => (name === null ? NONE : `\`${name}\``);

/** Text of a person, with what Markdown would take for its own made harmless. */
export const plain = (text: string): string => text.replace(/[\\`*_[\]<>|~]/g, (sign) => `\\${sign}`);

const rowsOf = (head: readonly string[], marks: readonly string[], rows: readonly (readonly string[])[]): string =>
  [`| ${head.join(' | ')} |`, `|${marks.join('|')}|`, ...rows.map((row) => `| ${row.join(' | ')} |`)].join('\n');

/** A table of figures: columns after the first are set right. */
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  rowsOf(
    head,
    head.map((_, i) => (i === 0 ? ':--' : '--:')),
    rows,
  );

/** A table of words: every column is set left. */
export const list = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  rowsOf(
    head,
    head.map(() => ':--'),
    rows,
  );

/** `22 7/8`: inches as a tape shows them, to the nearest sixteenth. */
export const onTape = (length: number | null): string => (length === null ? NONE : sayInches(length));

/** Lengths by name: in the file's unit, in the other, and as an inch tape shows them. */
export const lengthTable = (unit: LengthUnit, rows: readonly (readonly [string, number | null])[]): string => {
  const other = otherUnit(unit);
  return table(
    ['', unit, other, 'tape, to 1/16 in'],
    rows.map(([name, length]) => [name, inUnit(length, unit), inUnit(length, other), onTape(length)]),
  );
};

export { fixed, inUnit, NONE };
