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
  /** Where there is other room it does not lie on what a hand may take hold of. */
  readonly shy?: boolean;
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
 * @param holds what only shy ones give way to: a hand may take hold there
 */
export function placeLabels(
  wanted: readonly Wanted[],
  width: number,
  height: number,
  clear: readonly Rect[] = [],
  holds: readonly Rect[] = [],
): readonly Placed[] {
  const taken: Rect[] = [...clear];
  const placed: Placed[] = [];
  const fits = (rect: Rect) =>
    rect.x >= 0 &&
    rect.y >= 0 &&
    rect.x + rect.width <= width &&
    rect.y + rect.height <= height &&
    !taken.some((other) => meet(rect, other));
  const small = width < NARROW;
  const order = [...wanted].sort((a, b) => b.rank - a.rank || (a.key < b.key ? -1 : 1));
  for (const wish of order) {
    if (wish.x < 0 || wish.y < 0 || wish.x > width || wish.y > height) continue;
    const over = [wish.x - wish.width / 2, wish.y - wish.height / 2, false] as const;
    const seats = seatsOf(wish.x, wish.y, wish.width, wish.height);
    const signOnly = wish.width <= wish.small;
    const rectAt = (x: number, y: number) => ({ x, y, width: wish.width, height: wish.height });
    const free = (wish.centred ? [over, ...seats] : seats).filter(
      ([x, y, led]) => !(led && wish.near) && !(small && wish.near && !signOnly) && fits(rectAt(x, y)),
    );
    const seat = (wish.shy ? free.find(([x, y]) => !holds.some((hold) => meet(rectAt(x, y), hold))) : null) ?? free[0];
    if (seat) {
      const [x, y, led] = seat;
      taken.push({ x, y, width: wish.width, height: wish.height });
      placed.push({ key: wish.key, x, y, short: false, led });
    } else if (wish.small > 0) {
      const [x, y] = [wish.x - wish.small / 2, wish.y - wish.small / 2];
      const rect = { x, y, width: wish.small, height: wish.small };
      if (!fits(rect)) continue;
      taken.push(rect);
      placed.push({ key: wish.key, x, y, short: true, led: false });
    }
  }
  return placed;
}
