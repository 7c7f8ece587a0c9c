/** Finds room for words on the picture: pure arithmetic on rectangles, in pixels. */

export interface Wanted {
  readonly key: string;
  /** What the words are about. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Size without words, only the symbol; 0: it has none. */
  readonly small: number;
  /** It does not stand off: where there is no room close by only the symbol stays. */
  readonly near: boolean;
  /** Right over the point where there is room: what leads there is drawn already. */
  readonly centred: boolean;
  /** Higher finds room first. */
  readonly rank: number;
}

export interface Placed {
  readonly key: string;
  /** Of the upper left corner. */
  readonly x: number;
  readonly y: number;
  /** Only the symbol had room. */
  readonly short: boolean;
  /** It stands off from what it is about: a line leads there. */
  readonly led: boolean;
  /** There was room only over what a hand may take hold of: it has to let the hand through. */
  readonly over: boolean;
}

/** In pixels, from its upper left corner. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const GAP = 2;
const OFF = 10;
/** On a picture narrower than this there is room only for words that matter. */
const NARROW = 480;

const meet = (a: Rect, b: Rect) =>
  a.x < b.x + b.width + GAP && b.x < a.x + a.width + GAP && a.y < b.y + b.height + GAP && b.y < a.y + a.height + GAP;

/** Rectangles by the squares of the picture that they touch: what meets one is found without asking all. */
class Crowd {
  private readonly squares = new Map<number, Rect[]>();

  constructor(all: readonly Rect[]) {
    for (const one of all) this.add(one);
  }

  add(rect: Rect): void {
    for (const key of squaresOf(rect)) {
      const there = this.squares.get(key);
      if (there) there.push(rect);
      else this.squares.set(key, [rect]);
    }
  }

  meets(rect: Rect): boolean {
    return squaresOf(rect).some((key) => this.squares.get(key)?.some((one) => meet(rect, one)) === true);
  }

  /** How many there are that a rectangle meets, each counted once a square. */
  met(rect: Rect): number {
    let count = 0;
    for (const key of squaresOf(rect)) for (const one of this.squares.get(key) ?? []) if (meet(rect, one)) count += 1;
    return count;
  }
}

const SQUARE = 64;
/** More rows of squares than any picture has. */
const COLUMN = 4096;

function squaresOf({ x, y, width, height }: Rect): readonly number[] {
  const [left, right] = [x - GAP, x + width + GAP].map((at) => Math.floor(at / SQUARE));
  const [top, bottom] = [y - GAP, y + height + GAP].map((at) => Math.floor(at / SQUARE));
  const keys: number[] = [];
  for (let column = left ?? 0; column <= (right ?? 0); column++)
    for (let row = top ?? 0; row <= (bottom ?? 0); row++) keys.push(column * COLUMN + row);
  return keys;
}

/** What it counts, in seats farther off, to lie on a handle, on a stroke of a line, and to need a line that leads there. */
const ON_HANDLE = 1000;
const ON_LINE = 3;
const LED = 8;

/** Round the point, nearest first: upper left corners for a size. */
function seatsOf(x: number, y: number, width: number, height: number): readonly (readonly [number, number, boolean])[] {
  const right = x + OFF;
  const left = x - OFF - width;
  const middle = y - height / 2;
  const above = y - height - OFF;
  const below = y + OFF;
  const seats: (readonly [number, number, boolean])[] = [
    [right, middle, false],
    [left, middle, false],
    [x - width / 2, above, false],
    [x - width / 2, below, false],
    [right, above, false],
    [right, below, false],
    [left, above, false],
    [left, below, false],
  ];
  for (const rows of [1, 2, 3]) {
    const step = rows * (height + GAP) + OFF;
    seats.push(
      [right + OFF, middle - step, true],
      [right + OFF, middle + step, true],
      [left - OFF, middle - step, true],
      [left - OFF, middle + step, true],
    );
  }
  return seats;
}

/**
 * Places the words that matter most first; where there is no room for words there may be for the symbol, and where there
 * is none for that either they are left out. The same wishes give the same places.
 * @param clear what no words may lie on: a hand wants to take hold there
 * @param holds what they lie on only where there is no other room: a hand may take hold there
 * @param lines what they leave free where other room is near: something measured is drawn there
 */
export function placeLabels(
  wanted: readonly Wanted[],
  width: number,
  height: number,
  clear: readonly Rect[] = [],
  holds: readonly Rect[] = [],
  lines: readonly Rect[] = [],
): readonly Placed[] {
  const taken = new Crowd(clear);
  const [handles, drawn] = [new Crowd(holds), new Crowd(lines)];
  const placed: Placed[] = [];
  const fits = (rect: Rect) =>
    rect.x >= 0 && rect.y >= 0 && rect.x + rect.width <= width && rect.y + rect.height <= height && !taken.meets(rect);
  const small = width < NARROW;
  const order = [...wanted].sort((a, b) => b.rank - a.rank || (a.key < b.key ? -1 : 1));
  for (const wish of order) {
    if (wish.x < 0 || wish.y < 0 || wish.x > width || wish.y > height) continue;
    const over = [wish.x - wish.width / 2, wish.y - wish.height / 2, false] as const;
    const seats = seatsOf(wish.x, wish.y, wish.width, wish.height);
    const signOnly = wish.width <= wish.small;
    let best: { readonly rect: Rect; readonly led: boolean; readonly cost: number } | null = null;
    for (const [nth, [x, y, led]] of (wish.centred ? [over, ...seats] : seats).entries()) {
      if (wish.near && (led || (small && !signOnly))) continue;
      const least = nth + (led ? LED : 0);
      if (best && best.cost <= least) break;
      const rect = { x, y, width: wish.width, height: wish.height };
      if (!fits(rect)) continue;
      const cost = least + (handles.meets(rect) ? ON_HANDLE : 0) + ON_LINE * drawn.met(rect);
      if (!best || cost < best.cost) best = { rect, led, cost };
    }
    if (best) {
      const { rect, led, cost } = best;
      taken.add(rect);
      placed.push({ key: wish.key, x: rect.x, y: rect.y, short: false, led, over: cost >= ON_HANDLE });
    } else if (wish.small > 0) {
      const [x, y] = [wish.x - wish.small / 2, wish.y - wish.small / 2];
      const rect = { x, y, width: wish.small, height: wish.small };
      if (!fits(rect)) continue;
      taken.add(rect);
      placed.push({ key: wish.key, x, y, short: true, led: false, over: handles.meets(rect) });
    }
  }
  return placed;
}
