/** Templates on sheets: what is said beside a wrap, its ordinates, a scale bar, and tiles where it is larger than the sheet. */
import type { LengthUnit } from '../../../grammar/units';
import type { Item, Scene } from '../../drawing/scene';
import { group, line, point, text } from '../../drawing/scene';
import type { Part } from '../../geometry/shape';
import { fineOnTape, noLess, noMore, onTape } from '../on-tape';
import { sayTube } from '../quantity';
import { CAUTIONS, footer } from '../packet/marks';
import { endLabel, endName } from '../packet/numbers';
import type { PartNumber } from '../packet/numbers';
import type { PacketInput } from '../packet/paper';
import { helveticaWidth } from '../pdf-text';
import type { Drawn } from './draw';
import { bendOnPaper, markLine } from './draw';
import { clockWords, sawWords } from './draw-saws';
import { fitted } from './draw-words';
import { ordinates, tableHeight } from './ordinates';
import { moved, OVERLAP, tilingOf } from './tiles';
import type { Wrap } from './wrap';

export interface Sheet {
  /** `a4`. */
  readonly path: string;
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

/** ISO 216 and ANSI/ASME Y14.1 A. */
export const SHEETS: readonly Sheet[] = [
  { path: 'a4', name: 'A4', width: 210, height: 297 },
  { path: 'letter', name: 'US Letter', width: 215.9, height: 279.4 },
];

const MARGIN = 10;
/** A browser without the fonts asked for takes one so much wider: lines of an SVG are broken earlier. */
const WIDE = 0.8;
const SIZE = 2.9;
const STEP = 3.7;
/** Scale bar with its words, and the foot. */
const BAR = 17;
const FOOT = 9;

export interface Template {
  readonly part: Part;
  readonly wrap: Wrap;
  readonly drawn: Drawn;
  readonly number: PartNumber;
  readonly hosts: string;
  readonly other: string;
}

/** A figure stays with its fraction and its unit. */
const BREAK = / (?!(?:in|mm)\b|\d+\/\d)/;

/** Broken where a line is full. */
function broken(words: string, room: number, size: number): readonly string[] {
  const lines: string[] = [];
  const blank = helveticaWidth(' ', size, false);
  let now = '';
  let width = 0;
  for (const word of words.split(BREAK)) {
    const more = helveticaWidth(word, size, false);
    if (now !== '' && width + blank + more > room) {
      lines.push(now);
      now = word;
      width = more;
    } else {
      width += now === '' ? more : blank + more;
      now = now === '' ? word : `${now} ${word}`;
    }
  }
  return now === '' ? lines : [...lines, now];
}

/** How TOP is found on a bent tube that lies on the bench. */
function insideWords({ end, od }: Wrap, zero: string, units: LengthUnit): readonly string[] {
  const inside = end.bendInsideClock;
  if (inside === null) return [];
  const round =
    inside < 1e-9 ? `on line ${zero}` : `${fineOnTape((inside * od) / 2, units, Math.round)} round from ${zero}`;
  return [
    `On the bench: the broken line "inside of bend" lies on the inside of the nearest bend, at clock ${clockWords(inside)}, ${round}. ${zero} of the other end is another line.`,
  ];
}

/** From where the template is laid out. */
function heldWords(wrap: Wrap, { cutLength }: Part, zero: string, units: LengthUnit): string {
  const { bend, minCut } = wrap;
  if (bend === null)
    return `No bend on this tube: draw line ${zero} along all of it before anything is cut. Both ends are laid out from that one line. Long point to long point: ${onTape(cutLength, units)}; sawn square to that, the piece ends at its long points.`;
  if (bend < minCut)
    return `The long point lies ${noMore(minCut - bend, units)} into the nearest bend: no straight is left to wrap this round. Move the bend away.`;
  const line = markLine(wrap);
  const mark =
    bend >= line
      ? `${noLess(bend - line, units)} from it`
      : `${onTape(line - bend, units)} past it, in the bend: lay it out by the long point`;
  const off = bendOnPaper(wrap) ? ' Cut the paper off where the bend begins: it does not lie on a bend.' : '';
  return `Long point ${noLess(bend - minCut, units)} from where the nearest bend begins; the straight mark line ${mark}.${off}`;
}

/** What is said of a template, in the order in which it is needed. */
export function sentences({ part, wrap, hosts, other }: Template, input: PacketInput): readonly string[] {
  const { units } = input;
  const { end, minCut, grows } = wrap;
  const zero = end.clockZero?.name ?? 'TOP';
  const where =
    zero === 'TOP'
      ? 'on the top of the tube as it stands in the car'
      : 'on the front of the tube as it stands in the car';
  const side = grows === 1 ? 'RIGHT' : 'LEFT';
  return [
    `Cut out the frame. Wrap it round ${endName(end)} of the tube, PRINTED SIDE OUT, arrow toward ${other}, line ${zero} ${where}; the seams meet edge to edge (paper of 0.1 mm).`,
    `The clock grows to the ${side} on this sheet: looking along the tube from END 1 toward END 2 it grows clockwise, at both ends.`,
    ...insideWords(wrap, zero, units),
    heldWords(wrap, part, zero, units),
    `The straight mark line lies ${noMore(markLine(wrap) - minCut, units)} behind the long point. The grey line across is the long point.`,
    `Thick curve: cut square through the wall to ${hosts}. Broken curve: the outer edge, if you bevel. Keep the line: cut and grind on the hatched side only, never past it.`,
    ...wrap.saws.map((saw) => sawWords(saw, wrap, units)),
  ];
}

/** Large and unlike for twins and ends: a filled wedge that points to the tube's side, and one bar or two. */
function hands({ part, number, wrap, hosts }: Template, { title, units }: PacketInput, width: number): readonly Item[] {
  const bars = wrap.end.which === 'first' ? 1 : 2;
  const right = width - MARGIN;
  const wedge = (tip: number, base: number): Item =>
    line('scale-filled', [point(tip, 14), point(base, 9), point(base, 19)], true);
  const from = MARGIN + (number.hand === 'LEFT' ? 12 : 0);
  const start = { anchor: 'start' } as const;
  return [
    fitted(
      point(MARGIN, 7),
      `${title}: cope template, tube ${sayTube(part.tube.section, units)}`,
      2.6,
      width - 2 * MARGIN - 24,
      start,
    ),
    fitted(point(from, 16), number.label, 6.5, right - 26 - from, { ...start, bold: true }),
    ...(number.hand === 'LEFT' ? [wedge(MARGIN, MARGIN + 9)] : []),
    ...(number.hand === 'RIGHT' ? [wedge(right, right - 9)] : []),
    ...Array.from({ length: bars }, (_, i) => {
      const x = right - 14 - i * 5;
      return line('scale-filled', [point(x, 8), point(x - 3, 8), point(x - 3, 20), point(x, 20)], true);
    }),
    fitted(point(MARGIN, 23), `${endLabel(wrap.end)}, cut to ${hosts}`, 4.6, width - 2 * MARGIN, {
      ...start,
      bold: true,
    }),
  ];
}

/** 100 mm and 4 in, with the words to check it by. */
function scaleBar(y: number, name: string): Item {
  const items: Item[] = [];
  const ticks = (base: number, length: number, count: number, long: number, down: boolean): void => {
    items.push(line('scale', [point(MARGIN, base), point(MARGIN + length, base)]));
    for (let i = 0; i <= count; i++) {
      const x = MARGIN + (i * length) / count;
      const tall = i % long === 0 ? 3 : 1.6;
      items.push(line('scale', [point(x, base), point(x, base + (down ? tall : -tall))]));
    }
  };
  ticks(y + 4, 100, 20, 2, false);
  ticks(y + 6, 101.6, 16, 4, true);
  items.push(text(point(MARGIN + 104, y + 3.6), '100 mm', SIZE, { bold: true }));
  items.push(text(point(MARGIN + 104, y + 9), '4 in', SIZE, { bold: true }));
  items.push(
    text(point(MARGIN + 118, y + 3.6), 'Lay a steel ruler on both bars first.', SIZE, { bold: true }),
    text(point(MARGIN + 118, y + 7.3), `Off? Print on ${name} at 100 %, without fitting.`, SIZE),
    text(point(MARGIN + 118, y + 11), 'Never cut by a sheet that is off.', SIZE),
  );
  return group('scale-bar', items, { layer: 'scale-bar' });
}

const foot = (sheet: Sheet, input: PacketInput): readonly Item[] => [
  text(point(MARGIN, sheet.height - 8.6), `${footer(input)} · ${sheet.name}`, 2.3),
  ...CAUTIONS.map((said, i) => text(point(MARGIN, sheet.height - 5.6 + i * 2.8), said, 2.3, { bold: true })),
];

/** One tile after the other. */
function tiles(template: Template, sheet: Sheet, input: PacketInput): readonly Scene[] {
  const top = 34;
  const room = { x: sheet.width - 2 * MARGIN, y: sheet.height - top - BAR - FOOT - 4 };
  const { rows, columns, tiles: all } = tilingOf(template.drawn, room);
  const overlap = onTape(OVERLAP, input.units);
  return all.map(({ row, column, x, y, width, height, items }, i): Scene => {
    const which = `Sheet ${String(i + 1)} of ${String(all.length)}`;
    const where = `row ${String(row + 1)} of ${String(rows)} from the top, column ${String(column + 1)} of ${String(columns)} from the left`;
    const said =
      all.length === 1
        ? ['The wrap, on a sheet of its own.']
        : [
            `${which}: ${where}. Sheets overlap by ${overlap}.`,
            'Trim one of two along the line through the crosses, lay it on the crosses of the same number on the other, tape.',
          ];
    return {
      title: `${template.number.label}, ${endLabel(template.wrap.end)}: ${which}`,
      description: '',
      width: sheet.width,
      height: sheet.height,
      items: [
        ...hands(template, input, sheet.width),
        ...said.map((one, k) => text(point(MARGIN, 28 + k * STEP), one, SIZE, { bold: k === 0 })),
        {
          kind: 'clip',
          at: point(MARGIN, top),
          width,
          height,
          items: moved([group('wrap', items)], point(MARGIN - x, top - y)),
        },
        scaleBar(sheet.height - FOOT - BAR - 2, sheet.name),
        ...foot(sheet, input),
      ],
    };
  });
}

/** All pages of one template on one size of sheet. */
export function pagesOf(template: Template, sheet: Sheet, input: PacketInput): readonly Scene[] {
  const { drawn, wrap } = template;
  const room = sheet.width - 2 * MARGIN;
  const told = sentences(template, input).flatMap((one) => broken(one, room, SIZE));
  const bar = sheet.height - FOOT - BAR - 2;
  const page = (said: readonly string[], items: readonly Item[]): Scene => ({
    title: `Cope template ${template.number.label}, ${endLabel(wrap.end)}`,
    description: '',
    width: sheet.width,
    height: sheet.height,
    items: [
      ...hands(template, input, sheet.width),
      ...said.map((one, i) => text(point(MARGIN, 28.5 + i * STEP), one, SIZE)),
      ...items,
      scaleBar(bar, sheet.name),
      ...foot(sheet, input),
    ],
  });
  const under = (lines: number): number => 29 + lines * STEP;
  const wrapAt = (y: number): Item => group('wrap', moved(drawn.items, point((sheet.width - drawn.width) / 2, y)));
  const tableAt = (y: number): Item => ordinates(wrap, input.units, MARGIN, y, room);

  const y = under(told.length);
  if (drawn.width <= room && y + drawn.height + tableHeight(wrap) + 2 <= bar)
    return [page(told, [wrapAt(y), tableAt(y + drawn.height + 2)])];
  const next = under(told.length + 1);
  if (drawn.width <= room && next + drawn.height + 2 <= bar)
    return [page([...told, 'The ordinates follow, on a sheet of their own.'], [wrapAt(next)]), page([], [tableAt(26)])];
  const more = tiles(template, sheet, input);
  const where = more.length === 1 ? 'a sheet of its own' : `${String(more.length)} sheets`;
  return [page([...told, `The wrap follows, on ${where}.`], [tableAt(next + 2)]), ...more];
}

/** One sheet as large as it needs to be, for a screen or a plotter. */
export function wholeSheet(template: Template, input: PacketInput): Scene {
  const { drawn, wrap } = template;
  const width = Math.max(230, drawn.width + 2 * MARGIN);
  const said = sentences(template, input).flatMap((one) => broken(one, (width - 2 * MARGIN) * WIDE, SIZE));
  const y = 29 + said.length * STEP;
  const height = y + drawn.height + tableHeight(wrap) + BAR + FOOT + 8;
  const sheet: Sheet = { path: '', name: 'any sheet', width, height };
  return {
    title: `Cope template ${template.number.label}, ${endLabel(wrap.end)}`,
    description: said.join(' '),
    width,
    height,
    items: [
      ...hands(template, input, width),
      ...said.map((one, i) => text(point(MARGIN, 28.5 + i * STEP), one, SIZE)),
      group('wrap', moved(drawn.items, point((width - drawn.width) / 2, y))),
      ordinates(wrap, input.units, MARGIN, y + drawn.height + 2, width - 2 * MARGIN),
      scaleBar(height - FOOT - BAR - 2, sheet.name),
      ...foot(sheet, input),
    ],
  };
}

/** The wrap alone with a scale bar under it, its lower left corner at nought, for machines. */
export const bareSheet = ({ drawn }: Template, input: PacketInput, title: string): Scene => ({
  title,
  description: '',
  width: Math.max(drawn.width, 125),
  height: drawn.height + 26,
  items: [
    ...drawn.items,
    scaleBar(drawn.height + 4, 'any sheet'),
    text(point(0, drawn.height + 19), title, 2.6),
    text(point(0, drawn.height + 22), footer(input), 2.2),
    ...CAUTIONS.map((said, i) => text(point(0, drawn.height + 24 + i * 2), said, 1.6)),
  ],
});
