/**
 * Broad phase: which boxes are near a point, and which pairs of boxes meet, without looking at all pairs.
 * A binary tree of axis-parallel boxes, split at the median of the longest side. Millimetres.
 */
import type { Piece } from '../centreline/centreline';
import type { Vec3 } from '../centreline/vector';

/** Boxes of a leaf. */
const LEAF = 4;

/** Least and greatest x, y, z. */
export type Box = readonly [number, number, number, number, number, number];

/** The box round a leg or arc, grown by `by` on all sides. Exact for both. */
export function boxOf(piece: Piece, by: number): Box {
  const low = [0, 0, 0];
  const high = [0, 0, 0];
  for (let k = 0; k < 3; k++) {
    let least: number;
    let most: number;
    if (piece.kind === 'leg') {
      const a = piece.from[k] as number;
      const b = piece.to[k] as number;
      least = Math.min(a, b);
      most = Math.max(a, b);
    } else {
      // centre + radius (from cos α + tangent sin α): extremes at the ends, and where its derivative is zero.
      const c = piece.centre[k] as number;
      const f = (piece.fromCentre[k] as number) * piece.radius;
      const t = (piece.tangent[k] as number) * piece.radius;
      const end = c + f * Math.cos(piece.angle) + t * Math.sin(piece.angle);
      least = Math.min(c + f, end);
      most = Math.max(c + f, end);
      const size = Math.hypot(f, t);
      const turning = Math.atan2(t, f);
      const within = (angle: number): boolean => {
        const turn = angle < 0 ? angle + 2 * Math.PI : angle;
        return turn <= piece.angle;
      };
      if (within(turning)) most = Math.max(most, c + size);
      if (within(turning > 0 ? turning - Math.PI : turning + Math.PI)) least = Math.min(least, c - size);
    }
    low[k] = least - by;
    high[k] = most + by;
  }
  return [
    low[0] as number,
    low[1] as number,
    low[2] as number,
    high[0] as number,
    high[1] as number,
    high[2] as number,
  ];
}

/** A tree of boxes, each named by its index. */
export class BoxTree {
  private readonly bounds: Float64Array;
  private readonly order: Int32Array;
  private readonly boxes: Float64Array;
  private readonly count: number;

  constructor(boxes: readonly Box[]) {
    this.count = boxes.length;
    this.boxes = new Float64Array(boxes.length * 6);
    for (let i = 0; i < boxes.length; i++) this.boxes.set(boxes[i] as Box, i * 6);
    this.order = Int32Array.from(boxes.keys());
    // A node's children are 2n + 1 and 2n + 2; the split is in the middle of the list, so the shape needs no storing.
    let size = 1;
    for (let n = boxes.length; n > LEAF; n = Math.ceil(n / 2)) size = size * 2 + 1;
    this.bounds = new Float64Array(size * 6);
    if (this.count > 0) this.build(0, 0, this.count);
  }

  private build(node: number, from: number, to: number): void {
    const { bounds, boxes, order } = this;
    const at = node * 6;
    for (let k = 0; k < 3; k++) {
      let least = Infinity;
      let most = -Infinity;
      for (let i = from; i < to; i++) {
        const b = (order[i] as number) * 6 + k;
        if ((boxes[b] as number) < least) least = boxes[b] as number;
        if ((boxes[b + 3] as number) > most) most = boxes[b + 3] as number;
      }
      bounds[at + k] = least;
      bounds[at + 3 + k] = most;
    }
    if (to - from <= LEAF) return;
    let axis = 0;
    let longest = -1;
    for (let k = 0; k < 3; k++) {
      const side = (bounds[at + 3 + k] as number) - (bounds[at + k] as number);
      if (side > longest) {
        longest = side;
        axis = k;
      }
    }
    const half = from + Math.ceil((to - from) / 2);
    this.select(from, to - 1, half, axis);
    this.build(2 * node + 1, from, half);
    this.build(2 * node + 2, half, to);
  }

  /** Moves the boxes whose middle along `axis` is less to before `nth`, and the others behind (Hoare's selection). */
  private select(from: number, to: number, nth: number, axis: number): void {
    const { boxes, order } = this;
    const middle = (i: number): number => {
      const at = (order[i] as number) * 6 + axis;
      return (boxes[at] as number) + (boxes[at + 3] as number);
    };
    let low = from;
    let high = to;
    while (low < high) {
      const pivot = middle((low + high) >> 1);
      let i = low;
      let j = high;
      while (i <= j) {
        while (middle(i) < pivot) i++;
        while (middle(j) > pivot) j--;
        if (i <= j) {
          const swap = order[i] as number;
          order[i++] = order[j] as number;
          order[j--] = swap;
        }
      }
      if (nth <= j) high = j;
      else if (nth >= i) low = i;
      else return;
    }
  }

  /** Calls `found` with every box that meets the given one. */
  near(box: Box, found: (index: number) => void): void {
    if (this.count > 0) this.visit(0, 0, this.count, box, found);
  }

  private visit(node: number, from: number, to: number, box: Box, found: (index: number) => void): void {
    if (!meets(this.bounds, node * 6, box)) return;
    if (to - from <= LEAF) {
      for (let i = from; i < to; i++) {
        const index = this.order[i] as number;
        if (meets(this.boxes, index * 6, box)) found(index);
      }
      return;
    }
    const half = from + Math.ceil((to - from) / 2);
    this.visit(2 * node + 1, from, half, box, found);
    this.visit(2 * node + 2, half, to, box, found);
  }

  /** Calls `found` with every box that meets the cube of half side `reach` round a point. */
  around(p: Vec3, reach: number, found: (index: number) => void): void {
    this.near([p[0] - reach, p[1] - reach, p[2] - reach, p[0] + reach, p[1] + reach, p[2] + reach], found);
  }

  /** Calls `found` once with every pair of boxes that meet, the smaller index first. */
  pairs(found: (a: number, b: number) => void): void {
    for (let i = 0; i < this.count; i++) {
      const b = this.boxes.subarray(i * 6, i * 6 + 6);
      const box: Box = [b[0] as number, b[1] as number, b[2] as number, b[3] as number, b[4] as number, b[5] as number];
      this.near(box, (other) => {
        if (other > i) found(i, other);
      });
    }
  }
}

function meets(list: Float64Array, at: number, box: Box): boolean {
  return (
    (list[at] as number) <= box[3] &&
    (list[at + 3] as number) >= box[0] &&
    (list[at + 1] as number) <= box[4] &&
    (list[at + 4] as number) >= box[1] &&
    (list[at + 2] as number) <= box[5] &&
    (list[at + 5] as number) >= box[2]
  );
}
