/** A template's lines and words on its own sheet: x from its left seam, y from its upper edge, at full size. */
import type { Anchor, Item, Point, Style } from '../../drawing/scene';
import { group, line, point, text, textBox } from '../../drawing/scene';
import { simplified } from '../../drawing/simplify';
import { endName } from '../packet/numbers';
import { helveticaWidth } from '../pdf-text';
import { onSheet, sawItems, sawPlaces } from './draw-saws';
import type { Names } from './draw-words';
import { boxed, fitted, halfWords, WORDS_TALL } from './draw-words';
import type { Wrap, WrapPoint } from './wrap';

/** From the upper edge down: the clock, TOP in its box, the words, the names of lines. */
const CLOCK_TALL = 6.4;
const ZERO_TALL = 5.4;
/** The straight line that is laid to a mark on the tube stands so far behind the deepest place. */
const BEHIND = 8;
/** Paper beyond the deepest place of the cut. */
const TAIL = CLOCK_TALL + ZERO_TALL + WORDS_TALL + 3.5 + BEHIND;
/** Paper before the long point, and the strip at its edge for TOP and for what the hatch means. */
const WASTE = 9;
const STRIP = 6;
const HATCH = 3;
/** A curve on the paper is drawn so near to itself, mm: a tenth of the thinnest line. */
const NEAR = 0.01;
const SMALL = 2.2;

export interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

/** Set-back of the strip's upper edge: room above it for the outer edge and for the hole saws' centres. */
function stripOf(wrap: Wrap): number {
  let low = wrap.minCut - WASTE;
  for (const { s } of wrap.outer) low = Math.min(low, s - 2);
  for (const { s } of onSheet(wrap, wrap.maxCut)) low = Math.min(low, s - 4);
  return low;
}

/** Set-back of the line that is laid to a measured mark. */
export const markLine = ({ maxCut }: Wrap): number => maxCut + BEHIND;

/** Where a place of the wrap lies on the drawing. */
export const placeOn =
  (wrap: Wrap) =>
  ({ x, s }: WrapPoint): Point =>
    point(x + wrap.width / 2, wrap.maxCut + TAIL - s);

/** Layers of a drawing for machines carry these names. */
const layer = (name: string, items: readonly Item[]): Item => group(name, items, { layer: name });

/** Degrees between figures of the clock: thin tubes have room for half of them, or fewer. */
const figuresEach = (width: number): number => [30, 60, 90].find((each) => (width * each) / 360 > 8.6) ?? 180;

function clockItems(wrap: Wrap, at: (p: WrapPoint) => Point, top: number): Item {
  const items: Item[] = [];
  const each = figuresEach(wrap.width);
  for (let i = 0; i < 36; i++) {
    const clock = (i * Math.PI) / 18;
    const whole = i % 3 === 0;
    // 180 degrees is the seam: both edges have it.
    const xs = i === 18 ? [-wrap.width / 2, wrap.width / 2] : [wrap.xOf(clock)];
    for (const x of xs) {
      const upper = at({ x, s: top });
      items.push(line('dimension', [upper, point(upper.x, upper.y + (whole ? 3 : 1.8))]));
      if (!whole) continue;
      const cut = wrap.end.curve?.cut(clock) ?? wrap.maxCut;
      items.push(line('frame', [at({ x, s: markLine(wrap) }), at({ x, s: cut })]));
      // TOP or FRONT stands at nought.
      if (i === 0 || (i * 10) % each !== 0) continue;
      const anchor = i === 18 ? (x < 0 ? 'start' : 'end') : 'middle';
      const inside = i === 18 ? (x < 0 ? 0.6 : -0.6) : 0;
      items.push(text(point(upper.x + inside, upper.y + 5.6), `${String(i * 10)}°`, 2.4, { anchor, halo: true }));
    }
  }
  return layer('clock', items);
}

/** Hatched down to the strip, which says what that means. */
function wasteItems(wrap: Wrap, at: (p: WrapPoint) => Point, strip: number, zero: string): Item {
  const items: Item[] = [];
  for (let x = -wrap.width / 2 + HATCH; x < wrap.width / 2; x += HATCH) {
    const i = Math.round((x / wrap.width + 0.5) * (wrap.cut.length - 1));
    const on = wrap.cut[i];
    if (on !== undefined) items.push(line('leader', [at({ x: on.x, s: strip }), at(on)]));
  }
  const room = wrap.width / 2 - 4 - 1.6 * zero.length;
  const said = 'WASTE: err on this side';
  // In letters too small to read the longer words warn of nothing.
  const short = helveticaWidth(said, 1.6, true) > room;
  for (const side of [-1, 1]) {
    const { x, y } = at({ x: side * (wrap.width / 2 - room / 2 - 1), s: strip - STRIP / 2 });
    items.push(fitted(point(x, y + 1.2), short ? 'WASTE' : said, 3.4, room, { bold: true }));
  }
  return layer('waste', items);
}

/** The line TOP or FRONT from edge to edge, its name in a box at both. */
function zeroItems(at: (p: WrapPoint) => Point, top: number, low: number, zero: string): Item {
  const [upper, lower] = [at({ x: 0, s: top }), at({ x: 0, s: low })];
  return layer('top-line', [
    line('strap', [upper, lower]),
    ...boxed(point(upper.x, upper.y + CLOCK_TALL + ZERO_TALL / 2 - 0.6), zero, 3.8),
    ...boxed(point(lower.x, lower.y - STRIP / 2), zero, 3.4),
  ]);
}

function insideItems(wrap: Wrap, at: (p: WrapPoint) => Point, top: number): Item {
  const inside = wrap.end.bendInsideClock;
  if (inside === null) return layer('inside-of-bend', []);
  const x = wrap.xOf(inside);
  const said = 'inside of bend';
  const p = at({ x, s: markLine(wrap) });
  // The words stay on their half of the paper, clear of the line TOP; on thin tubes they get smaller for that.
  const half = wrap.width / 2;
  const wide = helveticaWidth(said, 2.4, false);
  const [from, to] = x < 0 ? [0.8, half - 0.8] : [half + 0.8, wrap.width - 0.8];
  const room = to - from;
  const start = Math.min(Math.max(p.x - wide / 2, from), Math.max(from, to - wide));
  return layer('inside-of-bend', [
    line('helmet', [at({ x, s: top }), at({ x, s: wrap.end.curve?.cut(inside) ?? wrap.maxCut })]),
    fitted(point(start, p.y - 1.2), said, 2.4, room, { anchor: 'start' }),
  ]);
}

/** Where words fit beside a line across, clear of the hole saws' own: at a seam, or beside the line TOP. */
function besideAcross(
  wrap: Wrap,
  at: (p: WrapPoint) => Point,
  y: number,
): { readonly x: number; readonly anchor: Anchor } {
  const spots: readonly { readonly x: number; readonly anchor: Anchor }[] = [
    { x: 0.8, anchor: 'start' },
    { x: wrap.width - 0.8, anchor: 'end' },
    { x: wrap.width / 2 + 1.4, anchor: 'start' },
    { x: wrap.width / 2 - 1.4, anchor: 'end' },
  ];
  const taken = sawPlaces(wrap, Infinity).map(({ place }) => at(place));
  const isFree = ({ x }: { readonly x: number }): boolean =>
    taken.every((p) => Math.abs(p.x - x) > 20 || Math.abs(p.y - y) > 5);
  return spots.find(isFree) ?? { x: 0.8, anchor: 'start' };
}

/** Straight lines across, each with its name. */
function acrossItems(wrap: Wrap, at: (p: WrapPoint) => Point): Item {
  const across = (style: Style, s: number, said: string): readonly Item[] => {
    const { y } = at({ x: 0, s });
    const { x, anchor } = besideAcross(wrap, at, y);
    return [
      line(style, [point(0, y), point(wrap.width, y)]),
      text(point(x, y + 2.4), said, SMALL, { halo: true, anchor }),
    ];
  };
  return layer('mark-line', [
    ...across('plate', markLine(wrap), 'mark line'),
    ...across('datum', wrap.minCut, 'long point'),
  ]);
}

/** True where the nearest bend begins on the paper itself: there it no longer lies flat on the tube. */
export const bendOnPaper = ({ bend, minCut, maxCut }: Wrap): boolean =>
  bend !== null && bend < maxCut + TAIL && bend > minCut;

/** Words keep so far from the ends of a line that stops for them, mm. */
const BREATH = 0.6;

/** From edge to edge, but not through words: those that a saw is set by stay readable. */
function acrossBeside(words: readonly Item[], y: number, width: number): readonly Item[] {
  const boxes = words
    .flatMap((item) => (item.kind === 'text' ? [textBox(item)] : []))
    .filter(({ top, bottom }) => top < y && y < bottom)
    .sort((a, b) => a.left - b.left);
  const pieces: Item[] = [];
  let from = 0;
  for (const { left, right } of [...boxes, { left: width + BREATH, right: width }]) {
    if (left - BREATH > from) pieces.push(line('panel', [point(from, y), point(left - BREATH, y)]));
    from = Math.max(from, right + BREATH);
  }
  return pieces;
}

/** Where the nearest bend begins. Its name stands clear of the clock and of the words, with a line to it from there. */
function bendItems(wrap: Wrap, at: (p: WrapPoint) => Point, words: readonly Item[]): Item {
  const { bend, width } = wrap;
  if (bend === null || !bendOnPaper(wrap)) return layer('mark-line', []);
  const { y } = at({ x: 0, s: bend });
  const zone = { from: CLOCK_TALL, to: CLOCK_TALL + ZERO_TALL + WORDS_TALL };
  const named = (base: number): Item =>
    text(point(width - 0.8, base), 'bend begins', SMALL, { halo: true, anchor: 'end' });
  const across = acrossBeside(words, y, width);
  if (y > zone.to) return layer('mark-line', [...across, named(y - 0.9)]);
  const leader = line('dimension', [point(width - 2.4, y), point(width - 2.4, zone.from + 2)]);
  return layer('mark-line', [...across, leader, named(zone.from + 3.2)]);
}

/** Everything that is cut out and wrapped. */
export function drawWrap(wrap: Wrap, names: Names): Drawn {
  const at = placeOn(wrap);
  const { end, width } = wrap;
  const [left, right] = [-width / 2, width / 2];
  const strip = stripOf(wrap);
  const [top, low] = [wrap.maxCut + TAIL, strip - STRIP];
  const zero = end.clockZero?.name ?? 'TOP';
  const below = CLOCK_TALL + ZERO_TALL;
  const words = [...halfWords(wrap, names, 0, width / 2, below), ...halfWords(wrap, names, width / 2, width, below)];
  const items: readonly Item[] = [
    wasteItems(wrap, at, strip, zero),
    // Lines that figures and words stand on come first: these keep their ground of paper.
    insideItems(wrap, at, top),
    bendItems(wrap, at, words),
    clockItems(wrap, at, top),
    acrossItems(wrap, at),
    layer('outer-edge', [line('helmet', simplified(wrap.outer.map(at), NEAR))]),
    layer('cut', [line('outline', simplified(wrap.cut.map(at), NEAR))]),
    layer('hole-saw', sawItems(wrap, at, strip, top, names.numberOf)),
    zeroItems(at, top, low, zero),
    layer('seam', [
      line(
        'joint',
        [at({ x: left, s: top }), at({ x: right, s: top }), at({ x: right, s: low }), at({ x: left, s: low })],
        true,
      ),
    ]),
    layer('words', words),
  ];
  return { width, height: top - low, items };
}

/** What the other end is called on this one. */
export const otherEnd = (end: Wrap['end'], node: string | null): string =>
  `${endName({ which: end.which === 'first' ? 'last' : 'first' })}${node === null ? '' : ` ${node}`}`;
