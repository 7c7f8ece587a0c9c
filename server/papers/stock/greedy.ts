/** Layouts by rule of thumb: the first answers, and the yardstick that the solver never falls behind. */
import { fill } from './fill';
import type { Demand, Kind, Pattern } from './stock';

const STEPS = 5_000;

/** The order in which kinds are taken: what costs nothing first, the smaller before the larger. */
const byUse = (kinds: readonly Kind[]): number[] =>
  kinds
    .map((_, i) => i)
    .sort((a, b) => {
      const [x, y] = [kinds[a], kinds[b]];
      if (x === undefined || y === undefined) return 0;
      return (
        Number(x.count === null) - Number(y.count === null) || x.cost / x.room - y.cost / y.room || x.room - y.room
      );
    });

const spread = (demands: readonly Demand[]): number[] =>
  demands
    .flatMap((demand, i) => Array.from({ length: demand.count }, () => i))
    .sort((a, b) => (demands[b]?.size ?? 0) - (demands[a]?.size ?? 0) || a - b);

interface Open {
  readonly kind: number;
  readonly counts: number[];
  free: number;
}

/**
 * First fit decreasing: each piece, the longest first, into the first open stick that has room; a new stick is an offcut
 * that has room, else the sold length that costs least for its length. A piece that fits into none is left out.
 */
export function firstFit(kinds: readonly Kind[], demands: readonly Demand[]): Pattern[] {
  const open: Open[] = [];
  const used = kinds.map(() => 0);
  for (const i of spread(demands)) {
    const size = demands[i]?.size ?? 0;
    let stick = open.find(({ free }) => free >= size);
    if (stick === undefined) {
      const kind = byUse(kinds).find((k) => {
        const { room = 0, count = 0 } = kinds[k] ?? {};
        return room >= size && (count === null || (used[k] ?? 0) < count);
      });
      if (kind === undefined) continue;
      used[kind] = (used[kind] ?? 0) + 1;
      stick = { kind, counts: demands.map(() => 0), free: kinds[kind]?.room ?? 0 };
      open.push(stick);
    }
    stick.counts[i] = (stick.counts[i] ?? 0) + 1;
    stick.free -= size;
  }
  return open.map(({ kind, counts }) => ({ kind, counts }));
}

/**
 * Stick by stick, each filled with what is worth most to the left over; the offcuts first. `worth`: of one piece of each
 * demand; lengths themselves make the sticks as full as they go.
 */
export function fullest(kinds: readonly Kind[], demands: readonly Demand[], worth: readonly number[]): Pattern[] {
  const left = demands.map(({ count }) => count);
  const used = kinds.map(() => 0);
  const patterns: Pattern[] = [];
  for (;;) {
    const rest = demands.map((demand, i) => ({ size: demand.size, count: left[i] ?? 0 }));
    if (rest.every(({ count }) => count === 0)) return patterns;
    const open = byUse(kinds).filter((k) => kinds[k]?.count === null || (used[k] ?? 0) < (kinds[k]?.count ?? 0));
    const filled = open
      .map((kind) => ({ kind, ...fill(kinds[kind]?.room ?? 0, rest, worth, STEPS) }))
      .filter(({ counts }) => counts.some((n) => n > 0));
    const next = filled[0];
    if (next === undefined) return patterns;
    const best = filled
      .filter(({ kind }) => kinds[kind]?.count === kinds[next.kind]?.count)
      .reduce((a, b) => (share(kinds, b) > share(kinds, a) + SAME ? b : a), next);
    best.counts.forEach((n, i) => (left[i] = (left[i] ?? 0) - n));
    used[best.kind] = (used[best.kind] ?? 0) + 1;
    patterns.push({ kind: best.kind, counts: best.counts });
  }
}

const SAME = 1e-12;

/** Lengths as worths: the longest pieces are the hardest to place, so they count a little more. */
export function lengthsAsWorth(demands: readonly Demand[]): number[] {
  const longest = Math.max(1, ...demands.map(({ size }) => size));
  return demands.map(({ size }) => (size / longest) * (1 + size / (1000 * longest)));
}

/** What a stick holds for one step of its cost, or for one of its room where it costs nothing. */
function share(kinds: readonly Kind[], { kind, worth }: { readonly kind: number; readonly worth: number }): number {
  const { room = 1, cost = 0 } = kinds[kind] ?? {};
  return worth / (cost === 0 ? room : cost);
}
