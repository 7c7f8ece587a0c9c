/**
 * The linear relaxation of the cutting-stock problem by column generation (Gilmore and Gomory, A Linear Programming
 * Approach to the Cutting-Stock Problem, Operations Research 9, 1961): patterns are found when they are worth it, and the
 * prices that the dual gives to pieces prove a lower bound.
 */
import { solve, type Coefficients } from 'yalps';
import { fill } from './fill';
import type { Demand, Kind, Pattern } from './stock';

const EPS = 1e-7;
const ROUNDS = 400;
const STEPS = 200_000;

const keyOf = ({ kind, counts }: Pattern): string => `${String(kind)}:${counts.join(',')}`;

interface Prices {
  /** What one piece of each demand is worth. */
  readonly pieces: number[];
  /** What one more stick of each kind would be worth; 0 where as many as wanted can be had. */
  readonly sticks: number[];
}

/** The dual of the relaxation over the patterns known so far. */
function pricesOf(patterns: readonly Pattern[], kinds: readonly Kind[], demands: readonly Demand[]): Prices | null {
  const constraints = new Map<string, { max: number }>();
  const rows = [...demands.map(() => [] as [string, number][]), ...kinds.map(() => [] as [string, number][])];
  patterns.forEach(({ kind, counts }, j) => {
    const row = `p${String(j)}`;
    constraints.set(row, { max: kinds[kind]?.cost ?? 0 });
    counts.forEach((n, i) => {
      if (n > 0) rows[i]?.push([row, n]);
    });
    if (kinds[kind]?.count !== null) rows[demands.length + kind]?.push([row, -1]);
  });
  const variables: [string, Coefficients][] = [
    ...demands.map(({ count }, i): [string, Coefficients] => [`y${String(i)}`, [['sum', count], ...(rows[i] ?? [])]]),
    ...kinds.flatMap(({ count }, k): [string, Coefficients][] =>
      count === null ? [] : [[`u${String(k)}`, [['sum', -count], ...(rows[demands.length + k] ?? [])]]],
    ),
  ];
  const solution = solve({ direction: 'maximize', objective: 'sum', constraints, variables });
  if (solution.status !== 'optimal') return null;
  const worth = new Map(solution.variables);
  return {
    pieces: demands.map((_, i) => worth.get(`y${String(i)}`) ?? 0),
    sticks: kinds.map((_, k) => worth.get(`u${String(k)}`) ?? 0),
  };
}

/**
 * Patterns worth having, and a bound that no layout is below (in steps of cost). `start` has to cover every demand.
 * The bound is made from prices that are feasible by themselves, so that it holds whatever the solver's rounding.
 */
export function columnsFor(
  kinds: readonly Kind[],
  demands: readonly Demand[],
  start: readonly Pattern[],
): { readonly patterns: readonly Pattern[]; readonly bound: number } {
  const known = new Map(start.map((pattern) => [keyOf(pattern), pattern]));
  let bound = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const prices = pricesOf([...known.values()], kinds, demands);
    if (prices === null) break;
    const fillings = kinds.map(({ room }) => fill(room, demands, prices.pieces, STEPS));
    bound = Math.max(
      bound,
      boundOf(
        kinds,
        demands,
        prices,
        fillings.map(({ ceiling }) => ceiling),
      ),
    );
    let grown = false;
    fillings.forEach(({ counts, worth }, kind) => {
      if (worth <= (kinds[kind]?.cost ?? 0) + (prices.sticks[kind] ?? 0) + EPS) return;
      const pattern = { kind, counts };
      if (known.has(keyOf(pattern))) return;
      known.set(keyOf(pattern), pattern);
      grown = true;
    });
    if (!grown) break;
  }
  return { patterns: [...known.values()], bound };
}

/**
 * The worth of all pieces at these prices, after they are scaled down and the sticks' prices up until no stick holds more
 * than it costs: a lower bound by the duality of linear programs.
 */
function boundOf(
  kinds: readonly Kind[],
  demands: readonly Demand[],
  { pieces }: Prices,
  ceilings: readonly number[],
): number {
  let scale = 1;
  kinds.forEach(({ cost, count }, k) => {
    const held = ceilings[k] ?? 0;
    if (count === null && held > cost) scale = Math.min(scale, cost / held);
  });
  let sum = 0;
  demands.forEach(({ count }, i) => (sum += count * (pieces[i] ?? 0) * scale));
  kinds.forEach(({ cost, count }, k) => {
    if (count === null) return;
    const held = (ceilings[k] ?? 0) * scale;
    sum -= count * Math.max(0, held - cost);
  });
  return sum;
}
