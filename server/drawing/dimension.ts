/** Angles and distances as they are drawn: arcs, lines with their ends, words beside them. Millimetres of paper. */
import type { Layout } from './labels';
import type { Mark } from './marks';
import type { Item, Point } from './scene';
import { group, line, point, text, textWidth } from './scene';

export const LETTERS = 2.3;
/** Between lines of a label, in heights of the letters. */
const LEADING = 1.2;
const LONGEST_RADIUS = 16;
const SHORTEST_RADIUS = 5;
/** Half the oblique stroke at the ends of a distance. */
const TICK = 0.9;

/** From model to paper. */
export type ToPaper = (at: readonly [number, number, number]) => Point;

/** A label broken into lines: no line much longer than this, mm. */
const LONGEST_LINE = 46;

export function labelLines(says: string, names: readonly string[]): readonly string[] {
  const lines: string[] = [says];
  for (const [i, name] of names.entries()) {
    const word = i < names.length - 1 ? `${name},` : name;
    const last = lines[lines.length - 1] ?? '';
    if (textWidth(`${last} ${word}`, LETTERS) <= LONGEST_LINE) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Words at an anchor, with a leader where they stand apart. None where the page is full. */
export function labelAt(
  layout: Layout,
  anchors: readonly Point[],
  lines: readonly string[],
  apart: number,
): readonly Item[] {
  const width = Math.max(...lines.map((one) => textWidth(one, LETTERS))) + 0.8;
  const height = LETTERS * LEADING * lines.length + 0.4;
  const spot = layout.place(anchors, width, height, apart);
  if (spot === null) return [];
  const { box, leader } = spot;
  return [
    ...(leader === null ? [] : [line('leader', leader)]),
    ...lines.map((one, i) =>
      text(point(box.left + 0.4, box.top + LETTERS * (0.95 + LEADING * i)), one, LETTERS, { halo: true }),
    ),
  ];
}

const unit = (from: Point, to: Point): Point => {
  const size = Math.hypot(to.x - from.x, to.y - from.y);
  return size > 0 ? point((to.x - from.x) / size, (to.y - from.y) / size) : point(0, 0);
};

const dataOf = (mark: Mark): Readonly<Record<string, string>> => ({
  what: mark.what,
  of: mark.of.join(' '),
  value: String(Math.round(mark.value * 1e6) / 1e6 + 0),
});

const later = (from: Point, way: Point, by: number): Point => point(from.x + way.x * by, from.y + way.y * by);

/** The angle's two arms and its arc, without words. Null where an arm is seen end on. */
function angleLines(
  mark: Extract<Mark, { kind: 'angle' }>,
  toPaper: ToPaper,
): { readonly items: readonly Item[]; readonly anchors: readonly Point[]; readonly points: readonly Point[] } | null {
  const { at, from, to } = mark;
  const centre = toPaper(at);
  const tip = (by: readonly [number, number, number]): Point => toPaper([at[0] + by[0], at[1] + by[1], at[2] + by[2]]);
  const [a, b] = [tip(from), tip(to)];
  const [ua, ub] = [unit(centre, a), unit(centre, b)];
  if ((ua.x === 0 && ua.y === 0) || (ub.x === 0 && ub.y === 0)) return null;
  const reach = Math.hypot(b.x - centre.x, b.y - centre.y);
  const radius = Math.max(SHORTEST_RADIUS, Math.min(LONGEST_RADIUS, reach * 0.75));
  const start = Math.atan2(ua.y, ua.x);
  let turn = Math.atan2(ub.y, ub.x) - start;
  if (turn > Math.PI) turn -= 2 * Math.PI;
  if (turn < -Math.PI) turn += 2 * Math.PI;
  const arms = [
    [centre, later(centre, ua, radius + 3)],
    [centre, later(centre, ub, Math.max(radius + 1, Math.min(reach, radius + 3)))],
  ] as const;
  return {
    items: [
      ...arms.map((arm) => line('dimension', arm)),
      {
        kind: 'arc',
        style: 'dimension',
        centre,
        radius,
        from: start + Math.min(0, turn),
        to: start + Math.max(0, turn),
      },
    ],
    anchors: [0.5, 0.25, 0.75].map((share) => {
      const angle = start + turn * share;
      return point(centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle));
    }),
    points: arms.flat(),
  };
}

/** A distance's line, its ends and what reaches out to it. */
export function distanceLines(
  from: Point,
  to: Point,
  offset: number,
): { readonly items: readonly Item[]; readonly anchors: readonly Point[]; readonly points: readonly Point[] } {
  const way = unit(from, to);
  const across = point(-way.y, way.x);
  const [a, b] = [later(from, across, offset), later(to, across, offset)];
  const tick = (at: Point): Item => {
    const d = point((way.x + across.x) * TICK, (way.y + across.y) * TICK);
    return line('dimension', [point(at.x - d.x, at.y - d.y), point(at.x + d.x, at.y + d.y)]);
  };
  const sign = Math.sign(offset);
  const reaching =
    Math.abs(offset) < 1.5
      ? []
      : [
          [from, a],
          [to, b],
        ].map(([base, end]) => line('leader', [later(base ?? a, across, sign), later(end ?? b, across, sign * 1.2)]));
  return {
    items: [...reaching, line('dimension', [a, b]), tick(a), tick(b)],
    anchors: [point((a.x + b.x) / 2, (a.y + b.y) / 2)],
    points: [a, b],
  };
}

/** The lines of a mark; its words come when all lines are known. */
export interface Drawn {
  readonly lines: readonly Item[];
  readonly points: readonly Point[];
  readonly words: (layout: Layout) => Item;
}

/** The figure with its names; where a full page or a long name leaves no room for both, the figure alone. */
function wordsOf(mark: Mark, layout: Layout, anchors: readonly Point[], apart: number): Item {
  const lines = labelLines(mark.says, mark.brief === true ? [] : mark.of);
  const whole = labelAt(layout, anchors, lines, apart);
  return group(mark.kind, whole.length > 0 ? whole : labelAt(layout, anchors, [mark.says], apart), dataOf(mark));
}

/** Null where it cannot be seen from here. */
export function drawMark(mark: Mark, toPaper: ToPaper): Drawn | null {
  if (mark.kind === 'spot') {
    const anchor = toPaper(mark.at);
    return {
      lines: [],
      points: [],
      words: (layout) => wordsOf(mark, layout, [anchor], 2.5),
    };
  }
  const drawn =
    mark.kind === 'angle'
      ? angleLines(mark, toPaper)
      : distanceLines(toPaper(mark.from), toPaper(mark.to), mark.offset);
  if (drawn === null) return null;
  return {
    lines: drawn.items,
    points: drawn.points,
    words: (layout) => wordsOf(mark, layout, drawn.anchors, 1),
  };
}
