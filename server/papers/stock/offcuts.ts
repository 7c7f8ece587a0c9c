/**
 * Offcuts cost nothing, so that a cheapest layout may leave them in the rack though pieces fit them, or open more of them
 * than it needs: both are put right here.
 */
import { fill } from './fill';
import type { Demand, Kind, Pattern } from './stock';

/** Steps of filling one offcut. */
const STEPS = 2_000;

interface Open {
  readonly kind: number;
  readonly counts: number[];
  free: number;
}

/** Puts every piece of `from` into what is free in the others, largest first; false, and nothing moved, where one does not fit. */
function emptied(from: Open, others: readonly Open[], demands: readonly Demand[]): boolean {
  const moves: { readonly to: Open; readonly i: number }[] = [];
  const bySize = demands.map((_, i) => i).sort((a, b) => (demands[b]?.size ?? 0) - (demands[a]?.size ?? 0) || a - b);
  for (const i of bySize) {
    const size = demands[i]?.size ?? 0;
    for (let n = from.counts[i] ?? 0; n > 0; n--) {
      const to = others.reduce<Open | null>(
        (best, one) => (one.free >= size && (best === null || one.free < best.free) ? one : best),
        null,
      );
      if (to === null) {
        for (const move of moves) move.to.free += demands[move.i]?.size ?? 0;
        return false;
      }
      to.free -= size;
      moves.push({ to, i });
    }
  }
  for (const { to, i } of moves) to.counts[i] = (to.counts[i] ?? 0) + 1;
  return true;
}

/** Those whose pieces fit into what is free in `into` are left out, the shortest first. */
function closed(
  open: readonly Open[],
  mayClose: (one: Open) => boolean,
  into: (other: Open) => boolean,
  kinds: readonly Kind[],
  demands: readonly Demand[],
): readonly Open[] {
  let left = open;
  for (const one of open.filter(mayClose).sort((a, b) => (kinds[a.kind]?.room ?? 0) - (kinds[b.kind]?.room ?? 0))) {
    const others = left.filter((other) => other !== one);
    if (emptied(one, others.filter(into), demands)) left = others;
  }
  return left;
}

/** Offcuts in the rack that no pattern uses. */
function unused(open: readonly Open[], kinds: readonly Kind[], demands: readonly Demand[]): readonly Open[] {
  return kinds.flatMap(({ count, room }, kind) => {
    const rest = (count ?? 0) - open.filter((one) => one.kind === kind).length;
    return Array.from({ length: rest }, (): Open => ({ kind, counts: demands.map(() => 0), free: room }));
  });
}

/** Takes these pieces off the sticks, from where most is left over already: what stays whole there can be used again. */
function takenOff(sticks: readonly Open[], counts: readonly number[], demands: readonly Demand[]): void {
  counts.forEach((n, i) => {
    for (let k = 0; k < n; k++) {
      const holding = sticks.filter((one) => (one.counts[i] ?? 0) > 0);
      const from = holding.reduce<Open | null>(
        (best, one) => (best === null || one.free > best.free ? one : best),
        null,
      );
      if (from === null) return;
      from.counts[i] = (from.counts[i] ?? 0) - 1;
      from.free += demands[i]?.size ?? 0;
    }
  });
}

/** Fills offcuts with pieces that lie on bought sticks, one offcut after the other: the one that gets fullest first. */
function filled(
  offcuts: readonly Open[],
  bought: readonly Open[],
  kinds: readonly Kind[],
  demands: readonly Demand[],
): void {
  const worth = demands.map(({ size }) => size);
  const waiting = new Set(offcuts);
  while (waiting.size > 0) {
    const rest = demands.map(({ size }, i) => ({
      size,
      count: bought.reduce((sum, { counts }) => sum + (counts[i] ?? 0), 0),
    }));
    const tries = [...waiting].map((one) => ({ one, ...fill(one.free, rest, worth, STEPS) }));
    const share = ({ one, worth: used }: (typeof tries)[number]): number => used / (kinds[one.kind]?.room ?? 1);
    const best = tries.reduce<(typeof tries)[number] | null>(
      (a, b) => (a === null || share(b) > share(a) ? b : a),
      null,
    );
    if (best === null || best.worth === 0) return;
    best.counts.forEach((n, i) => (best.one.counts[i] = (best.one.counts[i] ?? 0) + n));
    best.one.free -= best.worth;
    takenOff(bought, best.counts, demands);
    waiting.delete(best.one);
  }
}

/**
 * The same pieces at the same cost or less, offcuts first: whatever is bought is used as little as can be, so that what is
 * left of it is long. A stick whose pieces fit into the others' waste is left out, and so is an offcut whose pieces fit into
 * that of other offcuts: it stays in the rack.
 */
export function offcutsFirst(
  patterns: readonly Pattern[],
  kinds: readonly Kind[],
  demands: readonly Demand[],
): readonly Pattern[] {
  const isOffcut = ({ kind }: Open): boolean => (kinds[kind]?.count ?? null) !== null;
  const isBought = (one: Open): boolean => !isOffcut(one);
  const open = patterns.map(({ kind, counts }): Open => {
    const used = counts.reduce((sum, n, i) => sum + n * (demands[i]?.size ?? 0), 0);
    return { kind, counts: [...counts], free: (kinds[kind]?.room ?? 0) - used };
  });
  const fewer = closed(open, isBought, () => true, kinds, demands);
  const bought = fewer.filter(isBought);
  const begun = fewer.filter(isOffcut);
  filled(begun, bought, kinds, demands);
  const fresh = unused(begun, kinds, demands);
  filled(fresh, bought, kinds, demands);
  const used = [...begun, ...fresh, ...bought].filter(({ counts }) => counts.some((n) => n > 0));
  return closed(used, isOffcut, isOffcut, kinds, demands).map(({ kind, counts }) => ({ kind, counts }));
}
