/** Ways of a bar into its place, followed backwards, out of it: straight, from above, tilted, slid along the hosts. Millimetres, radians. */
import type { Vec3 } from '../../centreline/vector';
import { add, cross, distance, dot, norm, scale, unit } from '../../centreline/vector';
import type { Path, Pose } from './frame';
import { directionIn, IN_PLACE, shifting, turning } from './frame';
import type { Play } from './play';
import type { Field, Look, Tight, Travel } from './travel';
import { CLOSE, follow, GLANCE, HOME, isOut } from './travel';
import { STRIDE } from './tubes';

/** Directions round the bar that it may come straight from, and that its far end may come from. */
const ROUND = 36;
const SWINGS = 24;
/** It is tilted at most so far. */
const MOST_TILT = Math.PI / 3;
/** A bar that is slid is not slid farther, mm. */
const MOST_SLIDE = 2500;
/** Ways out of a tilt or a slide are tried this far apart: radians, mm. */
const TILT_APART = Math.PI / 60;
const SLIDE_APART = 15;
/** Ways out of a tilt or a slide are few, and are taken as soon as there is one: looked at more closely. */
const LEAVING: Look = { points: 'few', first: 3, grows: 0, longest: 3, refine: false };
/** Where a way ends, it is followed on a little: not all points were asked there, mm. */
const WELL_OUT = 5;
/** Hosts that lie less along each other than this can nothing be slid along: cosine. */
const ALONG = 0.7;

export const KINDS = ['straight', 'above', 'tilted', 'slid'] as const;
export type WayKind = (typeof KINDS)[number];

/** One way. Directions in the bar's axes. */
export interface Way {
  readonly kind: WayKind;
  /** From where it comes; of a tilt, from where its far end does; of a slide, from where along the hosts. */
  readonly from: Vec3;
  /** Of a tilt: the end that is in first, 0 or 1. */
  readonly first: 0 | 1 | null;
  /** How far it is tilted, radians, or slid, mm, where it is brought in; 0 for a straight one. */
  readonly by: number;
  /** From where a tilted or slid one is brought in; null: lengthwise, or past the hosts' ends. */
  readonly brought: Vec3 | null;
  /** Out of its place, part by part. */
  readonly paths: readonly Path[];
  /** Where it is tightest; null: nowhere too long. */
  readonly tight: Tight | null;
  readonly spare: number;
  /** False: it did not come out at all on the way that was looked at. */
  readonly comesOut: boolean;
}

/** A way that may be tried. */
export interface Candidate {
  /** A little out of its place on this way. */
  readonly begun: Pose;
  /** Follows it; given up where the bar is too long by more than `giveUp`. */
  readonly followed: (giveUp: number) => Way;
}
/** Seen here, mm out of the place of what moves farthest, ways are ranked. */
const BEGUN = 2;

export const tooLongOf = ({ tight }: Pick<Way, 'tight'>): number => tight?.tooLong ?? 0;

const isRid = ({ ends: [first, last] }: Play): boolean => first === Infinity && last === Infinity;

const tighter = (a: Tight | null, b: Tight | null): Tight | null =>
  a === null || (b !== null && b.tooLong > a.tooLong) ? b : a;

/** With both ends off by this share of a straight way's reach it is out, whatever stands before them. */
const FREE = 2 / 3;

/** Far enough for a straight way to be rid of its hosts, unless it goes along them. */
function reachOf({ bar, hosts }: Field): number {
  let widest = 0;
  for (let i = 7; i < hosts.data.length; i += STRIDE) widest = Math.max(widest, hosts.data[i] as number);
  return 6 * (widest + bar.radius);
}

interface StraightOut extends Travel {
  readonly path: Path;
}

/** Straight out, from any pose. */
function straightOut(
  field: Field,
  from: Pose,
  before: number,
  direction: Vec3,
  giveUp: number,
  look: Look = GLANCE,
  reach = reachOf(field),
): StraightOut {
  const path = shifting(from, direction, reach);
  // A bent bar may go off along its end legs, with its hosts before them all the way.
  const free = FREE * reachOf(field);
  const done = (play: Play): boolean => isRid(play) || play.ends.every((of) => of >= free);
  const travel = follow(field, path, { before, look, giveUp, done });
  return { ...travel, path: { ...path, length: travel.end + WELL_OUT } };
}

/** Unit vectors across the bar, all round; those that the hosts suggest come first. */
const directions = (count: number, first: readonly Vec3[]): readonly Vec3[] => [
  ...first,
  ...Array.from({ length: count }, (_, i): Vec3 => {
    const turn = (2 * Math.PI * i) / count;
    return [Math.cos(turn), Math.sin(turn), 0];
  }),
];

/** How the hosts lie to the bar, in its axes. */
export interface Lie {
  /** Along both hosts; null where they do not run alongside each other. */
  readonly along: Vec3 | null;
  /** Across hosts and bar. */
  readonly across: Vec3;
}

export function lieOf({ bar }: Field): Lie {
  const [one, two] = [bar.ends[0].hostWay, bar.ends[1].hostWay];
  const same = dot(one, two);
  const along = Math.abs(same) < ALONG ? null : unit(add(one, scale(two, Math.sign(same))));
  const square = cross([0, 0, 1], along ?? one);
  return { along, across: norm(square) < 1e-6 ? [1, 0, 0] : unit(square) };
}

function straightWay(field: Field, kind: 'straight' | 'above', direction: Vec3): Candidate {
  const followed = (giveUp: number): Way => {
    // From above it may go along its hosts all the way.
    const reach = kind === 'above' ? MOST_SLIDE : reachOf(field);
    const out = straightOut(field, IN_PLACE, 0, direction, giveUp, GLANCE, reach);
    return {
      kind,
      from: direction,
      first: null,
      by: 0,
      brought: null,
      paths: [out.path],
      tight: out.tight,
      spare: out.spare,
      comesOut: out.clear,
    };
  };
  return { followed, begun: shifting(IN_PLACE, direction, BEGUN).pose(BEGUN) };
}

/** Halves of a turn this near to each other have nothing between them: as the length of the sum of two unit vectors. */
const OPPOSITE = 0.2;

/** A bent bar comes off its hosts as its end legs run, and between them: seldom square to its chord. */
function alongLegs({ bar }: Field): readonly Vec3[] {
  if (bar.straight) return [];
  const [one, two] = bar.ends.map(({ axes }) => scale(axes[2], -1));
  if (one === undefined || two === undefined) return [];
  const both = add(one, two);
  return [...(norm(both) < OPPOSITE ? [] : [unit(both)]), one, two];
}

/** From all round the bar, and as its ends are let off their hosts. */
export function straightWays(field: Field, lie: Lie): readonly Candidate[] {
  const both = [...alongLegs(field), lie.across, scale(lie.across, -1)];
  return directions(ROUND, both).map((direction) => straightWay(field, 'straight', direction));
}

/** A bar that lies this near to upright cannot be let down across itself: sine. */
const UPRIGHT = Math.sin(Math.PI / 12);

/** Let down from straight above, across the bar; none for a bar that stands upright. */
export function waysFromAbove(field: Field): readonly Candidate[] {
  const up = directionIn(field.bar.frame, [0, 0, 1]);
  const across: Vec3 = [up[0], up[1], 0];
  return norm(across) < UPRIGHT ? [] : [straightWay(field, 'above', unit(across))];
}

/** What a straight way asks for on the two sides across hosts and bar: before it has that much play, no bar comes out there. */
export interface Side {
  readonly direction: Vec3;
  readonly needs: number;
}

export const sidesOf = (field: Field, lie: Lie): readonly Side[] =>
  [lie.across, scale(lie.across, -1)].map((direction) => ({
    direction,
    needs: straightOut(field, IN_PLACE, 0, direction, Infinity).tight?.tooLong ?? 0,
  }));

interface Out {
  readonly travel: Travel;
  readonly paths: readonly Path[];
  readonly brought: Vec3 | null;
  readonly by: number;
}

/** Along a path until the bar is out, or until it may leave the path to one of the sides: what asks for least. */
function outAlong(
  field: Field,
  path: Path,
  sides: readonly Side[],
  apart: number,
  giveUp: number,
  out: (play: Play) => boolean,
): Out {
  const found: Out[] = [];
  const bestOf = (): number => found.at(-1)?.travel.tight?.tooLong ?? (found.length > 0 ? 0 : Infinity);
  let next = HOME;
  let so: Tight | null = null;
  const travel = follow(field, path, {
    before: 0,
    look: GLANCE,
    giveUp,
    done: (play, s, pose) => {
      if (-play.total > (so?.tooLong ?? 0)) so = { tooLong: -play.total, out: s, pose, at: play.at };
      const tight = so;
      if (out(play)) return true;
      if (s < next) return bestOf() <= (tight?.tooLong ?? 0);
      for (const { direction, needs } of sides) {
        if (play.total < needs - Math.max(0.5, needs / 4)) continue;
        next = s + apart;
        const away = straightOut(field, pose, s, direction, Math.min(giveUp, bestOf()), LEAVING);
        const both = tighter(tight, away.tight);
        if (!away.clear || (both?.tooLong ?? 0) >= bestOf()) continue;
        found.push({
          travel: { clear: true, end: s, tight: both, spare: Math.min(away.spare, play.total) },
          paths: [{ ...path, length: s }, away.path],
          brought: direction,
          by: s,
        });
      }
      // Farther out it cannot be better than what the way up to here asks for.
      return bestOf() <= (tight?.tooLong ?? 0);
    },
  });
  const side = found.at(-1);
  return side ?? { travel, paths: [{ ...path, length: travel.end + WELL_OUT }], brought: null, by: travel.end };
}

/** One end in first, the other swung in. */
export function tiltedWays(field: Field, lie: Lie, sides: readonly Side[]): readonly Candidate[] {
  const { bar } = field;
  const level = unit(cross(lie.across, [0, 0, 1]));
  const preferred = [level, scale(level, -1), lie.across, scale(lie.across, -1)];
  return directions(SWINGS, preferred).flatMap((direction) =>
    ([0, 1] as const).map((first): Candidate => {
      const pivot = bar.ends[first].middle;
      const reach = distance(pivot, bar.ends[first === 0 ? 1 : 0].middle) + bar.radius;
      // The far end goes to `direction`: axis × (sign z) = direction.
      const axis = scale(cross([0, 0, 1], direction), first === 0 ? 1 : -1);
      const path = turning(axis, pivot, reach, MOST_TILT);
      const ways = sides.filter((side) => Math.abs(dot(side.direction, axis)) > 0.9);
      const followed = (giveUp: number): Way => {
        const out = outAlong(field, path, ways, TILT_APART * reach, giveUp, isOut);
        return {
          kind: 'tilted',
          from: direction,
          first,
          by: out.by / reach,
          brought: out.brought,
          paths: out.paths,
          tight: out.travel.tight,
          spare: out.travel.spare,
          comesOut: out.travel.clear,
        };
      };
      return { followed, begun: path.pose(BEGUN) };
    }),
  );
}

/** In where the hosts stand wider apart, or past their ends, and along them; none where they do not run alongside. */
export function slidWays(field: Field, { along }: Lie, sides: readonly Side[]): readonly Candidate[] {
  if (along === null) return [];
  return [along, scale(along, -1)].map((direction): Candidate => {
    const path = shifting(IN_PLACE, direction, MOST_SLIDE);
    const followed = (giveUp: number): Way => {
      const out = outAlong(field, path, sides, SLIDE_APART, giveUp, isRid);
      return {
        kind: 'slid',
        from: direction,
        first: null,
        by: out.by,
        brought: out.brought,
        paths: out.paths,
        tight: out.travel.tight,
        spare: out.travel.spare,
        comesOut: out.travel.clear,
      };
    };
    return { followed, begun: path.pose(BEGUN) };
  });
}

/** The same way in short steps, with all points. */
export function closely(field: Field, way: Way, look: Look = CLOSE): Way {
  let tight: Tight | null = null;
  let spare = Infinity;
  let before = 0;
  for (const path of way.paths) {
    const travel = follow(field, path, { before, look, giveUp: Infinity, done: () => false });
    tight = tighter(tight, travel.tight);
    spare = Math.min(spare, travel.spare);
    before += path.length;
  }
  return { ...way, tight, spare };
}
