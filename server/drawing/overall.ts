/** How long and how high the tubes are together, outside to outside: the dimensions below and beside a view. */
import { LETTERS } from './dimension';
import type { Layout } from './labels';
import type { Item, Point } from './scene';
import { boxOf, group, line, point, text, textWidth } from './scene';

/** The outermost points of the tubes as they are seen, mm of the view: of several as far out the one nearest to its dimension. */
export interface Extremes {
  readonly left: Point;
  readonly right: Point;
  readonly low: Point;
  readonly high: Point;
}

/** Points that reach as far within this are as far out, mm. */
const SAME = 0.01;

/** Null without a point. */
export function extremesOf(points: readonly Point[]): Extremes | null {
  const box = boxOf(points);
  if (box === null) return null;
  const nearest = (off: (at: Point) => number, near: (at: Point) => number): number =>
    points.reduce((most, at) => (Math.abs(off(at)) < SAME ? Math.max(most, near(at)) : most), -Infinity);
  const [down, right] = [(at: Point): number => -at.y, (at: Point): number => at.x];
  // Of a box in mm of the view `top` is the lowest.
  return {
    left: point(box.left, -nearest(({ x }) => x - box.left, down)),
    right: point(box.right, -nearest(({ x }) => x - box.right, down)),
    low: point(
      nearest(({ y }) => y - box.top, right),
      box.top,
    ),
    high: point(
      nearest(({ y }) => y - box.bottom, right),
      box.bottom,
    ),
  };
}

/** Dimension lines stand so far below and beside the tubes, mm of paper. */
const BELOW = 10;
const BESIDE = 9;
/** A witness line begins so far from what it shows, and goes on so far past the dimension line. */
const GAP = 1;
const PAST = 1.2;
/** Half the oblique stroke at the ends, across and up. */
const TICK = 0.9;
/** Other words keep so far from a dimension line. */
const CLEAR = 0.3;
/** Where the words stand on an upright line, and on a level one that an upright datum line crosses in its middle. */
const SHARE = 0.7;
const OFF_MIDDLE = 0.3;

interface Dimension {
  readonly name: string;
  readonly value: number;
  readonly words: string;
  readonly lines: readonly (readonly [Point, Point])[];
  readonly at: Point;
}

const tick = ({ x, y }: Point): readonly [Point, Point] => [point(x - TICK, y + TICK), point(x + TICK, y - TICK)];

/** Below the car, its words above the line; where they find no room between the witness lines, to the right of it. */
function level(from: Point, to: Point, y: number, value: number, words: string, middle: number): Dimension {
  const width = textWidth(words, LETTERS);
  const room = to.x - from.x - 2 * GAP;
  const base = y - LETTERS * 0.36;
  const inside = point(from.x + (to.x - from.x) * middle, base);
  return {
    name: 'overall-across',
    value,
    words,
    lines: [
      [point(from.x, y), point(to.x, y)],
      ...[from, to].map(({ x, y: start }): [Point, Point] => [point(x, start + GAP), point(x, y + PAST)]),
      tick(point(from.x, y)),
      tick(point(to.x, y)),
    ],
    at: width > room ? point(to.x + 2 * GAP + width / 2, base) : inside,
  };
}

/** Beside the car; its words break the line, or stand above it where it is too short for them. */
function upright(low: Point, high: Point, x: number, value: number, words: string): Dimension {
  const tall = low.y - high.y;
  const fits = tall * (1 - SHARE) > LETTERS;
  const at = point(x, fits ? high.y + tall * SHARE : high.y - LETTERS);
  const pieces: readonly (readonly [Point, Point])[] = fits
    ? [
        [point(x, high.y), point(x, at.y - LETTERS)],
        [point(x, at.y + LETTERS * 0.4), point(x, low.y)],
      ]
    : [[point(x, high.y), point(x, low.y)]];
  return {
    name: 'overall-up',
    value,
    words,
    lines: [
      ...pieces,
      ...[high, low].map(({ x: start, y }): [Point, Point] => [point(start + GAP, y), point(x + PAST, y)]),
      tick(point(x, high.y)),
      tick(point(x, low.y)),
    ],
    at,
  };
}

/**
 * The two dimensions, each with witness lines from the outermost points of the tubes. `aside`: the level one's words stand
 * off its middle, where the car's centreline runs. Other words keep off both.
 */
export function overallLines(
  { left, right, low, high }: Extremes,
  onPaper: (u: number, v: number) => Point,
  say: (length: number) => string,
  layout: Layout,
  aside: boolean,
): readonly Item[] {
  const paper = ({ x, y }: Point): Point => onPaper(x, y);
  const [across, up] = [right.x - left.x, high.y - low.y];
  const dimensions = [
    level(paper(left), paper(right), paper(low).y + BELOW, across, say(across), aside ? OFF_MIDDLE : 0.5),
    upright(paper(low), paper(high), paper(right).x + BESIDE, up, say(up)),
  ];
  return dimensions.map(({ name, value, words, lines, at }) => {
    for (const [a, b] of lines)
      layout.reserve({
        left: Math.min(a.x, b.x) - CLEAR,
        right: Math.max(a.x, b.x) + CLEAR,
        top: Math.min(a.y, b.y) - CLEAR,
        bottom: Math.max(a.y, b.y) + CLEAR,
      });
    const width = textWidth(words, LETTERS);
    layout.reserve({
      left: at.x - width / 2 - 1,
      right: at.x + width / 2 + 1,
      top: at.y - LETTERS,
      bottom: at.y + LETTERS * 0.4,
    });
    const isWitness = (i: number): boolean => i >= lines.length - 4 && i < lines.length - 2;
    return group(
      'overall',
      [
        ...lines.map((one, i) => line(isWitness(i) ? 'leader' : 'dimension', one)),
        text(at, words, LETTERS, { anchor: 'middle', halo: true }),
      ],
      { what: name, value: String(Math.round(value * 1e6) / 1e6) },
    );
  });
}
