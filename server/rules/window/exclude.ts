/**
 * Why there is no window: the demands that leave no place for the bar together. In a plane any few convex demands that
 * have no common place have three, two or one that have none (Helly 1923); so it is looked for one, then two, then three.
 */
import type { Demand, Level } from './demands';
import type { Choice, Field, Point } from './field';
import { search } from './search';

export interface Exclusion {
  /** One: it is met nowhere in the searched box. Two or three: each is met somewhere, all together nowhere. */
  readonly demands: readonly Demand[];
  /** Where they come closest to leaving a place, and what each measures there. */
  readonly closest: Point;
  readonly there: readonly Level[];
}

/** So many of the demands that are nearest to their limits where least is missing are tried. */
const MOST_TRIED = 8;
/** A finer place is looked for until the steps are so small, mm. */
const FIRST_STEP = 16;
const LAST_STEP = 0.1;

/** The place of most room near one: steps along both axes and diagonals, halved when none helps. */
function climbed(field: Field, choice: Choice, from: Point): Point {
  let [point, room] = [from, field.least(from, choice).room];
  for (let step = FIRST_STEP; step >= LAST_STEP;) {
    let better = false;
    for (const [dx, dz] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
      [1, 1],
      [1, -1],
      [-1, 1],
      [-1, -1],
    ] as const) {
      const next: Point = [point[0] + dx * step, point[1] + dz * step];
      const there = field.least(next, choice).room;
      if (there > room) [point, room, better] = [next, there, true];
    }
    if (!better) step /= 2;
  }
  return point;
}

/** The place that is missing least. */
export const leastMissing = (field: Field, choice: Choice, from: Point): Point => climbed(field, choice, from);

const only = (demands: readonly Demand[]): Choice => {
  const keys = new Set(demands.map(({ key }) => key));
  return (demand) => keys.has(demand.key);
};

const isEmpty = (field: Field, demands: readonly Demand[]): boolean =>
  search(field, only(demands), field.box, true).inside.length === 0;

function told(field: Field, demands: readonly Demand[], from: Point): Exclusion {
  const choice = only(demands);
  const { best } = search(field, choice, field.box, true);
  const closest = climbed(field, choice, field.room(best, choice) > field.room(from, choice) ? best : from);
  const there = field.levels(closest).filter(({ demand }) => choice(demand));
  return { demands, closest, there };
}

const sameLimit = (a: Demand, b: Demand): boolean => a.code === b.code && a.limit?.limit === b.limit?.limit;

/** The fewest demands that exclude each other, of an empty window; null: it takes more than three of them. */
export function exclusion(field: Field, choice: Choice, from: Point): Exclusion | null {
  const point = climbed(field, choice, from);
  const near = field
    .levels(point)
    .filter(({ demand }) => choice(demand))
    .sort((a, b) => a.room - b.room || (a.demand.key < b.demand.key ? -1 : 1))
    .slice(0, MOST_TRIED)
    .map(({ demand }) => demand);
  for (const one of near) if (isEmpty(field, [one])) return told(field, [one], point);
  const pairs = near.flatMap((a, i) => near.slice(i + 1).map((b) => [a, b] as const));
  // Two different limits say more than one limit on two straps.
  pairs.sort((p, q) => Number(sameLimit(p[0], p[1])) - Number(sameLimit(q[0], q[1])));
  for (const pair of pairs) if (isEmpty(field, pair)) return told(field, pair, point);
  for (const [a, b] of pairs) {
    for (const c of near.slice(near.indexOf(b) + 1)) {
      if (isEmpty(field, [a, b, c])) return told(field, [a, b, c], point);
    }
  }
  return null;
}
