/** The cut list and the buying list, as pages, and both as tables for a spreadsheet. */
import type { Row, Markup } from '../html';
import { element, join, lines, paragraph, raw, table, words } from '../html';
import { onTape } from '../on-tape';
import { page } from '../page';
import { CAUTIONS, footer, header, markupMark, PACKET_MARK } from '../packet/marks';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { saySize } from '../quantity';
import { barOf } from './bars';
import type { Buying } from './buying';
import { billOf, buyingOf, costWords, proofOf } from './buying';
import type { SectionPieces } from './pieces';
import { endWords, piecesOf } from './pieces';

const RED = 'color:#b00000;font-weight:bold';

const sectionName = ({ section, od, wall }: SectionPieces, { units }: PacketInput): string =>
  section === null
    ? 'Section not known'
    : od === null || wall === null
      ? section
      : `${section}, ${saySize({ value: od, unit: 'mm' }, { value: wall, unit: 'mm' }, units)}`;

const marked = (html: string): string => html.replace(/^(<!doctype html>)/i, `$1\n${markupMark}`);

function paperPage(input: PacketInput, title: string, content: readonly Markup[]): string {
  const body = join(
    [
      element('h1', {}, words(title)),
      paragraph(header(input, title), 'strong'),
      element('div', { class: 'caution', role: 'note' }, ...CAUTIONS.map((said) => paragraph(said))),
      ...content,
      paragraph(footer(input), 'small'),
      raw(''),
    ],
    '\n',
  );
  return marked(page(`${input.title}: ${title}`, body));
}

function cutRows({ pieces }: SectionPieces, { units }: PacketInput): readonly Row[] {
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
        ],
      };
    const bends = part.bends.length;
    const tails = stick !== null && cut !== null && stick > cut + 0.05 ? ' with tails for the bender' : '';
    const bent = bends === 0 ? 'straight' : `${String(bends)} ${bends === 1 ? 'bend' : 'bends'}`;
    return {
      cells: [
        label,
        lines([words(onTape(stick, units)), words(`${bent}${tails}`)]),
        words(onTape(cut, units)),
        lines(part.ends.map((end) => words(endWords(end)))),
      ],
    };
  });
}

function cutList(input: PacketInput, sections: readonly SectionPieces[]): Paper {
  const tables = sections.map((of) =>
    table(
      `${sectionName(of, input)}: ${String(of.pieces.length)} ${of.pieces.length === 1 ? 'piece' : 'pieces'}`,
      [
        ['Part', 22],
        ['Saw the stick to', 22],
        ['Between the long points', 20],
        ['Ends', 36],
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
    content: paperPage(input, 'Cut list', content),
  };
}

/** What stands in a bar: the part's number. */
const labelsOf = ({ of }: Buying): ReadonlyMap<string, string> =>
  new Map(of.pieces.map(({ number }) => [number.label, number.digits]));

function sectionBuying(buying: Buying, input: PacketInput): Markup {
  const { layout, of, supply, chosen } = buying;
  const { units } = input;
  const say = (length: number): string => onTape(length, units);
  const longest = Math.max(0, ...layout.sticks.map(({ length }) => length));
  const labels = labelsOf(buying);
  const bill = billOf(buying);
  const stopped = of.pieces.filter((piece) => piece.stopped !== null);
  const sticks = layout.sticks.map((stick, i): Row => {
    const what = `${stick.bought ? 'Stick' : 'Offcut'} ${String(i + 1)} of ${say(stick.length)}`;
    return {
      cells: [
        words(what),
        lines([
          barOf(stick, supply.kerf, longest, labels, `${what}: ${stick.pieces.map(({ name }) => name).join('; ')}`),
          ...stick.pieces.map(({ name, length }) => words(`${name}: ${say(length)}`)),
          words(`left over: ${say(stick.rest)}`),
        ]),
      ],
    };
  });
  const red = (said: string): Markup => element('p', { style: RED }, words(said));
  return join(
    [
      element('h2', {}, words(sectionName(of, input))),
      ...chosen.map((said) => paragraph(said, 'strong')),
      ...stopped.map(({ number, stopped: why }) => red(`${number.label} is not in this list: ${why ?? ''}.`)),
      ...layout.tooLong.map(({ name, length }) =>
        red(
          `${name} is ${say(length)}: longer than every stick that can be had. Tell a longer one, or split the tube.`,
        ),
      ),
      paragraph(
        bill.length === 0
          ? 'Buy nothing.'
          : `Buy ${bill.map(({ length, count, price }) => `${String(count)} x ${say(length)}${price === null ? '' : ` at ${String(price)}`}`).join(', ')}. Cost: ${costWords(buying)}.`,
        'strong',
      ),
      paragraph(`${proofOf(buying)}. Each cut takes ${say(supply.kerf)}.`),
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
            ),
          ]),
    ],
    '\n',
  );
}

function buyingList(input: PacketInput, buying: readonly Buying[]): Paper {
  const content = buying.map((one) => sectionBuying(one, input));
  return {
    path: 'buying-list.html',
    title: 'Buying list, with the sticks laid out',
    kind: 'cut-list',
    parts: [],
    content: paperPage(input, 'Buying list', content.length === 0 ? [paragraph('Nothing is bought.')] : content),
  };
}

/** RFC 4180; a cell that a spreadsheet would take for a sum is text. */
const cell = (value: string | number | null): string => {
  const plain = value === null ? '' : typeof value === 'number' ? String(Math.round(value * 10) / 10) : value;
  const safe = typeof value === 'string' && /^[=+\-@\t\r]/.test(plain) ? `'${plain}` : plain;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

const csv = (rows: readonly (readonly (string | number | null)[])[]): string =>
  rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');

function cutTable(input: PacketInput, sections: readonly SectionPieces[]): Paper {
  const rows = sections.flatMap(({ section, pieces }) =>
    pieces.map(({ number, stick, cut, stopped, part }) => [
      number.digits,
      number.label,
      section ?? '',
      stick,
      cut,
      ...part.ends.map((end) => (stopped === null ? endWords(end) : '')),
      stopped ?? '',
    ]),
  );
  const head = ['number', 'part', 'section', 'stick mm', 'between long points mm', 'end 1', 'end 2', 'do not cut'];
  const foot = [[PACKET_MARK, `file ${input.hash}`]];
  return {
    path: 'cut-list.csv',
    title: 'Cut list for a spreadsheet',
    kind: 'cut-list',
    parts: [],
    content: csv([...foot, head, ...rows]),
  };
}

/** Cut list, buying list, and the cut list for a spreadsheet. */
export const cutPapers: Maker = (input) => {
  const sections = piecesOf(input);
  const buying = sections.map((of) => buyingOf(of, input.cage, (length) => onTape(length, input.units)));
  return [cutList(input, sections), buyingList(input, buying), cutTable(input, sections)];
};
