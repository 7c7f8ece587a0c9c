/** Bolts and plates, as the facts of feet, fittings, mounts and anchors tell them. */
import type { Length } from '../../grammar/units';
import type { Bolts, CounterPlate, Grade, Held, Plate } from './hardware';
import type { Page } from './page';

/** Nominal tensile strengths of the property classes, MPa (ISO 898-1, table 3: the first figure a hundredth of it). */
const ISO: readonly number[] = [4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8, 10.9, 12.9];
const isoTensile = (grade: number): number => 100 * Math.floor(grade);

/** Minimum tensile strengths by SAE J429, bolts up to 3/4 in: 60, 74, 115, 120 and 150 ksi, as MPa. From memory. */
const SAE: Readonly<Record<string, number>> = { 1: 414, 2: 510, 4: 793, 5: 827, 5.2: 827, 8: 1034, 8.2: 1034 };

/** A grade by its figure; null: there is none such. */
export function gradeOf(value: number): Grade | null {
  if (ISO.includes(value)) return { standard: 'iso', value, tensile: isoTensile(value) };
  const tensile = SAE[String(value)];
  return tensile === undefined ? null : { standard: 'sae', value, tensile };
}

const GRADES = `a grade of ISO 898-1 (${ISO.join(', ')}) or SAE J429 (${Object.keys(SAE)
  .sort((a, b) => Number(a) - Number(b))
  .join(', ')})`;

/** `3 x M8 8.8`, `M10 8.8`, `4 x 3/8 in grade 5`; null where it is not written, or its number or size cannot be read. */
export function boltsOf(page: Page, fact: string): Bolts | null {
  const diameter = sizeOf(page, fact);
  const counted = page.bound(fact, 'count') !== null;
  const count = counted ? page.count(fact, 'count') : 1;
  const grade = boltGrade(page, fact);
  return count === null || diameter === null ? null : { count, diameter, grade };
}

/** `M8`: the thread's nominal diameter in mm (ISO 261); or the diameter as a length. */
function sizeOf(page: Page, fact: string): Length | null {
  const bound = page.bound(fact, 'bolt');
  if (bound === null) return null;
  if (bound.word === null) return page.length(fact, 'bolt');
  const size = /^M(\d+)$/.exec(bound.word)?.[1];
  return size === undefined ? null : (Number(size) as Length);
}

function boltGrade(page: Page, fact: string): Grade | null {
  const bound = page.bound(fact, 'grade');
  if (bound === null) return null;
  const value = page.plain(fact, 'grade');
  if (value === null) return null;
  return gradeOf(value) ?? page.tellAt(bound, 'number.range', { value, wanted: GRADES });
}

/** `80 x 60 x 3`; null where one of the three cannot be had. */
export function plateOf(page: Page, fact: string): Plate | null {
  const long = page.length(fact, 'long');
  const wide = page.length(fact, 'wide');
  const thick = page.length(fact, 'thick');
  return long === null || wide === null || thick === null ? null : { long, wide, thick };
}

const isHeld = (word: string | null): word is Held => word === 'welded' || word === 'bolted' || word === 'bonded';

/** `160 x 120 x 3 welded`; null where one of the three measures cannot be had. */
export function counterPlateOf(page: Page, fact: string): CounterPlate | null {
  const plate = plateOf(page, fact);
  const held = page.word(fact, 'held');
  return plate === null ? null : { ...plate, held: isHeld(held) ? held : null };
}
