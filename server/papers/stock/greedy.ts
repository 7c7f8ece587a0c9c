/** Layouts by rule of thumb: the first answers, and the yardstick that the solver never falls behind. */
import { fill } from './fill';
import type { Demand, Kind, Pattern } from './stock';

const STEPS = 20_000;

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

/** Stick by stick, each filled as full as it goes with what is left; the offcuts first. */
export function fullest(kinds: readonly Kind[], demands: readonly Demand[]): Pattern[] {
  const left = demands.map(({ count }) => count);
  const used = kinds.map(() => 0);
  const patterns: Pattern[] = [];
  for (;;) {
    const rest = demands.map((demand, i) => ({ size: demand.size, count: left[i] ?? 0 }));
    const longest = Math.max(0, ...rest.filter(({ count }) => count > 0).map(({ size }) => size));
    if (longest === 0) return patterns;
    const open = byUse(kinds).filter((k) => kinds[k]?.count === null || (used[k] ?? 0) < (kinds[k]?.count ?? 0));
    const filled = open.map((kind) => ({
      kind,
      // The longest pieces are the hardest to place: they count a little more than their length.
      ...fill(
        kinds[kind]?.room ?? 0,
        rest,
        rest.map(({ size }) => size * (1 + size / (1000 * longest))),
        STEPS,
      ),
    }));
    const next = filled.find(({ worth }) => worth > 0);
    if (next === undefined) return patterns;
    const best = filled
      .filter(({ kind, worth }) => worth > 0 && kinds[kind]?.count === kinds[next.kind]?.count)
      .reduce((a, b) => (share(kinds, b, rest) > share(kinds, a, rest) + 1e-12 ? b : a), next);
    best.counts.forEach((n, i) => (left[i] = (left[i] ?? 0) - n));
    used[best.kind] = (used[best.kind] ?? 0) + 1;
    patterns.push({ kind: best.kind, counts: best.counts });
  }
}

/** Millimetres of pieces for one step of cost, or for one of room where the stick costs nothing. */
function share(
  kinds: readonly Kind[],
  { kind, counts }: { readonly kind: number; readonly counts: readonly number[] },
  demands: readonly Demand[],
): number {
  const { room = 1, cost = 0 } = kinds[kind] ?? {};
  const size = counts.reduce((sum, n, i) => sum + n * (demands[i]?.size ?? 0), 0);
  return size / (cost === 0 ? room : cost);
}
