/** The bend sheet of one tube, as a piece of a page that can be handed to another shop. */
import type { LengthUnit } from '../../../grammar/units';
import { svgElement } from '../../drawing/svg';
import type { Scene } from '../../drawing/scene';
import type { Part } from '../../geometry/shape';
import type { Markup } from '../html';
import { element, join, lines, paragraph, raw, table, terms, words } from '../html';
import { onTape } from '../on-tape';
import type { PacketInput } from '../packet/paper';
import { saySize } from '../quantity';
import type { Check, Spot } from './checks';
import { checksOf } from './checks';
import type { BendFigures, BendRow } from './figures';
import { bendFigures } from './figures';
import type { Lettered } from './picture';
import { bendPictures } from './picture';
import type { Sketch } from './sketch';
import { firstSketch, isNone, rotationSketch, rotationWords, sheetOfSketches } from './sketch';
import { angleWords, checkWords, orderWords, trimWords, twinWords } from './words';

/** Shorter than this nobody cuts off, mm. */
const SHORT = 0.05;

const figure = (scene: Scene): Markup => element('figure', {}, raw(svgElement(scene)));

/** One unit above the other: columns are narrow. */
const cell = (length: number | null, units: LengthUnit): Markup => {
  const [own = '', other] = onTape(length, units).split(' (');
  return lines(
    [own, ...(other === undefined ? [] : [`(${other}`])].map((one) =>
      element('span', { style: 'white-space: nowrap' }, words(one)),
    ),
  );
};

function head({ part, stick, tails, od, rows }: BendFigures, units: LengthUnit): Markup {
  const { section, die } = part.tube;
  const wall = section?.wall ?? null;
  const made = section?.material.kind ?? null;
  const size =
    od === null || wall === null ? 'not known' : saySize({ value: od, unit: 'mm' }, { value: wall, unit: 'mm' }, units);
  const overbend = die?.springback ?? null;
  const [first, last] = tails ?? [null, null];
  return terms([
    ['Tube', words(`${size}${made === null ? '' : `, ${made}`}`)],
    ['Die', words(die === null ? 'not known' : `${die.name}, centreline radius ${onTape(die.radius, units)}`)],
    [
      'Over-bend',
      words(
        overbend === null
          ? 'not known: bend a piece of the same tube to 90°, measure what it springs back, and write it as `springback` of the die'
          : `${angleWords(overbend)} for 90°, in proportion for other angles; by the die, not by this batch of tube: try it on a piece`,
      ),
    ],
    ['Stick', element('span', { class: 'strong' }, words(`${onTape(stick, units)}`))],
    [
      'Tails',
      words(
        tails === null
          ? 'not known'
          : tails.every((tail) => tail < SHORT)
            ? 'none: the die holds the legs as they are'
            : `in that length: ${onTape(first, units)} at END 1, ${onTape(last, units)} at END 2, cut off after bending`,
      ),
    ],
    ['Bends', words(`${String(rows.length)}, in the order END 1 to END 2`)],
    ['END 1', words(part.ends[0].node ?? 'at the split')],
    ['END 2', words(part.ends[1].node ?? 'at the split')],
  ]);
}

function marks(rows: readonly BendRow[], units: LengthUnit): Markup {
  return table(
    'Marks on the straight stick, all from END 1 of the stick',
    [
      ['Bend', 7],
      ['Begins', 15],
      ['Middle', 15],
      ['Ends', 15],
      ['Straight since the last bend', 15],
      ['Length of the bend', 14],
      ['Angle', 9],
      ['Set to', 10],
    ],
    rows.map((row) => ({
      cells: [
        words(String(row.number)),
        element('b', {}, cell(row.start, units)),
        cell(row.middle, units),
        cell(row.end, units),
        row.number === 1 ? words('(from the end)') : cell(row.straight, units),
        cell(row.arcLength, units),
        words(angleWords(row.angle)),
        element('b', {}, words(angleWords(row.set))),
      ],
    })),
  );
}

function fromMiddle({ middle, stick }: BendFigures, units: LengthUnit): Markup | null {
  if (middle === null || stick === null) return null;
  const away = (value: number): string =>
    Math.abs(value) < SHORT ? 'at the middle' : `${onTape(Math.abs(value), units)} toward END ${value < 0 ? '1' : '2'}`;
  const apart = Math.abs(middle.fromFirst - middle.fromLast) / 2;
  const where =
    apart < SHORT
      ? 'That is the middle of the stick as well.'
      : `The middle of the stick is not the middle of the bends: it lies ${onTape(apart, units)} nearer to END ${middle.fromFirst > middle.fromLast ? '1' : '2'}.`;
  return join([
    table(
      'The same marks from the middle',
      [
        ['Bend', 10],
        ['Mark nearer to the middle', 45],
        ['Mark farther from it', 45],
      ],
      middle.marks.map(({ begin, end }, i) => {
        const [near, far] = Math.abs(begin) <= Math.abs(end) ? [begin, end] : [end, begin];
        return { cells: [words(String(i + 1)), element('b', {}, words(away(near))), words(away(far))] };
      }),
    ),
    paragraph(
      `Both halves are bent alike. The middle is ${onTape(middle.fromFirst, units)} from END 1 and ${onTape(middle.fromLast, units)} from END 2 of the stick. ${where}`,
    ),
  ]);
}

function rotations({ rows, part, od }: BendFigures, units: LengthUnit): Markup {
  const [end] = part.ends;
  const sketches = rows.flatMap((row): readonly Sketch[] => {
    if (row.number > 1) return row.rotation === null ? [] : [rotationSketch(row.number, row.rotation)];
    const { bendInsideClock: clock, clockZero: zero } = end;
    return clock === null || zero === null ? [] : [firstSketch(clock, zero.name)];
  });
  const round = (angle: number | null): Markup =>
    words(angle === null || od === null ? 'not known' : onTape((Math.abs(angle) * od) / 2, units));
  return join([
    table(
      'Rotations, seen from END 1 toward END 2: + is clockwise',
      [
        ['Bend', 10],
        ['From the bend before', 28],
        ['Round the outside', 24],
        ['From the line of bend 1', 38],
      ],
      rows.map((row) => ({
        cells: [
          words(String(row.number)),
          words(
            row.number === 1
              ? 'the first: on the line'
              : row.rotation === null
                ? 'not known'
                : rotationWords(row.rotation),
          ),
          row.number === 1 || isNone(row.rotation) ? words('') : round(row.rotation),
          words(
            row.fromFirst === null
              ? 'not known'
              : `${rotationWords(row.fromFirst)}${od === null || isNone(row.fromFirst) ? '' : `; ${onTape((Math.abs(row.fromFirst) * od) / 2, units)} round the outside`}`,
          ),
        ],
      })),
    ),
    sketches.length === 0 ? raw('') : figure(sheetOfSketches(sketches)),
  ]);
}

interface CheckRow {
  readonly letter: string;
  readonly check: Check;
  /** Of the tube cut square at its long points; null: it cannot be reached there. */
  readonly trimmed: Check | null;
}

const keyOf = (check: Check): string => {
  if (check.kind === 'between') return JSON.stringify([check.from, check.to]);
  return check.kind === 'rise' ? `rise ${String(check.bend)} ${check.which}` : check.kind;
};

/** The same dimension, read from the other end of the tube. */
function answerOf(check: Check, bends: number): string {
  const turned = (spot: Spot): Spot =>
    spot.kind === 'bend'
      ? { ...spot, bend: bends + 1 - spot.bend }
      : { ...spot, which: spot.which === 'first' ? 'last' : 'first' };
  if (check.kind === 'between') return keyOf({ ...check, from: turned(check.to), to: turned(check.from) });
  if (check.kind !== 'rise') return keyOf(check);
  return keyOf({ ...check, bend: bends + 1 - check.bend, which: check.which === 'first' ? 'last' : 'first' });
}

/** `A = D, B = C`: what has to agree on a tube whose halves are alike. */
function equals(rows: readonly CheckRow[], bends: number): readonly string[] {
  return rows.flatMap(({ letter, check }, i) => {
    const other = rows.findIndex((row) => keyOf(row.check) === answerOf(check, bends));
    const row = rows[other];
    return row === undefined || other <= i || Math.abs(row.check.value - check.value) >= SHORT
      ? []
      : [`${letter} = ${row.letter}`];
  });
}

/** A, B, … Z, then AA. */
const letterOf = (i: number): string =>
  (i < 26 ? '' : letterOf(Math.floor(i / 26) - 1)) + String.fromCharCode(65 + (i % 26));

export function checkRows({ asBent, trimmed, od }: BendFigures): readonly CheckRow[] {
  if (asBent === null || od === null) return [];
  const cut = new Map((trimmed === null ? [] : checksOf(trimmed, od / 2)).map((check) => [keyOf(check), check]));
  return checksOf(asBent, od / 2).map((check, i) => ({
    letter: letterOf(i),
    check,
    trimmed: cut.get(keyOf(check)) ?? null,
  }));
}

function checks(rows: readonly CheckRow[], bends: BendFigures, units: LengthUnit): Markup {
  if (rows.length === 0) return paragraph('No check dimension is known: the ends of the tube are not known.');
  const two = bends.tails?.some((tail) => tail >= SHORT) ?? false;
  const columns = [
    ['', 5],
    ['Between', two ? 32 : 38],
    ['How', two ? 22 : 28],
    [two ? 'As bent, tails on' : 'As bent', two ? 15 : 17],
    ...(two ? [['Cut square at the long points', 15] as const] : []),
    ['Measured', two ? 11 : 12],
  ] as const;
  const alike = bends.middle === null ? [] : equals(rows, bends.rows.length);
  const list = table(
    'Check dimensions, outside to outside or inside to inside as each says',
    columns,
    rows.map(({ letter, check, trimmed }) => {
      const { what, how } = checkWords(check);
      return {
        cells: [
          element('b', {}, words(letter)),
          words(what),
          words(how),
          element('b', {}, cell(check.value, units)),
          ...(two ? [trimmed === null ? words('not to be reached') : cell(trimmed.value, units)] : []),
          words(''),
        ],
      };
    }),
  );
  if (alike.length === 0) return list;
  return join([list, paragraph(`Both halves are alike, so these have to agree: ${alike.join(', ')}.`)]);
}

const trims = ({ trims: both }: BendFigures, units: LengthUnit): Markup =>
  table(
    'Where to cut after bending',
    [
      ['End', 20],
      ['Cut square at', 34],
      ['Comes off', 20],
      ['Then', 26],
    ],
    both.map((trim) => ({ cells: trimWords(trim, units).map(words) })),
  );

const CAUTIONS = [
  'Lengths of bends are those of the centreline: 0.017453 x radius x degrees. Tube stretches a little differently in every machine: bend a trial piece with two marks, and correct the marks by what it shows.',
  'All marks are for the centreline radius of the die above: with another radius every mark is another, so write that die in the file and print anew.',
  'Marks are where a bend begins and ends on its centreline radius. If the machine has its own mark on the die, set that off first.',
];

/** One sheet: everything that the bender needs of one part. Never throws. */
export function bendSheet(part: Part, { shape, units, numbers }: PacketInput): Markup {
  const figures = bendFigures(part, shape);
  const rows = checkRows(figures);
  // Letters stand on the picture of the tube with its ends cut: where the tails are, there is nothing drawn.
  const lettered = rows.flatMap(({ letter, check, trimmed }): readonly Lettered[] => {
    const drawn = trimmed ?? check;
    return drawn.kind === 'between' ? [{ letter, ends: drawn.ends }] : [];
  });
  const twin = twinWords(figures, numbers);
  const middle = fromMiddle(figures, units);
  const parts: readonly (Markup | null)[] = [
    twin === null ? null : paragraph(twin),
    head(figures, units),
    join(bendPictures(part, shape, lettered).map(figure), '\n'),
    element('h2', {}, words('Marks')),
    marks(figures.rows, units),
    middle,
    element('h2', {}, words('Rotations')),
    rotations(figures, units),
    element('h2', {}, words('Order')),
    element(
      'ol',
      {},
      '\n',
      join(
        orderWords(figures, units).map((step) => element('li', {}, words(step))),
        '\n',
      ),
      '\n',
    ),
    element('h2', {}, words('Check')),
    checks(rows, figures, units),
    element('h2', {}, words('Cut to length')),
    trims(figures, units),
    element('div', { class: 'small' }, lines(CAUTIONS.map(words))),
  ];
  return join(
    parts.filter((one): one is Markup => one !== null),
    '\n',
  );
}
