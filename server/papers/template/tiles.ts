/** A wrap that is larger than the sheet, on several that are laid over each other by crosses. */
import type { Item, Point } from '../../drawing/scene';
import { group, line, point, text } from '../../drawing/scene';
import type { Drawn } from './draw';

/** Two tiles share so much, mm. */
export const OVERLAP = 12;
/** Crosses stand so far from the ends of a shared edge: clear of what is written at the wrap's upper and lower edge. */
const FROM_EDGE = 8;
const FROM_TOP = 41.5;
const FROM_FOOT = 14;

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
    text(point(x + 2.4, y - 1.4), name, 2.6, { halo: true, bold: true }),
  ]);

/** From where to where along one side. */
type Stretch = readonly [number, number];

/** So far from the line TOP the seam of two sheets stays where it can: nothing that is read first is cut through. */
const FROM_ZERO = 20;

/** Stretches of at most `room` along one side, each as long as its neighbours; of two, the seam stays clear of `avoid`. */
export function stretchesOf(length: number, room: number, avoid: number | null = null): readonly Stretch[] {
  if (length <= room) return [[0, length]];
  const count = Math.min(99, Math.ceil((length - OVERLAP) / (room - OVERLAP)));
  const size = (length + (count - 1) * OVERLAP) / count;
  if (count === 2 && avoid !== null) {
    const seam = Math.min(avoid + FROM_ZERO, room - OVERLAP / 2);
    return [
      [0, seam + OVERLAP / 2],
      [seam - OVERLAP / 2, length],
    ];
  }
  return Array.from({ length: count }, (_, i): Stretch => {
    const start = i * (size - OVERLAP);
    return [start, start + size];
  });
}

/** One sheet of a wrap. */
export interface Tile {
  readonly row: number;
  readonly column: number;
  /** The part of the wrap that it shows, from its upper left corner. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** The wrap with the crosses that lie on this sheet and the lines to trim by, in the wrap's own place. */
  readonly items: readonly Item[];
}

export interface Tiling {
  readonly rows: number;
  readonly columns: number;
  readonly tiles: readonly Tile[];
}

/** Places of crosses along one shared edge. `across`: it runs from left to right. */
function crossesOn(middle: number, stretches: readonly Stretch[], across: boolean): readonly Point[] {
  const at = (along: number): Point => (across ? point(along, middle) : point(middle, along));
  return stretches.flatMap(([from, to]) => [at(from), at(to)]);
}

/** What each sheet has for itself along one side, with room for a cross: clear of the ends, and of what it shares. */
const ownStretches = (stretches: readonly Stretch[], first: number, last: number): readonly Stretch[] =>
  stretches.map(([from, to], i) => [
    from + (i === 0 ? first : OVERLAP + FROM_EDGE),
    to - (i === stretches.length - 1 ? last : OVERLAP + FROM_EDGE),
  ]);

/** Cuts a wrap into sheets of at most `room`. Two crosses stand on each shared edge of each sheet, numbered through. */
export function tilingOf(drawn: Drawn, room: { readonly x: number; readonly y: number }): Tiling {
  const xs = stretchesOf(drawn.width, room.x, drawn.width / 2);
  const ys = stretchesOf(drawn.height, room.y);
  const seams = (stretches: readonly Stretch[]): readonly number[] =>
    stretches.slice(1).map(([from]) => from + OVERLAP / 2);
  const crosses = [
    ...seams(xs).flatMap((x) => crossesOn(x, ownStretches(ys, FROM_TOP, FROM_FOOT), false)),
    ...seams(ys).flatMap((y) => crossesOn(y, ownStretches(xs, FROM_EDGE, FROM_EDGE), true)),
  ].map((at, i) => ({ at, item: register(at, `+${String(i + 1)}`) }));
  const trims = [
    ...seams(xs).map((x) => line('centre', [point(x, 0), point(x, drawn.height)])),
    ...seams(ys).map((y) => line('centre', [point(0, y), point(drawn.width, y)])),
  ];
  return {
    rows: ys.length,
    columns: xs.length,
    tiles: ys.flatMap(([top, bottom], row) =>
      xs.map(([left, right], column) => ({
        row,
        column,
        x: left,
        y: top,
        width: right - left,
        height: bottom - top,
        items: [
          ...drawn.items,
          group('trim', trims),
          ...crosses
            .filter(({ at }) => at.x > left && at.x < right && at.y > top && at.y < bottom)
            .map(({ item }) => item),
        ],
      })),
    ),
  };
}
