/** A bar followed along a way out of its place: how tight it gets between its hosts, and where. Millimetres. */
import type { Bar } from './bar';
import type { Path, Pose } from './frame';
import type { Play, Points } from './play';
import { playAt } from './play';
import type { Tubes } from './tubes';

/** The last bit into the place, mm, where cut and host come to touch as they should. */
export const HOME = 10;
/** Steps of the search for the tightest place between two that were looked at. */
const REFINE = 14;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Where it is tightest. */
export interface Tight {
  /** By how much the bar is too long there, mm. */
  readonly tooLong: number;
  /** How far out of its place it is. */
  readonly out: number;
  readonly pose: Pose;
  /** The tips that touch: indices, -1 for none. */
  readonly at: readonly [number, number];
}

export interface Travel {
  /** It came out. */
  readonly clear: boolean;
  /** Where it was given up, or came out: mm along the path. */
  readonly end: number;
  readonly tight: Tight | null;
  /** Least play beyond the last {@link HOME} mm; Infinity where there is nothing to touch there. */
  readonly spare: number;
}

/** Where hosts stand round a bar. */
export interface Field {
  readonly bar: Bar;
  readonly hosts: Tubes;
}

/** How closely a way is looked at. */
export interface Look {
  readonly points: Points;
  /** Steps of the farthest point: the first, how they grow, the longest; mm. Near the place, where it is tight, they are short. */
  readonly first: number;
  readonly grows: number;
  readonly longest: number;
  /** Whether the tightest place is looked for between the steps, with all points. */
  readonly refine: boolean;
}

/** For choosing among many ways. */
export const GLANCE: Look = { points: 'few', first: 1, grows: 0.25, longest: 12, refine: false };
/** For a bar that is too long anyway: by how much, and where. */
export const ROUGH: Look = { points: 'all', first: 0.5, grows: 0.25, longest: 10, refine: true };
/**
 * For what is told of a way that is free. Between two points of a cut or two steps of a way a tube of radius R is missed
 * by step² / 8R at most: 0.15 mm.
 */
export const CLOSE: Look = { points: 'all', first: 0.25, grows: 0.12, longest: 5, refine: true };

export const isOut = ({ ends: [first, last] }: Play): boolean => first === Infinity || last === Infinity;

const stepAfter = (s: number, { first, grows, longest }: Look): number => Math.min(longest, Math.max(first, grows * s));

export interface Following {
  /** The bar is out of its place by so much where the path begins. */
  readonly before: number;
  readonly look: Look;
  /** Too long by more: it is not followed any farther. */
  readonly giveUp: number;
  /** True where it has come out. */
  readonly done: (play: Play, s: number, pose: Pose) => boolean;
}

/** Follows a bar along a path, from its beginning, until it is out, is too long by more than asked for, or the path ends. */
export function follow(field: Field, path: Path, { before, look, giveUp, done }: Following): Travel {
  let tight: Tight | null = null;
  let spare = Infinity;
  let [s, from] = [0, 0];
  let around: readonly [number, number] = [0, 0];
  const result = (clear: boolean): Travel => ({
    clear,
    end: s,
    tight: look.refine ? refined(field, path, tight, around, before) : tight,
    spare,
  });
  for (;;) {
    const pose = path.pose(s);
    const play = playAt(field.bar, pose, field.hosts, look.points);
    const out = before + s;
    if (out >= HOME) spare = Math.min(spare, play.total);
    if (-play.total > (tight?.tooLong ?? 0)) {
      tight = { tooLong: -play.total, out, pose, at: play.at };
      around = [from, s];
    } else if (around[1] === from && from > 0) around = [around[0], s];
    if ((tight?.tooLong ?? 0) > giveUp) return { clear: false, end: s, tight, spare };
    if (done(play, s, pose)) return result(true);
    if (s >= path.length) return result(false);
    from = s;
    s = Math.min(path.length, s + stepAfter(out, look));
  }
}

/** The tightest place on the way between two of its places, with all points. */
function refined(
  field: Field,
  path: Path,
  tight: Tight | null,
  [low, high]: readonly [number, number],
  before: number,
): Tight | null {
  if (tight === null || !(high > low)) return tight;
  let best = tight;
  const at = (s: number): number => {
    const pose = path.pose(s);
    const play = playAt(field.bar, pose, field.hosts);
    if (-play.total > best.tooLong) best = { tooLong: -play.total, out: before + s, pose, at: play.at };
    return -play.total;
  };
  let [a, b] = [low, high];
  let [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
  let [fc, fd] = [at(c), at(d)];
  for (let i = 0; i < REFINE; i++) {
    if (fc >= fd) {
      [b, d, fd] = [d, c, fc];
      c = b - GOLDEN * (b - a);
      fc = at(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + GOLDEN * (b - a);
      fd = at(d);
    }
  }
  return best;
}
