/** Finds room for words on a drawing: near what they belong to, on no other words, and over as few lines as can be. */
import type { Box, Point } from './scene';
import { overlap, point } from './scene';

export interface Spot {
  readonly box: Box;
  readonly centre: Point;
  /** From what is labelled to the words; null where the words stand at it. */
  readonly leader: readonly [Point, Point] | null;
}

/** Ink is counted in cells of so many mm. */
const CELL = 1;
const DIRECTIONS = 16;
const DISTANCES = [0, 2.5, 4.5, 7, 10, 14, 19, 25, 32, 40, 50];
/** What a millimetre of leader, a cell of ink under the words, and a leader over words cost. */
const PER_MM = 1;
const PER_INK = 2;
const OVER_WORDS = 40;
/** And a cell of ink under a leader. */
const LEADER_OVER_INK = 0.4;
/** Words keep this far from each other, mm. */
const APART = 0.7;

const grown = (box: Box, by: number): Box => ({
  left: box.left - by,
  top: box.top - by,
  right: box.right + by,
  bottom: box.bottom + by,
});

const around = (centre: Point, width: number, height: number): Box => ({
  left: centre.x - width / 2,
  right: centre.x + width / 2,
  top: centre.y - height / 2,
  bottom: centre.y + height / 2,
});

/** Where the line from the box's middle to a point leaves the box. */
function border(box: Box, to: Point): Point {
  const [cx, cy] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const [dx, dy] = [to.x - cx, to.y - cy];
  const share = Math.min(
    dx === 0 ? Infinity : (box.right - box.left) / 2 / Math.abs(dx),
    dy === 0 ? Infinity : (box.bottom - box.top) / 2 / Math.abs(dy),
    1,
  );
  return point(cx + dx * share, cy + dy * share);
}

/** Points along a line, a cell apart. */
function along(from: Point, to: Point): readonly Point[] {
  const steps = Math.min(5_000, Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / CELL)));
  return Array.from({ length: steps + 1 }, (_, i) =>
    point(from.x + ((to.x - from.x) * i) / steps, from.y + ((to.y - from.y) * i) / steps),
  );
}

export class Layout {
  private readonly ink = new Set<number>();
  private readonly words: Box[] = [];

  /** `page`: where words may stand. */
  constructor(private readonly page: Box) {}

  private key(x: number, y: number): number {
    return Math.floor(x / CELL) * 4_099 + Math.floor(y / CELL);
  }

  /** Something is drawn here. */
  draw(points: readonly Point[]): void {
    for (const [i, to] of points.entries()) {
      const from = points[i - 1] ?? to;
      for (const { x, y } of along(from, to)) this.ink.add(this.key(x, y));
    }
  }

  /** Words that have their place already. */
  reserve(box: Box): void {
    this.words.push(box);
  }

  private inked(box: Box): number {
    let count = 0;
    for (let x = Math.floor(box.left / CELL); x <= Math.floor(box.right / CELL); x++)
      for (let y = Math.floor(box.top / CELL); y <= Math.floor(box.bottom / CELL); y++)
        if (this.ink.has(x * 4_099 + y)) count++;
    return count;
  }

  private isFree(box: Box): boolean {
    const { page } = this;
    if (box.left < page.left || box.right > page.right || box.top < page.top || box.bottom > page.bottom) return false;
    const room = grown(box, APART);
    return !this.words.some((other) => overlap(room, other));
  }

  private costOf(box: Box, anchor: Point, far: number): number {
    let cost = far * PER_MM + this.inked(box) * PER_INK;
    if (far === 0) return cost;
    const line = along(border(box, anchor), anchor);
    for (const { x, y } of line) {
      if (this.ink.has(this.key(x, y))) cost += LEADER_OVER_INK;
      if (this.words.some((w) => x > w.left && x < w.right && y > w.top && y < w.bottom)) cost += OVER_WORDS;
    }
    return cost;
  }

  /**
   * Room of that size (mm) for words that belong to one of the anchors; the first anchor is liked best. `apart`: how far
   * the words stand from the anchor at least, 0 where they may stand on it. Null: the page is full.
   */
  place(anchors: readonly Point[], width: number, height: number, apart: number): Spot | null {
    let best: { readonly cost: number; readonly box: Box; readonly anchor: Point; readonly far: number } | null = null;
    for (const [rank, anchor] of anchors.entries()) {
      for (const far of DISTANCES) {
        if (far < apart) continue;
        if (best !== null && far * PER_MM + rank > best.cost) break;
        const directions = far === 0 ? 1 : DIRECTIONS;
        for (let i = 0; i < directions; i++) {
          const angle = (2 * Math.PI * i) / directions;
          const [c, s] = [Math.cos(angle), Math.sin(angle)];
          const centre =
            far === 0 ? anchor : point(anchor.x + c * (far + width / 2), anchor.y + s * (far + height / 2));
          const box = around(centre, width, height);
          if (!this.isFree(box)) continue;
          const cost = this.costOf(box, anchor, far) + rank * 0.5;
          if (best === null || cost < best.cost) best = { cost, box, anchor, far };
        }
      }
    }
    if (best === null) return null;
    const { box, anchor, far } = best;
    this.words.push(box);
    const leader: readonly [Point, Point] | null = far === 0 ? null : [border(box, anchor), anchor];
    if (leader !== null) this.draw(leader);
    return { box, centre: point((box.left + box.right) / 2, (box.top + box.bottom) / 2), leader };
  }
}
