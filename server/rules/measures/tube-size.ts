/** `tube.size`: diameter and wall against a book's table, by the car's mass in the book's own basis and by the steel. */
import type { Measure } from '../../../grammar/finding';
import type { Section } from '../../cage/cage';
import { figure } from '../../geometry/tell';
import type { Car, Member } from '../car';
import { roofBand } from '../hoop';
import { each } from '../each';
import { reading } from '../readings';
import type { Decision, Limit, Reading, Rule } from '../rule';
import type { SizeRow, SizeTable } from '../sizes';
import { endsBelow, pairWords, rowAccepts, rowsFor, shortOf } from '../sizes';
import { steelOf } from '../steel';

const MASS = "the car's mass is not written: vehicle { mass 980 kg without driver }";
const BASIS = (table: SizeTable): string =>
  `the mass is written on another basis than the book's (${table.basisWords}), and the row hangs on it: vehicle { driver 85 kg } says the difference`;
const STEEL = "the material's kind is not written, and the size hangs on it: kind drawn-over-mandrel, kind chromoly";

const UNSEEN =
  "the book's row for this steel and mass was cut off in the text that was seen: look it up in the current book";

/** The masses that may be meant, kg, on the table's basis: with the driver at least that without, and the other way. */
function massRange(table: SizeTable, car: Car): { from: number; to: number | null; missing: string } {
  if (table.basis === null) return { from: 0, to: null, missing: MASS };
  const mass = car.cage.vehicle?.mass ?? null;
  const withDriver = car.cage.vehicle?.withDriver ?? null;
  if (mass === null) return { from: 0, to: null, missing: MASS };
  const same = withDriver !== null && withDriver === (table.basis === 'with');
  if (same) return { from: mass, to: mass, missing: '' };
  const driver = car.cage.vehicle?.driver ?? null;
  if (withDriver !== null && driver !== null) {
    const other = table.basis === 'with' ? mass + driver : Math.max(0, mass - driver);
    return { from: other, to: other, missing: '' };
  }
  const missing = BASIS(table);
  // A mass without a basis may be either; it is never more than that with the driver, nor less than that without.
  return table.basis === 'with' ? { from: mass, to: null, missing } : { from: 0, to: mass, missing };
}

/** The rows of a table that may count for a tube of this car: one, or several where the mass or the steel is not told. */
export function rowsOf(table: SizeTable, { material }: Section, car: Car): readonly SizeRow[] {
  const { from, to } = massRange(table, car);
  return rowsFor(table, steelOf(material), from, to);
}

const short = (table: SizeTable, row: SizeRow, size: { od: number; wall: number }): Decision => {
  const { figure: what, wanted } = shortOf(table, row, size);
  const has = what === 'wall' ? size.wall : size.od;
  const measured: Measure = figure(has, 'mm');
  return {
    kind: 'broken',
    measured,
    from: wanted,
    to: null,
    low: true,
    mend: {
      says: what === 'wall' ? 'the wall is {short} too thin' : 'the diameter is {short} too small',
      ask: `, {book} wants ${pairWords(row)}`,
      params: { short: figure(wanted - has, 'mm') },
    },
  };
};

function decide(limit: Limit, item: Reading, car: Car): Decision {
  const table = limit.sizes;
  const section = car.member(item.subject)?.tube.section ?? null;
  if (table === undefined || section === null) return { kind: 'met' };
  const { missing, to } = massRange(table, car);
  const steel = steelOf(section.material);
  if (steel !== null && endsBelow(table, steel, to))
    return { kind: 'unknown', fact: missing === '' ? UNSEEN : missing };
  const rows = rowsOf(table, section, car);
  const refusing = rows.filter((row) => !rowAccepts(table, row, section));
  const first = refusing[0];
  if (first === undefined) return { kind: 'met' };
  if (refusing.length === rows.length) return short(table, first, section);
  return { kind: 'unknown', fact: missing !== '' && table.basis !== null ? missing : STEEL };
}

/** A tube across below the roof is no member of the basic structure: books that size required members only leave it out. */
export const LOW_TRANSVERSE = 'transverse below the roof';

function groupOf(car: Car, { tube, ends }: Member): string {
  if (tube.role !== 'transverse') return tube.role;
  const hoop = car.mainHoops()[0];
  if (hoop === undefined) return tube.role;
  const band = roofBand(hoop.line, hoop.figures.top);
  return ends.every(({ at }) => at[2] >= band) ? tube.role : LOW_TRANSVERSE;
}

export const tubeSize: Rule = {
  code: 'tube.size',
  unit: 'mm',
  slack: 0,
  groups: [LOW_TRANSVERSE],
  read: each(
    (car) => car.members(),
    (member, car) => {
      const { tube, name } = member;
      if (tube.section === null || (tube.existing && tube.role === 'brace')) return [];
      const { od, wall } = tube.section;
      const params = { tube: name, size: '{od#} x {wall}', od: figure(od, 'mm'), wall: figure(wall, 'mm') };
      return [reading(name, wall, 'mm', params, { fact: 'section', group: groupOf(car, member) })];
    },
  ),
  mend: () => ({ says: 'use a larger tube', params: {} }),
  decide,
  explanation: {
    what: 'A tube is smaller, or its wall thinner, than a book asks for a member of its kind.',
    why: 'The tube buckles or tears before the cage has taken the load that it is meant for.',
    measured:
      "Outside diameter and wall of the section as they are written, as a pair: each of the book's pairs counts with both of its figures. Pairs that a metric book names in inches are accepted by name. The row goes by the car's mass on the book's own basis. Books that size required members leave out tubes across that lie below the roof (below the top 15 % of the main hoop).",
    mend: 'Choose one of the pairs, or a larger tube with no thinner a wall.',
    stage: 'hoop',
    bad: 'rules fia-253\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\nsection thin { od 38; wall 2 }\ntube prop as transverse { section thin; path a, b; first open }',
    good: 'rules fia-253\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\ntube prop as transverse { section t38; path a, b; first open }',
  },
};
