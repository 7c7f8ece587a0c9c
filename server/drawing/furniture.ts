/** What a drawing has besides the car: scale bar, arrow, datum lines, caption. Millimetres of paper. */
import type { Item, Point } from './scene';
import { group, line, point, text } from './scene';
import { LETTERS } from './dimension';

const INCH = 25.4;
/** A scale bar is about so long, mm of paper. */
const BAR = 60;
const PARTS = 5;
const BAR_HEIGHT = 1.1;

/** 1, 2 or 5 times a power of ten, at most `most`. */
export function roundBelow(most: number): number {
  const ten = 10 ** Math.floor(Math.log10(most));
  const share = most / ten;
  return ten * (share >= 5 ? 5 : share >= 2 ? 2 : 1);
}

function bar(at: Point, whole: number, perUnit: number, unit: string): readonly Item[] {
  const part = (whole * perUnit) / PARTS;
  const box = (i: number): readonly Point[] => [
    point(at.x + part * i, at.y),
    point(at.x + part * (i + 1), at.y),
    point(at.x + part * (i + 1), at.y + BAR_HEIGHT),
    point(at.x + part * i, at.y + BAR_HEIGHT),
  ];
  return [
    ...Array.from({ length: PARTS }, (_, i) => line(i % 2 === 0 ? 'scale-filled' : 'scale', box(i), true)),
    text(point(at.x + part * PARTS + 1.2, at.y + BAR_HEIGHT + 0.5), `${String(whole)} ${unit}`, LETTERS),
  ];
}

/** Two bars, millimetres above inches, from the same zero. `scale`: mm of paper for a mm of the car. */
export const scaleBar = (at: Point, scale: number): Item =>
  group('scale-bar', [
    ...bar(at, roundBelow(BAR / scale), scale, 'mm'),
    ...bar(point(at.x, at.y + 3), roundBelow(BAR / (scale * INCH)), scale * INCH, 'in'),
  ]);

/** An arrow to the left or the right with a word. */
export function arrow(at: Point, toLeft: boolean, word: string): Item {
  const tip = toLeft ? at : point(at.x + 9, at.y);
  const tail = toLeft ? point(at.x + 9, at.y) : at;
  const back = toLeft ? 2 : -2;
  return group('direction', [
    line('scale', [tail, tip]),
    line('scale-filled', [tip, point(tip.x + back, tip.y - 0.8), point(tip.x + back, tip.y + 0.8)], true),
    text(point(at.x + 10.5, at.y + 0.8), word, LETTERS),
  ]);
}
