/** Two small pictures of a coped end: unrolled, and from the side that shows how the first cut leans. */
import type { Item, Point, Scene } from '../../drawing/scene';
import { group, line, point, text } from '../../drawing/scene';
import type { FlatCut } from '../../geometry/two-cut';
import type { CopeStart } from './figures';

/** Millimetres of paper. */
const WIDTH = 180;
const LETTERS = 2.6;
const SMALL = 2.2;
const CHART = { left: 8, right: 116, top: 9, bottom: 54 } as const;
const SIDE = { middle: 150, top: 9, bottom: 54, widest: 40 } as const;
const STEPS = 180;
/** Straight tube that is drawn behind the deepest cut, in outside radii. */
const BEHIND = 0.5;

const clockAt = (k: number): number => (k * 2 * Math.PI) / STEPS;

/** Set-back of a flat cut at the tube's surface. */
const onCut = ({ deep, shallow, deepClock }: FlatCut, clock: number): number =>
  (deep + shallow) / 2 + ((deep - shallow) / 2) * Math.cos(clock - (deepClock ?? 0));

/** Where the piece ends at the tube's surface, sawn square at its long point and then by the flat cuts. */
const sawnAt = (start: CopeStart, clock: number): number =>
  Math.max(start.coped.minCut, ...start.chosen.cuts.map((cut) => onCut(cut, clock)));

const trueAt = ({ coped }: CopeStart, clock: number): number => coped.curve.cut(clock) ?? coped.minCut;

const letters = (at: Point, words: string, anchor: 'start' | 'middle' | 'end' = 'middle', bold = false): Item =>
  text(at, words, LETTERS, { anchor, bold, halo: true });

interface Reach {
  readonly low: number;
  readonly high: number;
}

/** Least and most set-back of both curves, with some tube behind. */
function reachOf(start: CopeStart): Reach {
  let [low, high] = [start.coped.minCut as number, -Infinity];
  for (let k = 0; k < STEPS; k++) {
    low = Math.min(low, sawnAt(start, clockAt(k)));
    high = Math.max(high, trueAt(start, clockAt(k)));
  }
  return { low, high: high + BEHIND * start.coped.outerRadius };
}

/** Unrolled: clock across, the joint at the top. What is left to grind is the band between the two curves. */
function unrolled(start: CopeStart, zero: string, { low, high }: Reach): readonly Item[] {
  const { left, right, top, bottom } = CHART;
  const across = (right - left) / (2 * Math.PI);
  const scale = Math.min((bottom - top) / (high - low), (right - left) / (2 * Math.PI * start.coped.outerRadius));
  const at = (clock: number, setback: number): Point => point(left + clock * across, top + (setback - low) * scale);
  const clocks = Array.from({ length: STEPS + 1 }, (_, k) => clockAt(k));
  const flat = clocks.map((clock) => at(clock, sawnAt(start, clock)));
  const curve = clocks.map((clock) => at(clock, trueAt(start, clock)));
  const end = top + (high - low) * scale;
  const quarters = [0, 90, 180, 270, 360].map((degrees): readonly Item[] => {
    const x = left + ((degrees * Math.PI) / 180) * across;
    return [
      line('centre', [point(x, top - 2), point(x, end)]),
      letters(
        point(x, end + 4),
        degrees % 360 === 0 ? `${zero} ${String(degrees)}°` : `${String(degrees)}°`,
        degrees === 0 ? 'start' : degrees === 360 ? 'end' : 'middle',
        degrees % 360 === 0,
      ),
    ];
  });
  const marks = start.chosen.cuts.map((cut, i): readonly Item[] => {
    const spot = at(cut.deepClock ?? 0, cut.deep);
    return [
      { kind: 'circle', style: 'scale-filled', centre: spot, radius: 0.9 },
      letters(point(spot.x, spot.y + 4.2), `mark ${String(i + 1)}`, 'middle', true),
    ];
  });
  return [
    // What is ground away, hatched.
    ...flat.flatMap((from, k) => (k % 2 === 0 ? [line('frame', [from, curve[k] ?? from])] : [])),
    ...quarters.flat(),
    group('sawn', [line('strap', flat)]),
    group('true', [line('joint', curve)]),
    ...marks.flat(),
    letters(point(left, 5), 'unrolled, the joint above', 'start'),
  ];
}

/** From the side: both edges as loops, so that near and far side are seen. */
function sideView(start: CopeStart, { low, high }: Reach, zero: string): readonly Item[] {
  const { outerRadius } = start.coped;
  const scale = Math.min((SIDE.bottom - SIDE.top) / (high - low), SIDE.widest / (2 * outerRadius));
  // The first mark stands at the right edge.
  const right = start.chosen.cuts[0]?.deepClock ?? Math.PI / 2;
  const at = (clock: number, setback: number): Point =>
    point(SIDE.middle + outerRadius * Math.cos(clock - right) * scale, SIDE.top + (setback - low) * scale);
  const clocks = Array.from({ length: STEPS }, (_, k) => clockAt(k));
  const bottom = SIDE.top + (high - low) * scale;
  const edges = [right, right + Math.PI].map((clock) => {
    const from = at(clock, sawnAt(start, clock));
    return line('outline', [from, point(from.x, bottom)]);
  });
  const degreesAt = (clock: number): string => `${String(Math.round((clock * 180) / Math.PI) % 360)}°`;
  return [
    ...edges,
    line('centre', [point(SIDE.middle, SIDE.top - 2), point(SIDE.middle, bottom + 1)]),
    line(
      'strap',
      clocks.map((clock) => at(clock, sawnAt(start, clock))),
      true,
    ),
    line(
      'joint',
      clocks.map((clock) => at(clock, trueAt(start, clock))),
      true,
    ),
    letters(point(SIDE.middle, 5), `from the side, ${zero} is 0°`),
    letters(point(SIDE.middle + outerRadius * scale, bottom + 4), degreesAt(right)),
    letters(point(SIDE.middle - outerRadius * scale, bottom + 4), degreesAt(right + Math.PI)),
  ];
}

const lowestOf = (item: Item): number =>
  item.kind === 'text' ? item.at.y : item.kind === 'line' ? Math.max(...item.points.map(({ y }) => y)) : 0;

/** `zero`: TOP or FRONT. */
export function copeSketch(start: CopeStart, zero: string, title: string): Scene {
  const reach = reachOf(start);
  const items = [...unrolled(start, zero, reach), ...sideView(start, reach, zero)];
  const lowest = Math.max(...items.map(lowestOf)) + 6;
  return {
    title,
    description: 'The saw cuts are drawn thick, the true cut thin; what lies between them is ground away.',
    width: WIDTH,
    height: lowest + 2,
    items: [
      ...items,
      text(point(CHART.left, lowest), 'thick line: saw; thin: true cut, never passed; hatched: grind', SMALL),
    ],
  };
}
