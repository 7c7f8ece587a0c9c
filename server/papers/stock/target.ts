/**
 * From the cheapest choices of sticks upward: whether the pieces go into just these. Whole sticks of a few lengths have few
 * costs, and where pieces are many their sums are dense enough to fill sticks to the last tenth of a millimetre: then the
 * cheapest choice whose room is enough can often be met. It finds layouts, and proves nothing by itself.
 */
import { fill } from './fill';
import type { Demand, Kind, Pattern } from './stock';

/** Choices that are looked at, and steps in counting them. */
const CHOICES = 60;
const COUNTING = 200_000;
/** Steps of one filling. */
const STEPS = 4_000;
/** Every choice is tried so often, then, from the cheapest on, so often again. */
const SWEEPS = [4, 60, 4000] as const;
/** How much more a long piece is worth than its length says: long pieces first, in several measures. */
const POWERS = [1.06, 1.02, 1.12, 1.2] as const;
/** After the first sweep worths are stirred by up to so much. */
const STIRRED = 0.2;

/** Figures from 0 to 1 without chance (linear congruence, Numerical Recipes): the same on every machine. */
function row(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 1664525 + 1013904223) % 2 ** 32) / 2 ** 32;
}

/** So many sticks of each kind that is sold. */
interface Choice {
  readonly counts: readonly number[];
  readonly cost: number;
  /** Room beyond what the pieces need, all offcuts used. */
  readonly slack: number;
}

/** Choices of at least `bound` and less than `below`, whose room is enough: the cheapest first, of equals the roomiest. */
function choicesOf(kinds: readonly Kind[], need: number, bound: number, below: number): readonly Choice[] {
  const sold = kinds.map((kind, k) => ({ ...kind, k })).filter(({ count, cost }) => count === null && cost > 0);
  const found: Choice[] = [];
  const counts = kinds.map(() => 0);
  let left = COUNTING;
  const go = (at: number, cost: number, room: number): void => {
    const kind = sold[at];
    if (left-- <= 0) return;
    if (kind === undefined) {
      if (cost >= bound && room >= need) found.push({ counts: [...counts], cost, slack: room - need });
      return;
    }
    for (let n = 0; cost + n * kind.cost < below && left > 0; n++) {
      counts[kind.k] = n;
      go(at + 1, cost + n * kind.cost, room + n * kind.room);
    }
    counts[kind.k] = 0;
  };
  go(0, 0, 0);
  return found.sort((a, b) => a.cost - b.cost || b.slack - a.slack).slice(0, CHOICES);
}

/** What a piece of each demand is worth in one try. */
function worthOf(demands: readonly Demand[], turn: number): readonly number[] {
  const longest = Math.max(1, ...demands.map(({ size }) => size));
  const next = row(turn);
  const stir = turn < SWEEPS[0] ? 0 : STIRRED * next();
  const power = turn < SWEEPS[0] ? (POWERS[turn] ?? POWERS[0]) : 1 + 0.5 * next() ** 2;
  return demands.map(({ size }) => (size / longest) ** power * (1 + stir * next()));
}

/** Fills these sticks one after the other; null as soon as more is wasted than there is to waste. */
function packed(
  sticks: readonly number[],
  kinds: readonly Kind[],
  demands: readonly Demand[],
  slack: number,
  worth: readonly number[],
): { readonly layout: readonly Pattern[] | null; readonly filled: number } {
  const left = demands.map(({ count }) => count);
  const layout: Pattern[] = [];
  let waste = 0;
  for (const [i, kind] of sticks.entries()) {
    const room = kinds[kind]?.room ?? 0;
    const rest = demands.map(({ size }, d) => ({ size, count: left[d] ?? 0 }));
    const { counts } = fill(room, rest, worth, STEPS);
    waste += room - counts.reduce((sum, n, d) => sum + n * (demands[d]?.size ?? 0), 0);
    if (waste > slack) return { layout: null, filled: i + 1 };
    counts.forEach((n, d) => (left[d] = (left[d] ?? 0) - n));
    layout.push({ kind, counts });
  }
  return { layout: left.every((n) => n === 0) ? layout : null, filled: sticks.length };
}

/**
 * The cheapest layout that is met below `below`, none cheaper than `bound` being possible; null: none. `effort`: so many
 * sticks are filled in all, the same on every machine.
 */
export function targeted(
  kinds: readonly Kind[],
  demands: readonly Demand[],
  bound: number,
  below: number,
  effort: number,
): readonly Pattern[] | null {
  const offcuts = kinds.flatMap(({ count }, k) => Array.from({ length: count ?? 0 }, () => k));
  const free = offcuts.reduce((sum, k) => sum + (kinds[k]?.room ?? 0), 0);
  const need = demands.reduce((sum, { size, count }) => sum + size * count, 0) - free;
  const choices = choicesOf(kinds, need, bound, below);
  let spent = 0;
  let best: readonly Pattern[] | null = null;
  let limit = below;
  for (const [sweep, tries] of SWEEPS.entries()) {
    const first = sweep === 0 ? 0 : (SWEEPS[sweep - 1] ?? 0);
    for (const { counts, slack, cost } of choices) {
      if (cost >= limit) break;
      const sold = counts
        .flatMap((n, k) => Array.from({ length: n }, () => k))
        .sort((a, b) => (kinds[b]?.room ?? 0) - (kinds[a]?.room ?? 0));
      for (let turn = first; turn < tries && cost < limit; turn++) {
        if (spent >= effort) return best;
        const { layout, filled } = packed([...offcuts, ...sold], kinds, demands, slack, worthOf(demands, turn));
        spent += filled;
        if (layout !== null) [best, limit] = [layout, cost];
      }
    }
  }
  return best;
}
