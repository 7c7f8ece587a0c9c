/** The cut list and the buying list, as pages, and both as tables for a spreadsheet. */
import type { LengthUnit } from '../../../grammar/units';
import { UNITS } from '../../../grammar/units';
import type { Row, Markup } from '../html';
import { element, figures, join, lines, paragraph, table, words } from '../html';
import { onTape } from '../on-tape';
import { CAUTIONS, PACKET_MARK } from '../packet/marks';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { paperPage } from '../packet/paper-page';
import { otherUnit, saySize } from '../quantity';
import { barOf } from './bars';
import type { Buying } from './buying';
import { billOf, buyingOf, costOf, costWords, kerfWords, money, proofOf } from './buying';
import type { SectionPieces } from './pieces';
import { endWords, piecesOf } from './pieces';

const INCH = UNITS['in']?.factor ?? 25.4;
const RED = 'color:#b00000;font-weight:bold';

/** `hoop, 45 mm x 2.5 mm (1.7717 in x 0.0984 in), cold-drawn-seamless`: as a dealer is asked for it. */
function sectionName({ section, od, wall, made }: SectionPieces, { units }: PacketInput): string {
  if (section === null) return 'Section not known';
  const size =
    od === null || wall === null ? [] : [saySize({ value: od, unit: 'mm' }, { value: wall, unit: 'mm' }, units)];
  return [section, ...size, ...(made === null ? [] : [made])].join(', ');
}

function cutRows({ pieces }: SectionPieces, input: PacketInput): readonly Row[] {
  const { units } = input;
  return pieces.map(({ number, part, stick, cut, stopped }): Row => {
    const label = words(number.label);
    if (stopped !== null)
      return {
        kind: 'serious',
        cells: [
          element('span', { style: RED }, label),
          element('span', { style: RED }, words(`Do not cut: ${stopped}`)),
          words('no length'),
          words(''),
          words(''),
        ],
      };
    const bends = part.bends.length;
    const tails = stick !== null && cut !== null && stick > cut + 0.05 ? ' with tails for the bender' : '';
    const bent = bends === 0 ? 'straight' : `${String(bends)} ${bends === 1 ? 'bend' : 'bends'}`;
    return {
      cells: [
        label,
        lines([element('b', {}, figures(onTape(stick, units))), words(`${bent}${tails}`)]),
        figures(onTape(cut, units)),
        lines(part.ends.map((end) => figures(endWords(end, input)))),
        words('☐'),
      ],
    };
  });
}

function cutList(input: PacketInput, sections: readonly SectionPieces[]): Paper {
  const tables = sections.map((of) =>
    table(
      `${sectionName(of, input)}: ${String(of.pieces.length)} ${of.pieces.length === 1 ? 'piece' : 'pieces'}`,
      [
        ['Part', 20],
        ['Saw the stick to', 21],
        ['Between the long points', 19],
        ['Ends', 35],
        ['', 5],
      ],
      cutRows(of, input),
    ),
  );
  const content = [
    paragraph(
      'The stick is what leaves the saw, cut square: from long point to long point, with what the bender has to hold. Fish-mouths, and ends on feet, are cut out of it after bending.',
    ),
    ...(tables.length === 0 ? [paragraph('Nothing is cut: the file has no tube that is made.')] : tables),
  ];
  return {
    path: 'cut-list.html',
    title: 'Cut list',
    kind: 'cut-list',
    parts: [],
    content: paperPage(input, { title: 'Cut list', what: 'cut list' }, content),
  };
}

/** What stands in a bar: the part's number. */
const labelsOf = ({ of }: Buying): ReadonlyMap<string, string> =>
  new Map(of.pieces.map(({ number }) => [number.label, number.digits]));

/** `Buy 2 x 6000 mm (236 7/32 in) at 84. Cost: 168.` */
function buyWords(buying: Buying, units: LengthUnit): string {
  const bill = billOf(buying).map(
    ({ length, count, price }) =>
      `${String(count)} x ${onTape(length, units)}${price === null ? '' : ` at ${String(price)}`}`,
  );
  const used = buying.layout.sticks.filter(({ bought }) => !bought).length;
  const rack = used === 0 ? '' : ` From the rack: ${String(used)} ${used === 1 ? 'offcut' : 'offcuts'}.`;
  return `${bill.length === 0 ? 'Buy nothing.' : `Buy ${bill.join(', ')}. Cost: ${costWords(buying)}.`}${rack}`;
}

/** All sections in one table, to read out on the telephone; with the cost of all, where it is known. */
function orderTable(all: readonly Buying[], input: PacketInput): readonly Markup[] {
  const { units } = input;
  const rows = all.flatMap((buying): readonly Row[] => {
    const bill = billOf(buying);
    if (bill.length === 0) return [];
    return [
      {
        cells: [
          figures(sectionName(buying.of, input)),
          lines(bill.map(({ length, count }) => figures(`${String(count)} x ${onTape(length, units)}`))),
          words(costWords(buying)),
          words('☐'),
        ],
      },
    ];
  });
  if (rows.length === 0) return [];
  const costs = all.map(costOf);
  const sum = costs.reduce<number | null>((total, one) => (total === null || one === null ? null : total + one), 0);
  const columns = [
    ['Section', 44],
    ['Sticks', 36],
    ['Cost', 15],
    ['', 5],
  ] as const;
  return [
    table('To buy', columns, rows),
    ...(sum === null || rows.length < 2 ? [] : [paragraph(`Together: ${money(sum)}.`, 'strong')]),
  ];
}

function sectionBuying(buying: Buying, input: PacketInput): Markup {
  const { layout, of, supply, chosen } = buying;
  const { units } = input;
  const say = (length: number): string => onTape(length, units);
  const longest = Math.max(0, ...layout.sticks.map(({ length }) => length));
  const labels = labelsOf(buying);
  const stopped = of.pieces.filter((piece) => piece.stopped !== null);
  const sticks = layout.sticks.map((stick, i): Row => {
    const what = `${stick.bought ? 'Stick' : 'Offcut'} ${String(i + 1)} of ${say(stick.length)}`;
    return {
      cells: [
        figures(what),
        lines([
          barOf(stick, supply.kerf, longest, labels, `${what}: ${stick.pieces.map(({ name }) => name).join('; ')}`),
          ...stick.pieces.map(({ name, length }) => figures(`${name}: ${say(length)}`)),
          figures(`left over: ${say(stick.rest)}`),
        ]),
      ],
    };
  });
  const nothing = layout.sticks.length === 0;
  const red = (said: string): Markup => element('p', { style: RED }, words(said));
  return join(
    [
      element('h2', {}, words(sectionName(of, input))),
      ...(nothing ? [] : chosen).map((said) => element('p', { class: 'strong' }, figures(said))),
      ...stopped.map(({ number, stopped: why }) => red(`${number.label} is not in this list: ${why ?? ''}.`)),
      ...layout.tooLong.map(({ name, length }) =>
        red(
          `${name} is ${say(length)}: longer than every stick that can be had. Tell a longer one, or split the tube.`,
        ),
      ),
      ...(nothing
        ? []
        : [
            element('p', { class: 'strong' }, figures(buyWords(buying, units))),
            element('p', {}, figures(`${proofOf(buying)}. Each cut takes ${say(supply.kerf)}.`)),
          ]),
      ...(sticks.length === 0
        ? []
        : [
            table(
              'Sticks, offcuts first',
              [
                ['Stick', 18],
                ['What comes off it, from the left', 82],
              ],
              sticks,
              'long',
            ),
          ]),
    ],
    '\n',
  );
}

function buyingList(input: PacketInput, buying: readonly Buying[]): Paper {
  const kerf =
    buying[0] === undefined || (input.cage.saw?.kerf ?? null) !== null
      ? []
      : [kerfWords((one) => onTape(one, input.units))];
  const content = [
    ...kerf.map((said) => element('p', { class: 'strong' }, figures(said))),
    ...orderTable(buying, input),
    ...buying.map((one) => sectionBuying(one, input)),
  ];
  return {
    path: 'buying-list.html',
    title: 'Buying list, with the sticks laid out',
    kind: 'cut-list',
    parts: [],
    content: paperPage(
      input,
      { title: 'Buying list', what: 'buying list' },
      content.length === 0 ? [paragraph('Nothing is bought.')] : content,
    ),
  };
}

/** RFC 4180; a cell that a spreadsheet would take for a sum is text. */
const cell = (value: string): string => {
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

const csv = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');

/** Both systems as plain figures, the file's first: tenths of a millimetre, thousandths of an inch. */
function lengthCells(lengths: readonly (number | null)[], { units }: PacketInput): readonly string[] {
  const metric = lengths.map((one) => (one === null ? '' : (Math.round(one * 10) / 10).toFixed(1)));
  const inches = lengths.map((one) => (one === null ? '' : (one / INCH).toFixed(3)));
  return otherUnit(units) === 'mm' ? [...inches, ...metric] : [...metric, ...inches];
}

function cutTable(input: PacketInput, sections: readonly SectionPieces[]): Paper {
  const rows = sections.flatMap(({ section, pieces }) =>
    pieces.map(({ number, stick, cut, stopped, part }) => [
      number.digits,
      number.label,
      section ?? '',
      ...lengthCells([stick, cut], input),
      ...part.ends.map((end) => (stopped === null ? endWords(end, input) : '')),
      stopped ?? '',
    ]),
  );
  const [own, other] = otherUnit(input.units) === 'mm' ? ['in', 'mm'] : ['mm', 'in'];
  const lengths = [own, other].flatMap((unit) => [`stick ${unit}`, `between long points ${unit}`]);
  const head = ['number', 'part', 'section', ...lengths, 'end 1', 'end 2', 'do not cut'];
  const foot = [[PACKET_MARK, `file ${input.hash}`, ...CAUTIONS]];
  return {
    path: 'cut-list.csv',
    title: 'Cut list for a spreadsheet',
    kind: 'cut-list',
    parts: [],
    // Spreadsheets take text for UTF-8 where it begins with a byte order mark.
    content: `\ufeff${csv([...foot, head, ...rows])}`,
  };
}

/** Cut list, buying list, and the cut list for a spreadsheet. */
export const cutPapers: Maker = (input) => {
  const sections = piecesOf(input);
  const buying = sections.map((of) => buyingOf(of, input.cage, (length) => onTape(length, input.units)));
  return [cutList(input, sections), buyingList(input, buying), cutTable(input, sections)];
};
