/**
 * Layouts at prices that learn: a piece that was left with waste beside it counts more the next time (sequential value
 * correction; Mukhacheva, Belov and others, European Journal of Operational Research 123, 2000, from memory). It finds
 * good whole layouts quickly, and proves nothing.
 */
import { fullest } from './greedy';
import type { Demand, Kind, Pattern } from './stock';

/** Longer pieces are harder to place: their worth grows a little faster than their length. */
const POWER = 1.04;
/** So much of the old worth is kept. */
const KEPT = [0.5, 0.75, 0.25] as const;
/** Sticks that are filled in all; no more layouts than {@link MOST}. */
const EFFORT = 3000;
const MOST = 300;

/**
 * Layouts one after the other, until `enough` says so or the effort is spent: the same on every machine. `start`: what
 * one piece of each demand is worth at first.
 */
export function corrected(
  kinds: readonly Kind[],
  demands: readonly Demand[],
  start: readonly number[],
  enough: (layout: readonly Pattern[]) => boolean,
): void {
  const sold = kinds.filter(({ count, cost }) => count === null && cost > 0);
  const rate = Math.min(...sold.map(({ cost, room }) => cost / room));
  if (!Number.isFinite(rate)) return;
  const worth = demands.map(({ size }, i) => (start[i] ?? 0) || size * rate);
  let spent = 0;
  for (let round = 0; round < MOST && spent < EFFORT; round++) {
    const layout = fullest(kinds, demands, worth);
    spent += layout.length;
    if (layout.length === 0 || enough(layout)) return;
    const kept = KEPT[round % KEPT.length] ?? KEPT[0];
    for (const { kind, counts } of layout) {
      const { cost = 0, room = 0 } = kinds[kind] ?? {};
      const used = counts.reduce((sum, n, i) => sum + n * (demands[i]?.size ?? 0), 0);
      if (used === 0) continue;
      // An offcut costs nothing, but its waste is waste.
      const per = (cost > 0 ? cost : room * rate) / used;
      counts.forEach((n, i) => {
        const { size = 0, count = 1 } = demands[i] ?? {};
        if (n === 0) return;
        const share = ((1 - kept) * n) / count;
        worth[i] = (1 - share) * (worth[i] ?? 0) + share * per * (size / room) ** POWER * room;
      });
    }
  }
}
