/**
 * Pieces laid out on sticks so that what is bought costs least, or is fewest where prices are not known; offcuts first.
 * Patterns and a lower bound come from column generation, the whole numbers from an integer program over the patterns.
 */
import { solve } from 'yalps';
import { boundBySize, columnsFor, costOf, covers } from './columns';
import { firstFit, fullest, lengthsAsWorth } from './greedy';
import { offcutsFirst } from './offcuts';
import { targeted } from './target';
import type { Demand, Kind, Layout, Pattern, Piece, Stick, Supply } from './stock';
import { gridDown, gridUp } from './stock';

/** Cost is counted in hundredths of the currency. */
const PER_UNIT = 100;
/**
 * How far the integer program may search, in cells of its table times branches: it stops there with what it has, the same
 * on every machine.
 */
const EFFORT = 1e6;
/** Sticks that are filled to meet the cheapest choices of sticks: before the search for patterns, and after it. */
const GLANCE = 1_500;
const AIM = 25_000;

/** How far `Layout.bound` counts: the cost where every price is known, else the number of sticks. */
const priced = ({ sold }: Supply): boolean => sold.every(({ price }) => price !== null);

function kindsOf(supply: Supply): readonly Kind[] {
  const kerf = gridUp(supply.kerf);
  const byPrice = priced(supply);
  const have = [...supply.have].sort((a, b) => a - b);
  return [
    ...[...new Set(have)].map((length) => ({
      length,
      room: gridDown(length) + kerf,
      cost: 0,
      price: null,
      count: have.filter((one) => one === length).length,
    })),
    ...supply.sold.map(({ length, price }) => ({
      length,
      room: gridDown(length) + kerf,
      cost: byPrice && price !== null ? Math.round(price * PER_UNIT) : 1,
      price,
      count: null,
    })),
  ];
}

interface Group {
  readonly pieces: readonly Piece[];
  readonly size: number;
}

/** Pieces of one length together, the longest first; names in order. */
function groupsOf(pieces: readonly Piece[], kerf: number): readonly Group[] {
  const groups = new Map<number, Piece[]>();
  for (const piece of pieces) {
    const size = gridUp(piece.length) + kerf;
    const group = groups.get(size);
    if (group === undefined) groups.set(size, [piece]);
    else group.push(piece);
  }
  return [...groups]
    .sort(([a], [b]) => b - a)
    .map(([size, list]) => ({ size, pieces: [...list].sort((a, b) => (a.name < b.name ? -1 : 1)) }));
}

/** The cheapest choice of whole patterns; null where the program finds none in its steps. */
function chosen(patterns: readonly Pattern[], kinds: readonly Kind[], demands: readonly Demand[]): Pattern[] | null {
  const solution = solve(
    {
      direction: 'minimize',
      objective: 'cost',
      constraints: [
        ...demands.map(({ count }, i): [string, { min: number }] => [`d${String(i)}`, { min: count }]),
        ...kinds.flatMap(({ count }, k): [string, { max: number }][] =>
          count === null ? [] : [[`k${String(k)}`, { max: count }]],
        ),
      ],
      variables: patterns.map(({ kind, counts }, j): [string, [string, number][]] => [
        String(j),
        [
          ['cost', kinds[kind]?.cost ?? 0],
          [`k${String(kind)}`, 1],
          ...counts.flatMap((n, i): [string, number][] => (n > 0 ? [[`d${String(i)}`, n]] : [])),
        ],
      ]),
      integers: true,
    },
    { maxIterations: Math.ceil(EFFORT / (patterns.length * (demands.length + kinds.length))), timeout: Infinity },
  );
  if (solution.status !== 'optimal' && solution.status !== 'timedout') return null;
  const found = solution.variables.flatMap(([j, n]) => {
    const pattern = patterns[Number(j)];
    return pattern === undefined ? [] : Array.from({ length: Math.round(n) }, () => pattern);
  });
  return covers(found, demands) ? found : null;
}

/** Lays `pieces` out on what can be bought and what is at hand. Never more than first fit decreasing would buy. */
export function layOut(pieces: readonly Piece[], supply: Supply): Layout {
  const kinds = kindsOf(supply);
  const { groups, left } = placeable(groupsOf(pieces, gridUp(supply.kerf)), kinds);
  const demands = groups.map(demandOf);
  const rough: readonly (readonly Pattern[])[] = [
    firstFit(kinds, demands),
    fullest(kinds, demands, lengthsAsWorth(demands)),
    // One sold length alone: what is cheapest by the length need not be where few pieces are left.
    ...kinds.flatMap(({ count }, only) =>
      count !== null
        ? []
        : [
            fullest(
              kinds.map((kind, k) => (kind.count === null && k !== only ? { ...kind, count: 0 } : kind)),
              demands,
              lengthsAsWorth(demands),
            ),
          ],
    ),
  ];
  const aim = (bound: number, below: number, effort: number): readonly Pattern[] | null =>
    below <= bound ? null : targeted(kinds, demands, bound, below, effort);
  const glance = aim(boundBySize(kinds, demands), costOf(rough[0] ?? [], kinds), GLANCE);
  const search = columnsFor(kinds, demands, glance === null ? rough : [...rough, glance], (bound, below) =>
    aim(bound, below, AIM),
  );
  let { best } = search;
  if (costOf(best, kinds) > search.bound) {
    const whole = chosen(search.patterns, kinds, demands);
    if (whole !== null && costOf(whole, kinds) < costOf(best, kinds)) best = whole;
  }
  const sticks = sticksOf(offcutsFirst(exact(best, demands), kinds, demands), kinds, groups, supply);
  return {
    sticks,
    tooLong: left,
    ...billOf(sticks, supply),
    bound: priced(supply) ? search.bound / PER_UNIT : search.bound,
    proven: costOf(best, kinds) <= search.bound,
  };
}

/** Without the pieces that patterns have too many of. */
function exact(patterns: readonly Pattern[], demands: readonly Demand[]): readonly Pattern[] {
  const left = demands.map(({ count }) => count);
  return patterns.map(({ kind, counts }) => ({
    kind,
    counts: counts.map((n, i) => {
      const taken = Math.min(n, left[i] ?? 0);
      left[i] = (left[i] ?? 0) - taken;
      return taken;
    }),
  }));
}

const demandOf = ({ size, pieces }: Group): Demand => ({ size, count: pieces.length });

/** What fits: pieces that first fit leaves over are longer than every stick that is sold, and than the offcuts still free. */
function placeable(
  groups: readonly Group[],
  kinds: readonly Kind[],
): { readonly groups: readonly Group[]; readonly left: readonly Piece[] } {
  const placed = firstFit(kinds, groups.map(demandOf));
  const counts = groups.map((_, i) => placed.reduce((sum, pattern) => sum + (pattern.counts[i] ?? 0), 0));
  return {
    groups: groups.flatMap(({ size, pieces }, i) => {
      const some = pieces.slice(0, counts[i]);
      return some.length === 0 ? [] : [{ size, pieces: some }];
    }),
    left: groups.flatMap(({ pieces }, i) => pieces.slice(counts[i])),
  };
}

function billOf(sticks: readonly Stick[], supply: Supply): Pick<Layout, 'cost' | 'bought'> {
  const bought = sticks.filter((stick) => stick.bought);
  return {
    bought: bought.length,
    cost: priced(supply)
      ? Math.round(bought.reduce((sum, { price }) => sum + (price ?? 0), 0) * PER_UNIT) / PER_UNIT
      : null,
  };
}

/** Names onto patterns; a stick is as short as its pieces allow. */
function sticksOf(
  patterns: readonly Pattern[],
  kinds: readonly Kind[],
  groups: readonly Group[],
  supply: Supply,
): readonly Stick[] {
  const waiting = groups.map(({ pieces }) => [...pieces]);
  const sticks = patterns.flatMap(({ kind, counts }): Stick[] => {
    const pieces = counts.flatMap((n, i) => waiting[i]?.splice(0, n) ?? []);
    const of = kinds[kind];
    if (of === undefined || pieces.length === 0) return [];
    const bought = of.count === null;
    const cut = pieces.reduce((sum, { length }) => sum + length, 0);
    const kerfs = supply.kerf * pieces.length;
    const size = pieces.reduce((sum, { length }) => sum + gridUp(length) + gridUp(supply.kerf), 0);
    const taken = bought ? shortest(kinds, size, of) : of;
    return [
      { length: taken.length, bought, price: taken.price, pieces, rest: Math.max(0, taken.length - cut - kerfs) },
    ];
  });
  return sticks.sort(
    (a, b) => Number(a.bought) - Number(b.bought) || b.length - a.length || a.rest - b.rest || byFirst(a, b),
  );
}

const byFirst = (a: Stick, b: Stick): number => ((a.pieces[0]?.name ?? '') < (b.pieces[0]?.name ?? '') ? -1 : 1);

/** The sold stick that holds these pieces and costs no more: the shortest. */
const shortest = (kinds: readonly Kind[], size: number, taken: Kind): Kind =>
  kinds
    .filter(({ count, room, cost }) => count === null && room >= size && cost <= taken.cost)
    .reduce(
      (best, one) => (one.cost < best.cost || (one.cost === best.cost && one.length < best.length) ? one : best),
      taken,
    );
