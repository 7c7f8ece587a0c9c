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
/** Looked at first, mm apart; from the best of them it is gone on in smaller and smaller steps. */
const GRID = 40;
const STARTS = 3;
const FIRST_STEP = 20;
const LAST_STEP = 0.05;
const DIRECTIONS = 12;
/** Between one round of directions and the next, radians: no ridge stays between all of them (the golden angle). */
const TURN = Math.PI * (3 - Math.sqrt(5));

/** The place of most room near one: steps in all directions, halved when none helps. */
function climbed(field: Field, choice: Choice, from: Point): { readonly point: Point; readonly room: number } {
  let [point, room] = [from, field.room(from, choice, -Infinity)];
  for (let step = FIRST_STEP, round = 0; step >= LAST_STEP; round++) {
    let better = false;
    for (let i = 0; i < DIRECTIONS && !better; i++) {
      const angle = round * TURN + (2 * Math.PI * i) / DIRECTIONS;
      const next: Point = [point[0] + Math.cos(angle) * step, point[1] + Math.sin(angle) * step];
      const there = field.room(next, choice, room);
      if (there > room) [point, room, better] = [next, there, true];
    }
    if (!better) step /= 2;
  }
  return { point, room };
}

/** The place of most room in the searched box: where least is missing, if nothing is inside. */
export function mostRoom(field: Field, choice: Choice): Point {
  const { x, z } = field.box;
  const starts: { readonly point: Point; readonly room: number }[] = [];
  // What is worse than the best so far is not looked at any closer.
  let floor = -Infinity;
  for (let u = x[1] - GRID / 2; u > x[0]; u -= GRID) {
    for (let w = z[0] + GRID / 2; w < z[1]; w += GRID) {
      const point: Point = [u, w];
      const room = field.room(point, choice, floor);
      floor = Math.max(floor, room);
      starts.push({ point, room });
    }
  }
  starts.sort((a, b) => b.room - a.room);
  const tops = starts.slice(0, STARTS).map(({ point }) => climbed(field, choice, point));
  const [best] = tops.sort((a, b) => b.room - a.room);
  return best?.point ?? [(x[0] + x[1]) / 2, (z[0] + z[1]) / 2];
}

function only(demands: readonly Demand[]): Choice {
  const all = new Set(demands);
  const stages = new Set(demands.map(({ stage }) => stage));
  return Object.assign((demand: Demand) => all.has(demand), { stages });
}

const isEmpty = (field: Field, demands: readonly Demand[]): boolean =>
  !field.isKnownToHold(demands) && search(field, only(demands), { first: true }).inside.length === 0;

function told(field: Field, demands: readonly Demand[]): Exclusion {
  const choice = only(demands);
  const closest = mostRoom(field, choice);
  return { demands, closest, there: field.levels(closest).filter(({ demand }) => choice(demand)) };
}

const sameLimit = (a: Demand, b: Demand): boolean => a.code === b.code && a.limit?.limit === b.limit?.limit;

/** The fewest demands that exclude each other, of an empty window; null: it takes more than three of them. */
export function exclusion(field: Field, choice: Choice): Exclusion | null {
  const point = mostRoom(field, choice);
  const near = field
    .levels(point)
    .filter(({ demand }) => choice(demand))
    .sort((a, b) => a.room - b.room || (a.demand.key < b.demand.key ? -1 : 1))
    .slice(0, MOST_TRIED)
    .map(({ demand }) => demand);
  for (const one of near) if (isEmpty(field, [one])) return told(field, [one]);
  const pairs = near.flatMap((a, i) => near.slice(i + 1).map((b) => [a, b] as const));
  // Two different limits say more than one limit on two straps.
  pairs.sort((p, q) => Number(sameLimit(p[0], p[1])) - Number(sameLimit(q[0], q[1])));
  for (const pair of pairs) if (isEmpty(field, pair)) return told(field, pair);
  for (const [a, b] of pairs) {
    for (const c of near.slice(near.indexOf(b) + 1)) {
      if (isEmpty(field, [a, b, c])) return told(field, [a, b, c]);
    }
  }
  return null;
}
