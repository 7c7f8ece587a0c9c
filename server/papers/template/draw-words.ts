/** Words and signs on a wrap: which tube, which end, which way, where TOP is. All find their room on thin tubes. */
import type { Item, Point } from '../../drawing/scene';
import { line, point, text } from '../../drawing/scene';
import { endLabel } from '../packet/numbers';
import { helveticaWidth } from '../pdf-text';
import type { Wrap } from './wrap';

/** What is written on a wrap. */
export interface Names {
  /** `05`. */
  readonly digits: string;
  readonly hand: 'LEFT' | 'RIGHT' | '';
  /** `door-x, piece a`. */
  readonly name: string;
  /** The hosts with their numbers. */
  readonly hosts: string;
  /** `END 2 bar-end.left`. */
  readonly other: string;
  /** `long point 53.2 mm (2 3/32 in) from bend 1`; null without a bend. */
  readonly held: string | null;
  /** A host's number, or its name where it has none. */
  readonly numberOf: (host: string) => string;
}

/** Where the fonts asked for are missing, letters come wider. */
const SLACK = 0.92;
/** Letters smaller than this are read by nobody in a shop, mm. */
const SMALLEST = 2;

/** Smaller where it would not fit. */
export function fitted(
  at: Point,
  words: string,
  size: number,
  room: number,
  { bold = false, anchor = 'middle' as 'start' | 'middle' | 'end' } = {},
): Item {
  const width = helveticaWidth(words, size, bold);
  const most = room * SLACK;
  return text(at, words, width > most ? (size * most) / width : size, { anchor, bold, halo: true });
}

/** A name as one line, or two where one would be too small to read: broken at a hyphen, a point or a blank. */
export function inLines(words: string, size: number, room: number, bold = true): readonly string[] {
  const scale = (room * SLACK) / helveticaWidth(words, size, bold);
  if (size * scale >= SMALLEST || words.length < 4) return [words];
  const breaks = [...words.matchAll(/[-. ]/g)].map(({ index }) => index + 1);
  const middle = words.length / 2;
  const at = breaks.reduce((best, one) => (Math.abs(one - middle) < Math.abs(best - middle) ? one : best), 0);
  const cut = at > 0 && at < words.length ? at : Math.ceil(middle);
  return [words.slice(0, cut).trimEnd(), words.slice(cut)];
}

/** A word in a box of paper that sits on a line; `at`: the middle of the box. */
export function boxed({ x, y }: Point, words: string, size: number): readonly Item[] {
  const half = helveticaWidth(words, size, true) / 2 / SLACK + 0.9;
  const tall = size * 0.62;
  const corners = [
    point(x - half, y - tall),
    point(x + half, y - tall),
    point(x + half, y + tall),
    point(x - half, y + tall),
  ];
  return [
    line('balloon', corners, true),
    text(point(x, y + size * 0.36), words, size, { anchor: 'middle', bold: true }),
  ];
}

/** An arrow that points up from `foot` to `tip`, with as many thick bars under it as the end's number. */
function arrowUp(x: number, tip: number, foot: number, which: 'first' | 'last'): readonly Item[] {
  const bars = which === 'first' ? [0] : [-1.6, 1.6];
  const bar = 6;
  return [
    line('strap', [point(x, foot - bar - 1.2), point(x, tip + 4)]),
    line('scale-filled', [point(x, tip), point(x - 2.4, tip + 5), point(x + 2.4, tip + 5)], true),
    ...bars.map((by) =>
      line(
        'scale-filled',
        [
          point(x + by - 0.7, foot - bar),
          point(x + by + 0.7, foot - bar),
          point(x + by + 0.7, foot),
          point(x + by - 0.7, foot),
        ],
        true,
      ),
    ),
  ];
}

/** Room that the words of a wrap take below its clock, mm. */
export const WORDS_TALL = 29;

/** The words of one half of the wrap, `left` to `right`, from `top` down. */
export function halfWords(wrap: Wrap, names: Names, left: number, right: number, top: number): readonly Item[] {
  const column = 8;
  const room = right - left - column - 2;
  const x = left + column + room / 2;
  type Row = readonly [words: string, size: number, bold: boolean];
  const broken = (words: string, size: number, bold: boolean): readonly Row[] => {
    const lines = inLines(words, size, room, bold);
    return lines.map((one): Row => [one, lines.length === 1 ? size : size * 0.78, bold]);
  };
  const rows: readonly Row[] = [
    [names.hand === '' ? names.digits : `${names.digits} ${names.hand}`, 6.4, true],
    ...broken(names.name, 3.8, true),
    ...broken(endLabel(wrap.end), 4, true),
    ...broken(`cut to ${names.hosts}`, 3, false),
    ...broken(`arrow: to ${names.other}`, 3, false),
    ...(names.held === null ? [] : broken(names.held, 2.6, false)),
  ];
  const lead = (WORDS_TALL - rows.reduce((sum, [, size]) => sum + size, 0)) / rows.length;
  let y = top;
  return [
    ...arrowUp(left + column / 2 + 0.5, top, top + WORDS_TALL - 1.5, wrap.end.which),
    ...rows.map(([words, size, bold]) => {
      y += size;
      const item = fitted(point(x, y - size * 0.14), words, size, room, { bold });
      y += lead;
      return item;
    }),
  ];
}
