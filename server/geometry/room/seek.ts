/** The first way of a kind that is good, or the one that is nearest to it. */
import type { Blocker } from './neighbours';
import { playAt } from './play';
import type { Field } from './travel';
import { GLANCE, ROUGH } from './travel';
import type { Candidate, Way } from './ways';
import { closely, tooLongOf } from './ways';

/** What sampled cuts and chords of bends leave, and a stroke of the file takes, mm: too long by less is not too long. */
export const TOUCH = 0.1;

/** After so many of a kind on which the bar is too long, once one has come out, those that begin worse are not followed any more; nor are more than so many of all. */
const MISSES = 5;
const MOST = 24;

/** What else is asked of a way that the hosts let through: what stands in it. */
export type Blockers = (way: Way) => readonly Blocker[];

export interface Sought {
  readonly way: Way;
  /** Tubes that stand in the way, for a way that the hosts let through. */
  readonly blockers: readonly Blocker[];
}

/** Ways of one kind as the hosts alone let them: followed when somebody asks, those that begin best first. */
export class Shortlist {
  private ranks: readonly Candidate[] | null = null;
  private readonly known: (Way | null)[] = [];
  private misses = 0;
  private least: Way | null = null;
  private told: { readonly glanced: Way; readonly way: Way } | null = null;

  /** @param enough a way on which the bar is too long by no more is looked at closely; the others only while they are the best. */
  constructor(
    private readonly field: Field,
    private readonly candidates: readonly Candidate[],
    readonly enough: number,
  ) {}

  /** Null: it does not come out, or is worse than one before it and no good. Undefined: there are no more. */
  at(i: number): Way | null | undefined {
    this.ranks ??= this.ranked();
    for (let k = this.known.length; k <= i; k++) {
      const candidate = this.ranks[k];
      if (candidate === undefined || k >= MOST || this.misses >= MISSES) return undefined;
      const way = this.followed(candidate);
      if (way === null && this.least !== null) this.misses++;
      this.known.push(way);
    }
    return this.known[i];
  }

  /** Of those asked for so far: on which the bar is least too long; null: none comes out. */
  get best(): Way | null {
    if (this.least === null) return null;
    if (this.told?.glanced !== this.least)
      this.told = { glanced: this.least, way: closely(this.field, this.least, ROUGH) };
    return this.told.way;
  }

  private followed(candidate: Candidate): Way | null {
    const least = this.least === null ? Infinity : tooLongOf(this.least);
    const glanced = candidate.followed(Math.max(this.enough, least));
    if (!glanced.comesOut) return null;
    if (tooLongOf(glanced) > this.enough) {
      if (tooLongOf(glanced) < least) this.least = glanced;
      return null;
    }
    // A glance may take for good what is none.
    const way = closely(this.field, glanced);
    if (tooLongOf(way) < least) this.least = way;
    return tooLongOf(way) <= this.enough ? way : null;
  }

  /** Those that are least tight where they begin, first; the first of those that are as tight. */
  private ranked(): readonly Candidate[] {
    const { candidates, field } = this;
    return candidates
      .map((candidate) => ({ candidate, play: playAt(field.bar, candidate.begun, field.hosts, GLANCE.points).total }))
      .sort((a, b) => (a.play === b.play ? 0 : b.play - a.play))
      .map(({ candidate }) => candidate);
  }
}

/**
 * Goes through ways until one is too long nowhere (by {@link TOUCH} at most) and has nothing in it. Else: the one with
 * the fewest in it of those that are good enough, and of those the least too long; else the least too long of all. Null:
 * none comes out.
 */
export function seek(list: Shortlist, blockers: Blockers): Sought | null {
  let good: Sought | null = null;
  for (let i = 0; ; i++) {
    const way = list.at(i);
    if (way === undefined) break;
    if (way === null) continue;
    const found = { way, blockers: blockers(way) };
    if (found.blockers.length === 0 && tooLongOf(way) <= TOUCH) return found;
    if (good === null || isBetter(found, good)) good = found;
  }
  if (good !== null) return good;
  const { best } = list;
  return best === null ? null : { way: best, blockers: [] };
}

const isBetter = (a: Sought, b: Sought): boolean =>
  a.blockers.length === b.blockers.length ? tooLongOf(a.way) < tooLongOf(b.way) : a.blockers.length < b.blockers.length;
