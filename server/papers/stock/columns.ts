/**
 * The linear relaxation of the cutting-stock problem by column generation (Gilmore and Gomory, A Linear Programming
 * Approach to the Cutting-Stock Problem, Operations Research 9, 1961): patterns are found when they are worth it, and the
 * prices that the dual gives to pieces prove a lower bound.
 */
import { solve, type Coefficients } from 'yalps';
import { corrected } from './correct';
import { fill } from './fill';
import { fullest } from './greedy';
import { reached } from './reach';
import type { Demand, Kind, Pattern } from './stock';
import { PER_MM } from './stock';

const EPS = 1e-7;
const ROUNDS = 300;
const STEPS = 20_000;
/** Cells of all programs together: the search for patterns ends there, the same on every machine. */
const WORK = 7e5;

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

export interface Search {
  readonly patterns: readonly Pattern[];
  /** No layout costs less, in steps of cost. */
  readonly bound: number;
  /** The cheapest whole layout that was met on the way. */
  readonly best: readonly Pattern[];
}

export const costOf = (patterns: readonly Pattern[], kinds: readonly Kind[]): number =>
  patterns.reduce((sum, { kind }) => sum + (kinds[kind]?.cost ?? 0), 0);

/**
 * Patterns worth having, a bound that no layout is below, and the best layout met on the way. `start` are whole layouts.
 * The bound is made from prices that are feasible by themselves, so that it holds whatever the solver's rounding; it is
 * rounded up to what the prices of sticks allow. The search stops once a layout reaches it. `aim`: looks for a layout
 * between the bound and the best cost met.
 */
export function columnsFor(
  kinds: readonly Kind[],
  demands: readonly Demand[],
  start: readonly (readonly Pattern[])[],
  aim: (bound: number, below: number) => readonly Pattern[] | null = () => null,
): Search {
  const known = new Map<string, Pattern>();
  let best: readonly Pattern[] = start[0] ?? [];
  const meet = (layout: readonly Pattern[]): boolean => {
    const before = known.size;
    for (const pattern of layout) known.set(keyOf(pattern), pattern);
    if (covers(layout, demands) && costOf(layout, kinds) < costOf(best, kinds)) best = layout;
    return known.size > before;
  };
  start.forEach(meet);
  let last: readonly number[] = [];
  let bound = boundBySize(kinds, demands);
  const spare: Pattern[] = [];
  let work = 0;
  for (let round = 0; round < ROUNDS && work < WORK && costOf(best, kinds) > bound; round++) {
    work += known.size * (demands.length + kinds.length);
    const prices = pricesOf([...known.values()], kinds, demands);
    if (prices === null) break;
    last = prices.pieces;
    if (known.size > CROWDED * (demands.length + kinds.length)) forget(known, kinds, prices);
    const fillings = kinds.map(({ room }) => fill(room, demands, prices.pieces, STEPS));
    const ceilings = fillings.map(({ ceiling }) => ceiling);
    bound = Math.max(bound, roundedUp(boundOf(kinds, demands, { pieces: prices.pieces, ceilings }), kinds, demands));
    const better = fillings.flatMap(({ counts, worth }, kind) =>
      worth <= (kinds[kind]?.cost ?? 0) + (prices.sticks[kind] ?? 0) + EPS ? [] : [{ kind, counts }],
    );
    // The best of every kind is kept for the whole numbers, also where the fractions have no use for it.
    spare.push(...fillings.map(({ counts }, kind) => ({ kind, counts })));
    const grown = better.map((pattern) => meet([pattern])).some(Boolean);
    // A whole layout at these prices: many patterns at once, and now and then a better answer.
    meet(
      fullest(
        kinds,
        demands,
        prices.pieces.map((price, i) => price + SHADE * (demands[i]?.size ?? 0)),
      ),
    );
    if (!grown) break;
  }
  for (const pattern of spare.slice(-SPARE * kinds.length)) known.set(keyOf(pattern), pattern);
  if (costOf(best, kinds) > bound) meet(aim(bound, costOf(best, kinds)) ?? []);
  if (costOf(best, kinds) > bound)
    corrected(
      kinds,
      demands,
      last.map((price, i) => price + SHADE * (demands[i]?.size ?? 0)),
      (layout) => {
        if (costOf(layout, kinds) < costOf(best, kinds)) meet(layout);
        return costOf(best, kinds) <= bound;
      },
    );
  return { patterns: [...known.values()], bound, best };
}

/** More patterns than so many for each row make the program slow: those far from worth it are let go. */
const CROWDED = 3;
const FAR = 0.01;
/** So many rounds' best patterns of every kind are kept for the whole numbers. */
const SPARE = 10;

/** Lets go of patterns that cost more than their pieces are worth, by more than a share of a stick. */
function forget(known: Map<string, Pattern>, kinds: readonly Kind[], { pieces, sticks }: Prices): void {
  const far = FAR * Math.max(...kinds.map(({ cost }) => cost));
  for (const [key, { kind, counts }] of known) {
    const worth = counts.reduce((sum, n, i) => sum + n * (pieces[i] ?? 0), 0);
    if ((kinds[kind]?.cost ?? 0) + (sticks[kind] ?? 0) - worth > far) known.delete(key);
  }
}

/** Room is filled even with pieces that are worth nothing, but never in place of one that is: for each step of length. */
const SHADE = 1e-8 / PER_MM;

export const covers = (patterns: readonly Pattern[], demands: readonly Demand[]): boolean =>
  demands.every(({ count }, i) => patterns.reduce((sum, { counts }) => sum + (counts[i] ?? 0), 0) >= count);

const ROUNDING = 1e-6;
const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/** Up to the next cost that whole sticks can have; where those are too many to count, to the next step of the prices. */
function roundedUp(bound: number, kinds: readonly Kind[], demands: readonly Demand[]): number {
  const step = kinds.map(({ cost }) => cost).reduce(gcd, 0);
  if (step === 0) return 0;
  const stepped = Math.max(0, Math.ceil(bound / step - ROUNDING) * step);
  return reached(stepped, kinds, demands) ?? stepped;
}

/** What whole sticks cost at least whose room holds the sum of all pieces. */
export const boundBySize = (kinds: readonly Kind[], demands: readonly Demand[]): number =>
  roundedUp(boundOf(kinds, demands, bySize(kinds, demands)), kinds, demands);

interface Held {
  readonly pieces: readonly number[];
  /** What a stick of each kind can hold at most, at these prices. */
  readonly ceilings: readonly number[];
}

/** Every millimetre at the price of the cheapest stick's. */
function bySize(kinds: readonly Kind[], demands: readonly Demand[]): Held {
  const rate = Math.min(...kinds.filter(({ count }) => count === null).map(({ cost, room }) => cost / room));
  const per = Number.isFinite(rate) ? rate : 0;
  return { pieces: demands.map(({ size }) => size * per), ceilings: kinds.map(({ room }) => room * per) };
}

/**
 * The worth of all pieces at these prices, after they are scaled down and the sticks' prices up until no stick holds more
 * than it costs: a lower bound by the duality of linear programs.
 */
function boundOf(kinds: readonly Kind[], demands: readonly Demand[], { pieces, ceilings }: Held): number {
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
