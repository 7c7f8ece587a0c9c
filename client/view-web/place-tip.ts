/** Finds the place of the hover on the picture: pure arithmetic, in pixels. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}
interface Size {
  readonly width: number;
  readonly height: number;
}

const EDGE = 4;
const OFF = 16;
/** What it counts, in pixels of way from the pointer, to lie on all of the part. */
const COVER = 900;

/**
 * The upper left corner of a hover: beside the pointer, never under it where there is room, and on as little of the part as
 * can be. The same pointer and part give the same place.
 * @param spread points of the picture that the part covers; none: only the pointer counts
 */
export function placeTip(pointer: Spot, { width, height }: Size, room: Size, spread: readonly Spot[]): Spot {
  const [right, bottom] = [Math.max(EDGE, room.width - width - EDGE), Math.max(EDGE, room.height - height - EDGE)];
  const inX = (x: number) => Math.min(right, Math.max(EDGE, x));
  const inY = (y: number) => Math.min(bottom, Math.max(EDGE, y));
  const xs = [inX(pointer.x + OFF), inX(pointer.x - OFF - width), inX(pointer.x - width / 2), right, EDGE];
  const ys = [inY(pointer.y + OFF), inY(pointer.y - OFF - height), inY(pointer.y - height / 2), bottom, EDGE];
  let best: { readonly x: number; readonly y: number; readonly cost: number } | null = null;
  for (const y of ys) {
    for (const x of xs) {
      const away = Math.hypot(
        Math.max(x - pointer.x, 0, pointer.x - x - width),
        Math.max(y - pointer.y, 0, pointer.y - y - height),
      );
      const covered = spread.filter((at) => at.x >= x && at.x <= x + width && at.y >= y && at.y <= y + height).length;
      const under = away < OFF / 2 ? 10 * COVER : 0;
      const cost = away + under + (COVER * covered) / Math.max(1, spread.length);
      if (best === null || cost < best.cost - 1e-9) best = { x, y, cost };
    }
  }
  return best ?? { x: EDGE, y: EDGE };
}
