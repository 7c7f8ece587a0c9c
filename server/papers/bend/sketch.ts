/** How a tube lies for a bend: seen along it from END 1 toward END 2, where its last bend points and where the next one goes. */
import { sayMeasure } from '../../../grammar/print';
import { degrees } from '../../../grammar/units';
import type { Item, Point, Scene } from '../../drawing/scene';
import { group, line, point, text } from '../../drawing/scene';

/** One sketch, to be set where there is room: its middle goes to `centre`. */
export interface Sketch {
  /** What it shows, in words. */
  readonly title: string;
  /** So far below its middle it reaches, without its words: mm of paper. */
  readonly low: number;
  readonly items: (centre: Point) => readonly Item[];
}

/** Millimetres of paper: of one sketch, with its middle so far below its top and words below it; so many side by side. */
const WIDTH = 60;
const MIDDLE = 23;
const WORDS = 9;
const ACROSS = 3;
const TUBE = 7;
const REACH = 17;
const TURN = 11.5;
const LETTERS = 2.6;
/** A rotation this small, or this near to half a turn, is none, or half a turn: radians. */
const NONE = (0.05 * Math.PI) / 180;

/** True of a rotation to the same side as the bend before. */
export const isNone = (rotation: number | null): boolean => rotation !== null && Math.abs(rotation) < NONE;

/** `30° clockwise (+30°)`, `0°, to the same side`. The sign: clockwise seen from END 1 toward END 2 is +. */
export function rotationWords(rotation: number): string {
  if (isNone(rotation)) return '0°, to the same side';
  if (Math.PI - Math.abs(rotation) < NONE) return '180°, to the opposite side';
  const value = sayMeasure({ value: Math.abs(degrees(rotation)), unit: 'deg' }, 'mm');
  // Sign and word apart: `-30° anticlockwise` could be read as clockwise.
  return rotation > 0 ? `${value} clockwise (+${value})` : `${value} anticlockwise (-${value})`;
}

/** Clockwise from straight up. */
const on = (centre: Point, clock: number, radius: number): Point =>
  point(centre.x + radius * Math.sin(clock), centre.y - radius * Math.cos(clock));

/** A filled tip that points along the paper's direction `way` (radians, clockwise from up). */
const tip = (at: Point, way: number): Item => {
  const along = (back: number, side: number): Point =>
    point(at.x - back * Math.sin(way) + side * Math.cos(way), at.y + back * Math.cos(way) + side * Math.sin(way));
  return line('scale-filled', [at, along(2.4, 0.9), along(2.4, -0.9)], true);
};

const label = (centre: Point, clock: number, words: string): Item => {
  const at = on(centre, clock, REACH + 3.4);
  const across = Math.sin(clock);
  const anchor = across > 0.35 ? 'start' : across < -0.35 ? 'end' : 'middle';
  // Beside a direction that points sideways, so that words stay in their sketch.
  const room = WIDTH / 2 - 13;
  const x = centre.x + Math.max(-room, Math.min(room, at.x - centre.x));
  return text(point(anchor === 'middle' ? at.x : x, at.y + LETTERS * 0.36), words, LETTERS, {
    anchor,
    bold: true,
    halo: true,
  });
};

const arrow = (centre: Point, clock: number): readonly Item[] => [
  line('strap', [centre, on(centre, clock, REACH - 1)]),
  tip(on(centre, clock, REACH), clock),
];

function turn(centre: Point, by: number): readonly Item[] {
  if (Math.abs(by) < NONE) return [];
  const up = -Math.PI / 2;
  const [from, to] = by > 0 ? [up, up + by] : [up + by, up];
  return [
    { kind: 'arc', style: 'dimension', centre, radius: TURN, from, to },
    tip(on(centre, by, TURN), by + (by > 0 ? Math.PI / 2 : -Math.PI / 2)),
  ];
}

const tube = (centre: Point): readonly Item[] => [
  { kind: 'circle', style: 'balloon', centre, radius: TUBE },
  line('centre', [on(centre, 0, -TUBE - 2), on(centre, 0, TUBE + 2)]),
  line('centre', [on(centre, Math.PI / 2, -TUBE - 2), on(centre, Math.PI / 2, TUBE + 2)]),
];

/** How far an arrow, or at least the tube itself, reaches down. */
const lowOf = (clock: number): number => Math.max(TUBE + 2, -Math.cos(clock) * (REACH + 5));

const below = (centre: Point, low: number, words: string): Item =>
  text(point(centre.x, centre.y + low + 5), words, LETTERS, { anchor: 'middle', bold: true });

const inDegrees = (angle: number): string => String(Math.round(degrees(angle) * 1e6) / 1e6 + 0);

/**
 * The next bend against the one before. Above the tube the leg that is bent already; the arrow is the way of the next bend.
 * `rotation`: radians, clockwise as seen from END 1 toward END 2.
 */
export function rotationSketch(bend: number, rotation: number): Sketch {
  const [before, next] = [`bend ${String(bend - 1)}`, `bend ${String(bend)}`];
  const half = TUBE * 0.8;
  return {
    title: `${before} is up, ${next} goes ${rotationWords(rotation)}`,
    low: lowOf(rotation),
    items: (centre) => [
      group(
        'bent',
        [
          { kind: 'band', style: 'body', points: [centre, on(centre, 0, REACH)], width: 2 * half },
          ...[-half, half].map((side) =>
            line('hidden', [point(centre.x + side, centre.y), point(centre.x + side, centre.y - REACH)]),
          ),
        ],
        { bend: String(bend - 1) },
      ),
      ...tube(centre),
      group('next', [...arrow(centre, rotation), ...turn(centre, rotation)], {
        bend: String(bend),
        degrees: inDegrees(rotation),
      }),
      ...(Math.abs(rotation) < NONE
        ? [label(centre, 0, `${before} and ${next}`)]
        : [label(centre, 0, before), label(centre, rotation, next)]),
      below(centre, lowOf(rotation), `${String(bend - 1)} to ${String(bend)}: ${rotationWords(rotation)}`),
    ],
  };
}

/** The first bend against the clock of END 1: `zero` is TOP or FRONT. */
export function firstSketch(clock: number, zero: string): Sketch {
  const value = sayMeasure({ value: degrees(clock), unit: 'deg' }, 'mm');
  const same = Math.min(clock, 2 * Math.PI - clock) < NONE;
  return {
    title: `${zero} of the tube in the car is up, bend 1 goes to ${value} of the clock`,
    low: lowOf(clock),
    items: (centre) => [
      ...tube(centre),
      line('dimension', [on(centre, 0, TUBE), on(centre, 0, REACH)]),
      group('next', arrow(centre, clock), { bend: '1', degrees: inDegrees(clock) }),
      ...(same ? [label(centre, 0, `${zero}, bend 1`)] : [label(centre, 0, zero), label(centre, clock, 'bend 1')]),
      below(centre, lowOf(clock), `bend 1 in the car: clock ${value} at END 1`),
    ],
  };
}

/** All sketches of a tube on one picture, in rows, each as high as its lowest. */
export function sheetOfSketches(sketches: readonly Sketch[]): Scene {
  const tops: number[] = [];
  let height = 0;
  for (let i = 0; i < sketches.length; i += ACROSS) {
    tops.push(height);
    height += MIDDLE + Math.max(...sketches.slice(i, i + ACROSS).map(({ low }) => low)) + WORDS;
  }
  return {
    title: 'Rotations, seen along the tube from END 1 toward END 2',
    description: sketches.map(({ title }) => title).join('. '),
    width: ACROSS * WIDTH,
    height,
    items: sketches.map(({ items }, i) =>
      group('rotation', items(point((i % ACROSS) * WIDTH + WIDTH / 2, (tops[Math.floor(i / ACROSS)] ?? 0) + MIDDLE))),
    ),
  };
}
