/**
 * How much play a bar has between its hosts where it is: by how much it could be longer before it touches at both ends.
 * Less than 0: it is too long by that. It may always be shifted along itself, so both ends' play counts together.
 * Millimetres.
 */
import type { Vec3 } from '../../centreline/vector';
import { add, addScaled, scale } from '../../centreline/vector';
import type { Bar, BarEnd } from './bar';
import { CLOCKS, tipOf } from './bar';
import type { Pose, Turn } from './frame';
import { IN_PLACE, moved, posedBy, seenBy, turned, turnedBy, turnOf } from './frame';
import type { Before, Lines, Lying } from './lines';
import { beforeTips } from './lines';
import type { Tubes } from './tubes';
import { STRIDE } from './tubes';

/** How many points of the ends are asked. */
export type Points = 'few' | 'all';

export interface Play {
  /** Of END 1 and of END 2; Infinity where nothing stands before it. */
  readonly ends: readonly [number, number];
  /** The sum. */
  readonly total: number;
  /** The tips that are tightest: indices into the end's points; -1: none. */
  readonly at: readonly [number, number];
}

/** What hands need, mm: common practice, no source. */
export const HANDS = 1;
/** Times that a bent bar is shifted to lie evenly. */
const EVENED = 3;

function oneEnd(end: BarEnd, pose: Pose, turn: Turn | null, tubes: Tubes, points: Points): Before {
  const { axes } = end;
  const x = axes[0];
  const y = axes[1];
  const z = axes[2];
  const lying: Lying =
    turn === null
      ? { x, y, z, origin: add(end.origin, pose.move) }
      : { x: turnedBy(turn, x), y: turnedBy(turn, y), z: turnedBy(turn, z), origin: posedBy(turn, pose, end.origin) };
  return beforeTips(points === 'few' ? end.few : end.lines, lying, tubes);
}

function rigid(bar: Bar, pose: Pose, tubes: Tubes, points: Points): Play {
  const turn = pose.angle === 0 ? null : turnOf(pose.axis, pose.angle);
  const first = oneEnd(bar.ends[0], pose, turn, tubes, points);
  const last = oneEnd(bar.ends[1], pose, turn, tubes, points);
  return { ends: [first.play, last.play], total: first.play + last.play, at: [first.at, last.at] };
}

/** The bar's own line from END 1 to END 2, as it lies. */
export const lengthwise = (pose: Pose): Vec3 =>
  pose.angle === 0 ? [0, 0, 1] : turned([0, 0, 1], pose.axis, pose.angle);

/** By how much to shift, toward END 2, so that both ends have the same play; an end alone is brought clear. */
function evenBy({ ends }: Play): number {
  const first = ends[0];
  const last = ends[1];
  if (Number.isFinite(first) && Number.isFinite(last)) return (last - first) / 2;
  if (Number.isFinite(first)) return Math.max(0, HANDS - first);
  return Number.isFinite(last) ? -Math.max(0, HANDS - last) : 0;
}

/** How deep a bent bar's middle stands in a tube: below 0; else how far from it, Infinity far from all. */
function middleIn(bar: Bar, pose: Pose, { groups, data }: Tubes): number {
  const back = turnOf(pose.axis, -pose.angle);
  let least = Infinity;
  for (const { from, to, middle, around } of groups) {
    // Twice, so that the balls round its stretches, which are asked next, are all in it.
    if (isOff(bar, seenBy(back, pose, middle), 2 * around)) continue;
    for (let n = from; n < to; n++) least = Math.min(least, middleOff(bar, pose, back, data, n * STRIDE));
  }
  return least;
}

/** True where a ball stands off the box round a bent bar's middle. */
function isOff({ box }: Bar, at: Vec3, radius: number): boolean {
  const low = box[0];
  const high = box[1];
  for (let i = 0; i < 3; i++) {
    const x = at[i] as number;
    if (x < (low[i] as number) - radius || x > (high[i] as number) + radius) return true;
  }
  return false;
}

/** The same of one stretch, whose numbers begin at `k`. */
function middleOff(bar: Bar, pose: Pose, back: Turn, data: Float64Array, k: number): number {
  const from: Vec3 = [data[k] as number, data[k + 1] as number, data[k + 2] as number];
  const way: Vec3 = [data[k + 3] as number, data[k + 4] as number, data[k + 5] as number];
  const half = (data[k + 6] as number) / 2;
  const radius = data[k + 7] as number;
  const middle = seenBy(back, pose, addScaled(from, way, half));
  if (isOff(bar, middle, radius + half)) return Infinity;
  const u = turnedBy(back, way);
  let least = Infinity;
  for (const { at, radius: own } of bar.between) {
    const x = at[0] - middle[0];
    const y = at[1] - middle[1];
    const z = at[2] - middle[2];
    const along = Math.min(half, Math.max(-half, x * u[0] + y * u[1] + z * u[2]));
    const dx = x - along * u[0];
    const dy = y - along * u[1];
    const dz = z - along * u[2];
    least = Math.min(least, Math.sqrt(dx * dx + dy * dy + dz * dz) - radius - own);
  }
  return least;
}

/**
 * The play of a bar where it is. `points`: how many of its ends' are asked. A bent bar, whose legs lie in
 * their own directions, is shifted along its chord until both ends have the same play; its play is twice that of the
 * tighter end, and no more than what is left beside its middle.
 */
export function playAt(bar: Bar, pose: Pose, tubes: Tubes, points: Points = 'all'): Play {
  const as = rigid(bar, pose, tubes, points);
  if (bar.straight) return as;
  let [play, at] = [as, pose];
  for (let i = 0; i < EVENED && Math.abs(evenBy(play)) > 0.01; i++) {
    at = moved(at, scale(lengthwise(pose), evenBy(play)));
    play = rigid(bar, at, tubes, points);
  }
  // A glance passes it over; nothing is told of a way before all of the bar was looked at.
  const middle = points === 'few' ? Infinity : middleIn(bar, at, tubes);
  const total = Math.min(2 * Math.min(...play.ends), middle);
  return middle < 0 ? { ends: [middle, middle], total: middle, at: [-1, -1] } : { ...play, total };
}

/** The pose with the bar shifted along itself to where it has as much play at the one end as at the other. */
export function evened(bar: Bar, pose: Pose, tubes: Tubes, points: Points = 'all'): Pose {
  let at = pose;
  for (let i = 0; i < (bar.straight ? 1 : EVENED); i++) {
    const by = evenBy(rigid(bar, at, tubes, points));
    if (by === 0) break;
    at = moved(at, scale(lengthwise(pose), by));
  }
  return at;
}

/** Lines along the bar that the clear width is looked for on: its axis, and every third of the clocks at both ends. */
const LINES_APART = 3;

/**
 * The clear width in place: the shortest line along the bar, within its own thickness, from host to host. Of a bent bar:
 * along its chord. Null where no such line meets both.
 */
export function clearWidth(bar: Bar, tubes: Tubes): number | null {
  let clear = Infinity;
  const from: Lines = {
    x: Float64Array.of(0),
    y: Float64Array.of(0),
    z: Float64Array.of(0),
    of: Int32Array.of(0),
    back: 0,
    around: 0,
  };
  for (const end of bar.ends) {
    for (let i = -1; i < CLOCKS; i += LINES_APART) {
      const [x, y] = i < 0 ? end.origin : tipOf(end, i);
      const forth: Lying = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1], origin: [x, y, 0] };
      const back: Lying = { ...forth, x: [-1, 0, 0], z: [0, 0, -1] };
      clear = Math.min(clear, beforeTips(from, forth, tubes).play + beforeTips(from, back, tubes).play);
    }
  }
  return Number.isFinite(clear) ? clear : null;
}

/** The play in place: 0 where the cuts are what they should be. */
export const playInPlace = (bar: Bar, tubes: Tubes): Play => playAt(bar, IN_PLACE, tubes);
