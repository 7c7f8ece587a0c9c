/** Offcuts cost nothing, so that a cheapest layout may open more of them than it needs: those are closed again. */
import type { Demand, Kind, Pattern } from './stock';

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

/** The same pieces at the same cost or less: sticks whose pieces fit into the others' waste are left out, the shortest first. */
export function fewerSticks(
  patterns: readonly Pattern[],
  kinds: readonly Kind[],
  demands: readonly Demand[],
): readonly Pattern[] {
  let open = patterns.map(({ kind, counts }): Open => {
    const used = counts.reduce((sum, n, i) => sum + n * (demands[i]?.size ?? 0), 0);
    return { kind, counts: [...counts], free: (kinds[kind]?.room ?? 0) - used };
  });
  const shortest = [...open].sort((a, b) => (kinds[a.kind]?.room ?? 0) - (kinds[b.kind]?.room ?? 0));
  for (const one of shortest) {
    const others = open.filter((other) => other !== one);
    if (emptied(one, others, demands)) open = others;
  }
  return open.map(({ kind, counts }) => ({ kind, counts }));
}
