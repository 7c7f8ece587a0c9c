/** The first way of a kind that is good, or the one that is nearest to it. */
import type { Blocker } from './neighbours';
import { playAt } from './play';
import type { Field } from './travel';
import { GLANCE } from './travel';
import type { Candidate, Way } from './ways';
import { closely, tooLongOf } from './ways';

/** What sampled cuts and chords of bends leave, and a stroke of the file takes, mm: too long by less is not too long. */
export const TOUCH = 0.1;

/** So many of a kind are followed all the way. */
const FOLLOWED = 10;

/** What else is asked of a way that the hosts let through: what stands in it. */
export type Blockers = (way: Way) => readonly Blocker[];

export interface Sought {
  readonly way: Way;
  /** Tubes that stand in the way, for a way that the hosts let through. */
  readonly blockers: readonly Blocker[];
}

/**
 * Goes through candidates until one is too long nowhere (by {@link TOUCH} at most) and has nothing in its way. Else: the
 * one with the fewest in its way of those that are too long by `enough` at most, and of those the least too long; else
 * the least too long. Null: none comes out.
 */
export function seek(
  field: Field,
  candidates: readonly Candidate[],
  enough: number,
  blockers: Blockers,
): Sought | null {
  let good: Sought | null = null;
  let best: Way | null = null;
  for (const candidate of ranked(field, candidates)) {
    const way = candidate.followed(Math.max(enough, best === null ? Infinity : tooLongOf(best)));
    if (!way.comesOut) continue;
    if (tooLongOf(way) <= enough) {
      const near = closely(field, way);
      if (tooLongOf(near) <= enough) {
        const found = { way: near, blockers: blockers(near) };
        if (found.blockers.length === 0 && tooLongOf(near) <= TOUCH) return found;
        if (good === null || isBetter(found, good)) good = found;
      }
    }
    if (best === null || tooLongOf(way) < tooLongOf(best)) best = way;
  }
  if (good !== null) return good;
  return best === null ? null : { way: closely(field, best), blockers: [] };
}

/** Those that are least tight where they begin, first; the first of those that are as tight. */
function ranked({ bar, hosts }: Field, candidates: readonly Candidate[]): readonly Candidate[] {
  if (candidates.length <= FOLLOWED) return candidates;
  return candidates
    .map((candidate) => ({ candidate, play: playAt(bar, candidate.begun, hosts, GLANCE.every).total }))
    .sort((a, b) => (a.play === b.play ? 0 : b.play - a.play))
    .slice(0, FOLLOWED)
    .map(({ candidate }) => candidate);
}

const isBetter = (a: Sought, b: Sought): boolean =>
  a.blockers.length === b.blockers.length ? tooLongOf(a.way) < tooLongOf(b.way) : a.blockers.length < b.blockers.length;
