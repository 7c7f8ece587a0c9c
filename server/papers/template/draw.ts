/** A template's lines and words on its own sheet: x from its left seam, y from its upper edge, at full size. */
import type { LengthUnit } from '../../../grammar/units';
import { degrees } from '../../../grammar/units';
import { sayNumber } from '../../../grammar/print';
import type { Item, Point, Style } from '../../drawing/scene';
import { group, line, point, text } from '../../drawing/scene';
import { simplified } from '../../drawing/simplify';
import { onTape } from '../on-tape';
import { endLabel, endName } from '../packet/numbers';
import type { PartNumber } from '../packet/numbers';
import { helveticaWidth } from '../pdf-text';
import type { Wrap, WrapPoint } from './wrap';
import { clockAt } from './wrap';

/** Paper beyond the deepest place of the cut, for the words, and before the long point, mm. */
const TAIL = 46;
const WASTE = 14;
/** The straight line that is laid to a mark on the tube stands so far behind the deepest place. */
const BEHIND = 8;
const HATCH = 3;
/** A curve on the paper is drawn so near to itself, mm: a tenth of the thinnest line. */
const NEAR = 0.01;

export interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

/** A hole saw's centre so far before the long point has its place in words alone. */
const FAR = 45;

/** Set-back of the sheet's lower edge: room for the outer edge and for the hole saws' centres. */
const lowOf = ({ minCut, outer, saws }: Wrap): number =>
  Math.min(
    minCut - WASTE,
    ...outer.map(({ s }) => s - 6),
    ...saws.flatMap(({ through }) => through.flatMap(({ s }) => (s > minCut - FAR ? [s - 7] : []))),
  );

/** Set-back of the line that is laid to a measured mark. */
export const markLine = ({ maxCut }: Wrap): number => maxCut + BEHIND;

/** Where a place of the wrap lies on the drawing. */
export const placeOn =
  (wrap: Wrap) =>
  ({ x, s }: WrapPoint): Point =>
    point(x + wrap.width / 2, wrap.maxCut + TAIL - s);

/** Layers of a drawing for machines carry these names. */
const layer = (name: string, items: readonly Item[]): Item => group(name, items, { layer: name });

/** Smaller where it would not fit. */
const fitted = (at: Point, words: string, size: number, room: number, bold = false): Item => {
  const width = helveticaWidth(words, size, bold);
  return text(at, words, width > room ? (size * room) / width : size, { anchor: 'middle', bold, halo: true });
};

/** An arrow that points up, with as many thick bars under it as the end's number. */
function arrowUp(x: number, y: number, which: 'first' | 'last'): readonly Item[] {
  const bars = which === 'first' ? [0] : [-1.6, 1.6];
  return [
    line('strap', [point(x, y + 8), point(x, y + 3)]),
    line('scale-filled', [point(x, y), point(x - 2.4, y + 4), point(x + 2.4, y + 4)], true),
    ...bars.map((by) =>
      line(
        'scale-filled',
        [
          point(x + by - 0.6, y + 9),
          point(x + by + 0.6, y + 9),
          point(x + by + 0.6, y + 14),
          point(x + by - 0.6, y + 14),
        ],
        true,
      ),
    ),
  ];
}

function clockItems(wrap: Wrap, at: (p: WrapPoint) => Point, top: number): Item {
  const items: Item[] = [];
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
      const inwards = i === 18 ? (x < 0 ? 'start' : 'end') : 'middle';
      const beside = i === 0 ? 2.6 : 0;
      items.push(
        text(point(upper.x + beside, upper.y + 5.6), `${String(i * 10)}°`, 2.4, { anchor: inwards, halo: true }),
      );
    }
  }
  return layer('clock', items);
}

function wasteItems(wrap: Wrap, at: (p: WrapPoint) => Point): Item {
  const low = lowOf(wrap);
  const items: Item[] = [];
  for (let x = -wrap.width / 2 + HATCH; x < wrap.width / 2; x += HATCH) {
    const i = Math.round((x / wrap.width + 0.5) * (wrap.cut.length - 1));
    const on = wrap.cut[i];
    if (on !== undefined) items.push(line('leader', [at({ x: on.x, s: low }), at(on)]));
  }
  for (const x of [-wrap.width / 4, wrap.width / 4]) {
    const p = at({ x, s: low + 2 });
    items.push(fitted(p, 'WASTE: err on this side', 3.2, wrap.width * 0.45, true));
  }
  return layer('waste', items);
}

/** Words of one hole saw, with its place on the clock. */
export function sawWords(saw: Wrap['saws'][number], wrap: Wrap, units: LengthUnit): string {
  const deg = (angle: number): string => `${sayNumber(degrees(angle), 1)}°`;
  const offset =
    saw.offsetClock === null
      ? 'through the middle of the tube'
      : `${onTape(saw.offset, units)} off the middle, toward clock ${deg(saw.offsetClock)}`;
  const near = saw.bent ? '; the host is bent here: a hole saw comes near, the drawn line decides' : '';
  const lean =
    saw.angle > Math.PI / 2 - 1e-6
      ? `square across, axis in line with clock ${deg(saw.clock)}`
      : `axis leans away from the joint toward clock ${deg(saw.clock)}`;
  const places = saw.through.map((place) => {
    const by = wrap.minCut - place.s;
    return `clock ${deg(clockAt(wrap, place.x))}, ${onTape(Math.abs(by), units)} ${by >= 0 ? 'before' : 'behind'} the long point`;
  });
  const through = places.length === 0 ? '' : ` Its axis goes through the outside at ${places.join('; ')}.`;
  return `Hole saw for ${saw.host}: ${onTape(saw.diameter, units)}, ${deg(saw.angle)} between its axis and this tube (${deg(Math.PI / 2 - saw.angle)} off square), ${lean}, ${offset}${near}.${through}`;
}

function sawItems(wrap: Wrap, at: (p: WrapPoint) => Point, top: number): Item {
  const low = lowOf(wrap);
  return layer(
    'hole-saw',
    wrap.saws.flatMap(({ through, host }) =>
      through
        .filter(({ s }) => s > wrap.minCut - FAR && s < top)
        .flatMap((place): readonly Item[] => {
          const p = at(place);
          const [left, right] = [Math.max(0, p.x - 6), Math.min(wrap.width, p.x + 6)];
          const last = p.x > wrap.width - 30;
          return [
            line('centre', [at({ x: place.x, s: low }), at({ x: place.x, s: Math.min(top, place.s + 14) })]),
            line('centre', [point(left, p.y), point(right, p.y)]),
            { kind: 'circle', style: 'dimension', centre: p, radius: 1.2 },
            text(point(p.x + (last ? -1.6 : 1.6), p.y - 1.6), `hole saw ${host}`, 2.2, {
              halo: true,
              anchor: last ? 'end' : 'start',
            }),
          ];
        }),
    ),
  );
}

/** Everything that is cut out and wrapped. */
export function drawWrap(wrap: Wrap, number: PartNumber, other: string, hosts: string): Drawn {
  const at = placeOn(wrap);
  const { end, width } = wrap;
  const [left, right] = [-width / 2, width / 2];
  const [top, low] = [wrap.maxCut + TAIL, lowOf(wrap)];
  const across = (style: Style, s: number): Item => line(style, [at({ x: left, s }), at({ x: right, s })]);
  const zero = end.clockZero?.name ?? 'TOP';
  const room = width * 0.44;
  const labels = [-width / 4, width / 4].flatMap((x): readonly Item[] => {
    const { x: px, y } = at({ x, s: top });
    return [
      fitted(point(px, y + 12), number.label, 4.6, room, true),
      fitted(point(px, y + 17), endLabel(end), 4, room, true),
      fitted(point(px, y + 21), `cut to ${hosts}`, 3.2, room),
      ...arrowUp(px - room / 2 + 4, y + 22, end.which),
      text(point(px - room / 2 + 8.5, y + 27), 'to', 2.6, { halo: true }),
      fitted(point(px + 4, y + 31), other, 2.8, room - 12),
    ];
  });
  const inside = end.bendInsideClock;
  const insideX = inside === null ? 0 : wrap.xOf(inside);
  const bendHere = wrap.bend !== null && wrap.bend < top && wrap.bend > wrap.minCut ? [across('panel', wrap.bend)] : [];
  const items: readonly Item[] = [
    wasteItems(wrap, at),
    clockItems(wrap, at, top),
    layer('top-line', [
      line('strap', [at({ x: 0, s: top }), at({ x: 0, s: low })]),
      text(point(width / 2 + 1, at({ x: 0, s: top }).y + 9), zero, 3.4, { bold: true, halo: true }),
      text(point(width / 2 + 1, at({ x: 0, s: low }).y - 1), zero, 3.4, { bold: true, halo: true }),
    ]),
    layer(
      'inside-of-bend',
      inside === null
        ? []
        : [
            line('helmet', [
              at({ x: insideX, s: top }),
              at({ x: insideX, s: wrap.end.curve?.cut(inside) ?? wrap.maxCut }),
            ]),
            text(point(at({ x: insideX, s: 0 }).x, at({ x: 0, s: markLine(wrap) }).y - 1.4), 'inside of bend', 2.4, {
              anchor: insideX > width / 2 - 10 ? 'end' : insideX < 10 - width / 2 ? 'start' : 'middle',
              halo: true,
            }),
          ],
    ),
    layer('mark-line', [across('plate', markLine(wrap)), across('datum', wrap.minCut), ...bendHere]),
    layer('outer-edge', [line('helmet', simplified(wrap.outer.map(at), NEAR))]),
    layer('cut', [line('outline', simplified(wrap.cut.map(at), NEAR))]),
    sawItems(wrap, at, top),
    layer('seam', [
      line(
        'joint',
        [at({ x: left, s: top }), at({ x: right, s: top }), at({ x: right, s: low }), at({ x: left, s: low })],
        true,
      ),
    ]),
    layer('words', labels),
  ];
  return { width, height: top - low, items };
}

/** What the other end is called on this one. */
export const otherEnd = (end: Wrap['end'], node: string | null): string =>
  `${endName({ which: end.which === 'first' ? 'last' : 'first' })}${node === null ? '' : ` ${node}`}`;
