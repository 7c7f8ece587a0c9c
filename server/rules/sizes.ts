/** Tables of tube sizes: rows by the car's mass and by the steel, each with the pairs of diameter and wall it accepts. */
import { UNITS } from '../../grammar/units';

const INCH = UNITS['in']?.factor ?? 25.4;
const POUND = UNITS['lb']?.factor ?? 0.45359237;

/** A tube is accepted where both its diameter and its wall are at least these: a pair, never one without the other. */
export interface SizePair {
  /** mm. */
  readonly od: number;
  readonly wall: number;
  /** As the book writes it: `1.75 x .095 in`. */
  readonly name: string;
  /** True for a pair that a metric book accepts by its name: that diameter, no other. */
  readonly byName: boolean;
}

export interface SizeRow {
  /** Cars up to this mass, kg, inclusive; null: every heavier one. */
  readonly upTo: number | null;
  /** None: the table says nothing of these cars. */
  readonly pairs: readonly SizePair[];
  /** Only for this steel; null: for every steel. */
  readonly steel: 'mild' | '4130' | null;
}

export interface SizeTable {
  /** Whether the book's mass is with the driver; null: the mass does not matter. */
  readonly basis: 'with' | 'without' | null;
  /** What the book says of its mass, in words. */
  readonly basisWords: string;
  /** Lightest first. */
  readonly rows: readonly SizeRow[];
  /** What a wall may be under the table's, mm. */
  readonly wallLess: number;
  /** A tube whose diameter is this much over the smallest of the row may have this wall, mm; null: no such row. */
  readonly larger: { readonly by: number; readonly wall: number } | null;
}

/** `38 x 2.5`, mm. */
export const mmPair = (od: number, wall: number): SizePair => ({
  od,
  wall,
  name: `${String(od)} x ${wall.toFixed(1)} mm`,
  byName: false,
});

const decimals = (value: number): string => {
  const text = value.toFixed(4).replace(/0$/, '');
  return text.startsWith('0') ? text.slice(1) : text;
};

/** `1.75 x .095`, inches. */
export const inchPair = (od: number, wall: number, byName = false): SizePair => ({
  od: od * INCH,
  wall: wall * INCH,
  name: `${decimals(od)} x ${decimals(wall)} in`,
  byName,
});

/** Pounds as kilograms. */
export const pounds = (lb: number): number => lb * POUND;
export const inches = (value: number): number => value * INCH;
export const squareInches = (value: number): number => value * INCH * INCH;

/** What handbooks leave open, mm: diameters of inch sizes are rounded to tenths (34.9 for 1.375 in), */
const ROUNDED = 0.03;
/** and walls to hundredths (2.41 for .095 in). */
const WALL_ROUNDED = 0.006;

export interface TubeSize {
  readonly od: number;
  readonly wall: number;
}

/** True where a pair accepts the tube. */
export const accepts = (pair: SizePair, { od, wall }: TubeSize, wallLess = 0): boolean =>
  wall >= pair.wall - wallLess - WALL_ROUNDED &&
  (pair.byName ? Math.abs(od - pair.od) <= 2 * ROUNDED : od >= pair.od - ROUNDED);

/** True where a row accepts the tube, by one of its pairs or as a larger tube of a thinner wall. */
export function rowAccepts(table: SizeTable, row: SizeRow, size: TubeSize): boolean {
  if (row.pairs.length === 0 || row.pairs.some((pair) => accepts(pair, size, table.wallLess))) return true;
  if (table.larger === null) return false;
  const least = Math.min(...row.pairs.map((pair) => pair.od));
  return size.od >= least + table.larger.by - ROUNDED && size.wall >= table.larger.wall - table.wallLess - WALL_ROUNDED;
}

/** What is short of the row: the wall, where some pair has that diameter, else the diameter. Mm. */
export function shortOf(
  table: SizeTable,
  row: SizeRow,
  size: TubeSize,
): { readonly figure: 'wall' | 'od'; readonly wanted: number } {
  const fitting = row.pairs.filter((pair) => accepts({ ...pair, wall: 0 }, size));
  if (fitting.length > 0) {
    return { figure: 'wall', wanted: Math.min(...fitting.map((pair) => pair.wall)) - table.wallLess };
  }
  return { figure: 'od', wanted: Math.min(...row.pairs.map((pair) => pair.od)) };
}

/** The rows that may count for a mass between two bounds, kg; `to` null: no upper bound. */
export const rowsFor = (
  table: SizeTable,
  steel: 'mild' | '4130' | null,
  from: number,
  to: number | null,
): readonly SizeRow[] => {
  const ofSteel = table.rows.filter((row) => row.steel === null || steel === null || row.steel === steel);
  const found: SizeRow[] = [];
  for (const one of new Set(ofSteel.map((row) => row.steel))) {
    let before = -Infinity;
    for (const row of ofSteel.filter((other) => other.steel === one)) {
      const top = row.upTo ?? Infinity;
      // The row holds for masses in (before, top].
      if ((to === null || to > before) && from <= top + 1e-9) found.push(row);
      before = top;
    }
  }
  return found;
};

/** True where the table ends, for that steel, below a mass that may be meant: the rest of it was not seen. */
export const endsBelow = (table: SizeTable, steel: 'mild' | '4130', to: number | null): boolean => {
  const last = table.rows.filter((row) => row.steel === null || row.steel === steel).at(-1);
  const top = last === undefined ? 0 : last.upTo;
  return top !== null && (to === null || to > top + 1e-9);
};

const massWords = (row: SizeRow, before: number | null): string => {
  const lb = (kg: number): string => `${String(Math.round(kg / POUND))} lb`;
  if (row.upTo !== null) return `up to ${lb(row.upTo)} ${row.steel === null ? '' : `(${row.steel}) `}`;
  return before === null ? (row.steel === null ? '' : `${row.steel} `) : `over ${lb(before)} `;
};

export const pairWords = (row: SizeRow): string => row.pairs.map((pair) => pair.name).join(' or ');

/** The whole table in words. */
export function tableWords(table: SizeTable): string {
  let before: number | null = null;
  const rows = table.rows.flatMap((row) => {
    const said = `${massWords(row, before)}${pairWords(row)}`;
    before = row.upTo;
    return row.pairs.length === 0 ? [] : [said];
  });
  const less = table.wallLess > 0 ? `; walls may be ${(table.wallLess / INCH).toFixed(3).slice(1)} in under` : '';
  const larger =
    table.larger === null
      ? ''
      : `; a tube ${decimals(table.larger.by / INCH)} in larger may have a wall of ${decimals(table.larger.wall / INCH)} in`;
  return `${rows.join('; ')}${less}${larger}${table.basisWords === '' ? '' : ` (${table.basisWords})`}`;
}
