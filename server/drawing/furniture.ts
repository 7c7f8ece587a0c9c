/** What a drawing has besides the car: scale bar, arrow, datum lines, caption. Millimetres of paper. */
import { LETTERS } from './dimension';
import type { Box, Item, Point } from './scene';
import { group, line, point, text } from './scene';
import type { View } from './view';

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

/** z = 0 where it is seen as a line, and the car's centreline. */
export function datumLines(view: View, onPaper: (u: number, v: number) => Point, field: Box): readonly Item[] {
  const items: Item[] = [];
  const zero = onPaper(0, 0);
  const inside = (at: number, from: number, to: number): boolean => at > from && at < to;
  if (view.toward[2] === 0 && view.up[2] === 1 && inside(zero.y, 0, field.bottom)) {
    items.push(
      line('datum', [point(2, zero.y), point(field.right - 2, zero.y)]),
      text(point(field.right - 2, zero.y + LETTERS), 'z = 0', LETTERS, { anchor: 'end' }),
    );
  }
  if (view.toward[1] === 0 && Math.abs(view.up[1]) === 1)
    items.push(
      line('centre', [point(2, zero.y), point(field.right - 2, zero.y)]),
      text(point(field.right - 2, zero.y - 0.7), 'centreline', LETTERS, { anchor: 'end' }),
    );
  if (view.toward[1] === 0 && Math.abs(view.right[1]) === 1)
    items.push(line('centre', [point(zero.x, 2), point(zero.x, field.bottom - 2)]));
  return items;
}

/** What stands below the drawing: its name, where forward is, and how long a length is on it; `scale` null: it has none. */
export function below(
  view: View,
  { title: name, width }: { readonly title: string; readonly width: number },
  scale: number | null,
  top: number,
): readonly Item[] {
  const title = text(point(0.5, top + 4), name, LETTERS * 1.1, { bold: true });
  const forward = view.right[0];
  const way =
    Math.abs(forward) > 0.9
      ? [arrow(point(0.5, top + 8), forward < 0, 'forward')]
      : Math.abs(view.right[1]) > 0.9
        ? [arrow(point(0.5, top + 8), view.right[1] < 0, "the car's left")]
        : [];
  if (scale === null) return [title, ...way];
  const ratio = 1 / scale;
  const says = `1 : ${String(Math.round(ratio * 100) / 100)} printed at full size`;
  const barAt = Math.max(width * 0.38, 36);
  return [
    title,
    ...way,
    ...(width < 100
      ? [text(point(0.5, top + 12), says, LETTERS)]
      : [text(point(width - 0.5, top + 9), says, LETTERS, { anchor: 'end' })]),
    scaleBar(point(barAt, top + 7), scale),
  ];
}
