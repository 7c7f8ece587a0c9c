/** The best filling of one stick: a bounded knapsack, by branch and bound. */
import type { Demand } from './stock';

const EPS = 1e-9;

export interface Filling {
  readonly counts: number[];
  readonly worth: number;
  /** No filling is worth more than this: `worth` itself where the search came to its end. */
  readonly ceiling: number;
}

/**
 * How many of each demand to put into `room` so that the sum of `worth` is greatest. Sizes on the grid. `steps` bounds
 * the search: after it the best so far is given.
 */
export function fill(room: number, demands: readonly Demand[], worth: readonly number[], steps: number): Filling {
  const order = demands
    .map((demand, i) => ({ i, size: demand.size, count: demand.count, worth: worth[i] ?? 0 }))
    .filter((item) => item.worth > EPS && item.size <= room)
    .sort((a, b) => b.worth / b.size - a.worth / a.size || b.size - a.size || a.i - b.i);
  const best = demands.map(() => 0);
  const now = order.map(() => 0);
  let bestWorth = 0;
  let left = steps;
  const smallest = order.map(() => 0);
  for (let k = order.length - 1, least = Infinity; k >= 0; k--) {
    least = Math.min(least, order[k]?.size ?? Infinity);
    smallest[k] = least;
  }
  const keep = (): void => {
    best.fill(0);
    order.forEach((item, k) => (best[item.i] = now[k] ?? 0));
  };
  const go = (k: number, free: number, sum: number): void => {
    if (sum > bestWorth + EPS) {
      bestWorth = sum;
      keep();
    }
    const item = order[k];
    if (item === undefined || left <= 0 || free < (smallest[k] ?? 0)) return;
    if (sum + bound(k, free) <= bestWorth + EPS) return;
    left--;
    for (let n = Math.min(item.count, Math.floor(free / item.size)); n >= 0; n--) {
      now[k] = n;
      go(k + 1, free - n * item.size, sum + n * item.worth);
    }
    now[k] = 0;
  };
  /** The worth of filling the rest with fractions of the best that remain. */
  const bound = (from: number, free: number): number => {
    let sum = 0;
    for (let k = from, rest = free; k < order.length && rest > 0; k++) {
      const item = order[k];
      if (item === undefined) break;
      const n = Math.min(item.count, rest / item.size);
      sum += n * item.worth;
      rest -= n * item.size;
    }
    return sum;
  };
  const root = bound(0, room);
  go(0, room, 0);
  return { counts: best, worth: bestWorth, ceiling: left > 0 ? bestWorth + EPS : root };
}
