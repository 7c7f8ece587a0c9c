/** Templates on sheets: what is said beside a wrap, its ordinates, a scale bar, and tiles where it is larger than the sheet. */
import { sayNumber } from '../../../grammar/print';
import { degrees } from '../../../grammar/units';
import type { Item, Point, Scene } from '../../drawing/scene';
import { group, line, point, text } from '../../drawing/scene';
import type { Part } from '../../geometry/shape';
import { onTape } from '../on-tape';
import { CAUTIONS, footer } from '../packet/marks';
import { endLabel, endName } from '../packet/numbers';
import type { PartNumber } from '../packet/numbers';
import type { PacketInput } from '../packet/paper';
import { helveticaWidth } from '../pdf-text';
import type { Drawn } from './draw';
import { markLine, sawWords } from './draw';
import type { Wrap } from './wrap';
import { stationsOf } from './wrap';

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
/** Two tiles share so much. */
export const OVERLAP = 12;
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

/** Broken where a line is full. */
function broken(words: string, room: number, size: number): readonly string[] {
  const lines: string[] = [];
  const blank = helveticaWidth(' ', size, false);
  let now = '';
  let width = 0;
  for (const word of words.split(' ')) {
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

/** What is said of a template, in the order in which it is needed. */
export function sentences({ wrap, hosts, other }: Template, input: PacketInput): readonly string[] {
  const { units } = input;
  const { end, minCut, bend, grows } = wrap;
  const zero = end.clockZero?.name ?? 'TOP';
  const where =
    zero === 'TOP'
      ? 'on the top of the tube as it stands in the car'
      : 'on the front of the tube as it stands in the car';
  const side = grows === 1 ? 'RIGHT' : 'LEFT';
  const tape = (length: number): string => onTape(length, units);
  const line = markLine(wrap);
  const held =
    bend === null
      ? 'No bend on this tube.'
      : `Long point ${tape(bend - minCut)} from where the nearest bend begins; the straight mark line ${bend >= line ? `${tape(bend - line)} from it` : `${tape(line - bend)} past it, in the bend: lay it out by the long point`}.`;
  return [
    `Cut out the frame. Wrap it round ${endName(end)} of the tube, PRINTED SIDE OUT, arrow toward ${other}, line ${zero} ${where}; the seams meet edge to edge (paper of 0.1 mm).`,
    `The clock grows to the ${side} on this sheet: looking along the tube from END 1 toward END 2 it grows clockwise, at both ends.`,
    held,
    `The straight mark line lies ${tape(line - minCut)} behind the long point. The grey line across is the long point.`,
    `Thick curve: cut square through the wall to ${hosts}. Broken curve: the outer edge, if you bevel. Keep the line: cut and grind on the hatched side only, never past it.`,
    ...wrap.saws.map((saw) => sawWords(saw, wrap, units)),
  ];
}

/** Large and unlike for twins and ends: a filled wedge that points to the tube's side, and one bar or two. */
function hands({ number, wrap, hosts }: Template, width: number): readonly Item[] {
  const bars = wrap.end.which === 'first' ? 1 : 2;
  const right = width - MARGIN;
  const wedge = (tip: number, base: number): Item =>
    line('scale-filled', [point(tip, 14), point(base, 9), point(base, 19)], true);
  return [
    text(point(MARGIN + (number.hand === 'LEFT' ? 12 : 0), 16), number.label, 6.5, { bold: true }),
    ...(number.hand === 'LEFT' ? [wedge(MARGIN, MARGIN + 9)] : []),
    ...(number.hand === 'RIGHT' ? [wedge(right, right - 9)] : []),
    ...Array.from({ length: bars }, (_, i) => {
      const x = right - 14 - i * 5;
      return line('scale-filled', [point(x, 8), point(x - 3, 8), point(x - 3, 20), point(x, 20)], true);
    }),
    text(point(MARGIN, 23), `${endLabel(wrap.end)}, cut to ${hosts}`, 4.6, { bold: true }),
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

const ROW = 3.9;

/** Rows of the ordinate table and their room. */
export const tableHeight = (wrap: Wrap): number => 12 + Math.ceil(stationsOf(wrap).length / 2) * ROW;

function ordinates({ wrap }: Template, input: PacketInput, y: number, width: number): Item {
  const stations = stationsOf(wrap);
  const half = Math.ceil(stations.length / 2);
  const column = (width - 2 * MARGIN) / 2;
  const zero = wrap.end.clockZero?.name ?? 'TOP';
  const items: Item[] = [
    text(
      point(MARGIN, y + 3),
      `Ordinates, for a tape: round the tube from ${zero} the way the clock grows, then along it from the long point`,
      SIZE,
      { bold: true },
    ),
  ];
  const cells = (x: number, at: number, said: readonly string[], bold: boolean): void => {
    [0, 11, 40, 68].forEach((by, i) => items.push(text(point(x + by, at), said[i] ?? '', 2.6, { bold })));
  };
  for (const i of [0, 1]) cells(MARGIN + i * column, y + 7.5, ['clock', 'round', 'cut line', 'outer edge'], true);
  stations.forEach(({ clock, round, cut, outer }, i) => {
    const said = [`${sayNumber(degrees(clock), 1)}°`, ...[round, cut, outer].map((one) => onTape(one, input.units))];
    cells(MARGIN + (i < half ? 0 : column), y + 11.5 + (i % half) * ROW, said, false);
  });
  return group('ordinates', items);
}

/** The wrap, moved to a place of the sheet. */
export function moved(items: readonly Item[], by: Point): readonly Item[] {
  const m = ({ x, y }: Point): Point => point(x + by.x, y + by.y);
  return items.map((item): Item => {
    switch (item.kind) {
      case 'line':
      case 'band':
        return { ...item, points: item.points.map(m) };
      case 'arc':
      case 'circle':
        return { ...item, centre: m(item.centre) };
      case 'text':
        return { ...item, at: m(item.at) };
      case 'group':
        return { ...item, items: moved(item.items, by) };
      case 'clip':
        return { ...item, at: m(item.at), items: moved(item.items, by) };
    }
  });
}

const register = ({ x, y }: Point, name: string): Item =>
  group('registration', [
    line('joint', [point(x - 4, y), point(x + 4, y)]),
    line('joint', [point(x, y - 4), point(x, y + 4)]),
    { kind: 'circle', style: 'joint', centre: point(x, y), radius: 2 },
    text(point(x + 2.4, y - 1.4), name, 2.6, { halo: true }),
  ]);

/** Starts of the tiles along one side. */
export const tileStarts = (length: number, room: number): readonly number[] => {
  if (length <= room) return [0];
  const step = room - OVERLAP;
  return Array.from({ length: Math.min(99, Math.ceil((length - OVERLAP) / step)) }, (_, i) => i * step);
};

/** One tile after the other, with crosses that lie over each other. */
function tiles(template: Template, sheet: Sheet, input: PacketInput): readonly Scene[] {
  const { drawn } = template;
  const top = 30;
  const room = { x: sheet.width - 2 * MARGIN, y: sheet.height - top - BAR - FOOT - 8 };
  const [xs, ys] = [tileStarts(drawn.width, room.x), tileStarts(drawn.height, room.y)];
  const middle = (starts: readonly number[], i: number): number => (starts[i] ?? 0) + OVERLAP / 2;
  const marks: Item[] = [];
  // Two crosses to each shared edge of each tile, the same place of the wrap on both sheets.
  const name = (): string => `+${String(marks.length + 1)}`;
  xs.forEach((_, i) => {
    if (i > 0)
      ys.forEach((y, j) => {
        const low = Math.min(drawn.height, y + room.y);
        const from = j === 0 ? y + 14 : y + OVERLAP + 8;
        for (const v of [from, low - (j === ys.length - 1 ? 8 : OVERLAP + 8)])
          marks.push(register(point(middle(xs, i), v), name()));
      });
  });
  ys.forEach((_, j) => {
    if (j > 0)
      xs.forEach((x, i) => {
        const right = Math.min(drawn.width, x + room.x);
        const from = i === 0 ? x + 8 : x + OVERLAP + 8;
        for (const h of [from, right - (i === xs.length - 1 ? 8 : OVERLAP + 8)])
          marks.push(register(point(h, middle(ys, j)), name()));
      });
  });
  const all = group('wrap', [...drawn.items, ...marks]);
  return ys.flatMap((y, row) =>
    xs.map((x, column): Scene => {
      const which = `Sheet ${String(row * xs.length + column + 1)} of ${String(xs.length * ys.length)}`;
      const many = xs.length * ys.length > 1;
      const size = { width: Math.min(room.x, drawn.width - x), height: Math.min(room.y, drawn.height - y) };
      return {
        title: `${template.number.label}, ${endLabel(template.wrap.end)}: ${which}`,
        description: '',
        width: sheet.width,
        height: sheet.height,
        items: [
          ...hands(template, sheet.width),
          ...(many
            ? [
                text(
                  point(MARGIN, 27.5),
                  `${which}, row ${String(row + 1)}, column ${String(column + 1)}: lay the crosses of the same number over each other, then tape.`,
                  SIZE,
                  { bold: true },
                ),
              ]
            : []),
          {
            kind: 'clip',
            at: point(MARGIN, top),
            ...size,
            items: moved([all], point(MARGIN - x, top - y)),
          },
          scaleBar(sheet.height - FOOT - BAR - 2, sheet.name),
          ...foot(sheet, input),
        ],
      };
    }),
  );
}

/** All pages of one template on one size of sheet. */
export function pagesOf(template: Template, sheet: Sheet, input: PacketInput): readonly Scene[] {
  const { drawn, wrap } = template;
  const room = sheet.width - 2 * MARGIN;
  const said = sentences(template, input).flatMap((one) => broken(one, room, SIZE));
  const y = 29 + said.length * STEP;
  const bar = sheet.height - FOOT - BAR - 2;
  const fits = drawn.width <= room && y + drawn.height + tableHeight(wrap) + 2 <= bar;
  const first: Scene = {
    title: `Cope template ${template.number.label}, ${endLabel(wrap.end)}`,
    description: '',
    width: sheet.width,
    height: sheet.height,
    items: [
      ...hands(template, sheet.width),
      ...said.map((one, i) => text(point(MARGIN, 28.5 + i * STEP), one, SIZE)),
      ...(fits ? [group('wrap', moved(drawn.items, point((sheet.width - drawn.width) / 2, y)))] : []),
      ordinates(template, input, fits ? y + drawn.height + 2 : y + 2, sheet.width),
      scaleBar(bar, sheet.name),
      ...foot(sheet, input),
    ],
  };
  return fits ? [first] : [first, ...tiles(template, sheet, input)];
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
      ...hands(template, width),
      ...said.map((one, i) => text(point(MARGIN, 28.5 + i * STEP), one, SIZE)),
      group('wrap', moved(drawn.items, point((width - drawn.width) / 2, y))),
      ordinates(template, input, y + drawn.height + 2, width),
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
