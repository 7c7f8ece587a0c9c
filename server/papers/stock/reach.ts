/** Which costs there can be at all: sticks are whole, and together they must be long enough. */
import type { Demand, Kind } from './stock';

const ROUNDING = 1e-6;
const STEPS = 20_000;

/**
 * The least cost of whole sticks that is not below `bound`, and whose room, with all offcuts, holds the sum of the pieces.
 * No layout costs less, where none costs less than `bound`. Null: too many ways to count in bounded work.
 */
export function reached(bound: number, kinds: readonly Kind[], demands: readonly Demand[]): number | null {
  const sold = kinds.filter(({ count, cost, room }) => count === null && cost > 0 && room > 0);
  const free = kinds.reduce((sum, { count, room }) => sum + (count ?? 0) * room, 0);
  const need = demands.reduce((sum, { size, count }) => sum + size * count, 0) - free;
  const last = sold[sold.length - 1];
  if (last === undefined) return null;
  let best = Infinity;
  let left = STEPS;
  const go = (k: number, cost: number, room: number): void => {
    if (left-- <= 0 || cost >= best) return;
    const kind = sold[k];
    if (kind === undefined) return;
    if (kind === last) {
      const more = Math.max(0, Math.ceil((need - room) / last.room), Math.ceil((bound - cost) / last.cost - ROUNDING));
      best = Math.min(best, cost + more * last.cost);
      return;
    }
    for (let n = 0; left > 0; n++) {
      const [paid, held] = [cost + n * kind.cost, room + n * kind.room];
      if (paid >= best) return;
      go(k + 1, paid, held);
      if (held >= need && paid >= bound - ROUNDING) return;
    }
  };
  go(0, 0, 0);
  return left > 0 && Number.isFinite(best) ? best : null;
}
