/**
 * Two-cut start: the pair of flat saw cuts, one from each side, that comes nearest to a cope without ever going past it.
 * Each goes right through the tube and takes off what lies beyond its plane. Millimetres, radians.
 */
import type { Angle, Length } from '../../grammar/units';
import { mm, rad } from '../../grammar/units';
import type { CopeCurve } from './cope';
import { peak, turnMaximum } from './cope-numeric';
import type { Rim, UnderPlane } from './under-plane';
import { planeUnder } from './under-plane';

/** What a saw reaches off square where nothing is said, radians: common practice, no source. */
export const COMMON_REACH = Math.PI / 4;
/** A second cut that takes less than this off what is left is not worth it, mm. */
export const WORTH_A_CUT = 1;
/** The search's clocks, and those that the found pair is refined on: a multiple of them. */
const SEARCHED = 36;
const FINE = 360;
const ROUNDS = 24;
/** A round that gains less, mm, is the last. */
const GAIN = 1e-5;
/** How far a cut stays clear of the true curve, mm: more than the search for the nearest point misses at a kink. */
const CLEAR = 0.01;
/** Cuts that differ by less lie as deep as each other, mm. */
const AS_DEEP = 0.01;
/** Less than this off square has no deep side, radians. */
const SQUARE = 1e-9;

/** One flat cut. Set-backs are measured along the leg from the joint, as those of the cope. */
export interface FlatCut {
  /** Angle off square, 0 up to the reach. */
  readonly angle: Angle;
  /** Clock where it lies deepest in the tube: where its mark is; null where it is square. */
  readonly deepClock: Angle | null;
  /** Set-backs at the tube's surface: at the mark, and on the other side (the cut's own long point). */
  readonly deep: Length;
  readonly shallow: Length;
  /** From the long point of the true cut back to the mark. */
  readonly fromLongPoint: Length;
}

/** Flat cuts, and what they leave. */
export interface FlatStart {
  /** One, or two, in the order in which they are sawn: the deeper one may take the other's mark away. */
  readonly cuts: readonly FlatCut[];
  /** The most that is left to grind, measured along the tube; never below 0. */
  readonly left: Length;
  /** Where. */
  readonly leftClock: Angle;
  /** The same where the piece was sawn square at its long point before: what stood beyond that is gone already. */
  readonly leftSquared: Length;
}

export interface TwoCut {
  readonly pair: FlatStart;
  /** The best that one cut does. */
  readonly single: FlatStart;
  /** The one to make: `single` where a second cut saves less than {@link WORTH_A_CUT}. */
  readonly better: 'pair' | 'single';
}

/** A coped end, as a saw sees it. */
export interface CopedEnd {
  readonly curve: Pick<CopeCurve, 'cut'>;
  readonly outerRadius: number;
  readonly innerRadius: number;
  /** Set-back of the true cut's long point. */
  readonly minCut: number;
}

interface Plane {
  /** Set-back at ρ and φ: base + ρ (x cos φ + y sin φ). */
  readonly x: number;
  readonly y: number;
  readonly base: number;
}

/**
 * The two-cut start of a coped end. What the true cut keeps, at every clock and over the whole wall, lies on the kept
 * side of both planes; among such pairs, no cut more than `reach` off square, it makes the largest rest (along the tube,
 * over the whole wall) smallest. On one round of the tube, where one plane governs is one stretch of clocks: so all
 * stretches with ends in steps of 10 degrees are gone through, the best plane for each found exactly (see `planeUnder`),
 * and the best pair refined in steps of 1 degree with the free clocks where both planes meet.
 * Null where some generator has no cut, or the numbers make no tube.
 */
export function twoCut(end: CopedEnd, reach: number = COMMON_REACH): TwoCut | null {
  if (!(end.outerRadius > 0 && end.innerRadius < end.outerRadius && reach >= 0 && reach < Math.PI / 2)) return null;
  const heights = sampled(end);
  if (heights === null) return null;
  const steepest = Math.tan(reach);
  const fine = rimOf(end, heights, 1, 0);
  const all = new Uint8Array(fine.height.length).fill(1);
  const one = planeOf(planeUnder(fine, all, steepest));
  const single = started(end, heights, [one]);
  const found = started(end, heights, refined(end, heights, searched(end, heights, steepest), steepest));
  const pair = found.left <= single.left ? found : started(end, heights, [one, one]);
  return { pair, single, better: single.left - pair.left < WORTH_A_CUT ? 'single' : 'pair' };
}

/**
 * The same cuts as a saw can be set to: angles and clocks to whole steps (radians), each cut again as deep as it may go.
 * Angles are never rounded past `reach`. `markStep`, mm: marks stand at whole steps of a tape from the long point, toward
 * the end, and what is left is what those marks leave; 0 for a mark wherever it falls.
 */
export function settable(
  end: CopedEnd,
  start: FlatStart,
  angleStep: number,
  clockStep: number,
  reach: number = COMMON_REACH,
  markStep = 0,
): FlatStart | null {
  const heights = sampled(end);
  if (heights === null) return null;
  const most = Math.floor(reach / angleStep + 1e-9);
  const planes = start.cuts.map(({ angle, deepClock }): Plane => {
    const slope = Math.tan(Math.min(Math.round(angle / angleStep), most) * angleStep);
    const clock = Math.round((deepClock ?? 0) / clockStep) * clockStep;
    return { x: slope * Math.cos(clock), y: slope * Math.sin(clock), base: 0 };
  });
  return started(end, heights, planes, markStep);
}

const overClock = (clock: Angle | null): Angle | null => (clock === null ? null : rad(turned(-clock)));

/** The same flat cuts on the mirrored twin of an end: every clock runs the other way. */
export const mirroredStart = (start: FlatStart): FlatStart => ({
  ...start,
  cuts: start.cuts.map((cut) => ({ ...cut, deepClock: overClock(cut.deepClock) })),
  leftClock: rad(turned(-start.leftClock)),
});

/** The true cut at every degree; null where one is not known. */
export function sampled(end: Pick<CopedEnd, 'curve'>): Float64Array | null {
  const heights = new Float64Array(FINE);
  for (let k = 0; k < FINE; k++) {
    const cut = end.curve.cut((k * 2 * Math.PI) / FINE);
    if (cut === null) return null;
    heights[k] = cut;
  }
  return heights;
}

const bore = (end: CopedEnd): number => Math.max(0, end.innerRadius);

/** The rim at every `stride`th degree: bore and surface by turns, and room for `more` clocks behind. */
function rimOf(end: CopedEnd, heights: Float64Array, stride: number, more: number): Rim {
  const count = heights.length / stride;
  const points = 2 * (count + more);
  const rim = { x: new Float64Array(points), y: new Float64Array(points), height: new Float64Array(points) };
  for (let k = 0; k < count; k++) {
    putClock(rim, end, k, (k * 2 * Math.PI) / count, heights[k * stride] as number);
  }
  return rim;
}

function putClock(rim: Rim, end: CopedEnd, index: number, clock: number, height: number): void {
  for (const [at, rho] of [
    [2 * index, bore(end)],
    [2 * index + 1, end.outerRadius],
  ] as const) {
    rim.x[at] = rho * Math.cos(clock);
    rim.y[at] = rho * Math.sin(clock);
    rim.height[at] = height;
  }
}

const planeOf = ({ slopeX, slopeY, base }: UnderPlane): Plane => ({ x: slopeX, y: slopeY, base });

/** The best pair over all stretches of clocks: what the one plane leaves grows with its stretch, the other's shrinks. */
function searched(end: CopedEnd, heights: Float64Array, steepest: number): readonly [Plane, Plane] {
  const rim = rimOf(end, heights, FINE / SEARCHED, 0);
  const known = new Map<number, UnderPlane>();
  let least = Infinity;
  // One that was given up leaves too much for ever: the least only falls.
  const fit = (from: number, length: number): UnderPlane => {
    const key = (from % SEARCHED) * SEARCHED + length;
    const old = known.get(key);
    if (old !== undefined) return old;
    const wanted = new Uint8Array(2 * SEARCHED);
    for (let k = 0; k < length; k++) wanted.fill(1, 2 * ((from + k) % SEARCHED), 2 * ((from + k) % SEARCHED) + 2);
    const plane = planeUnder(rim, wanted, steepest, least - GAIN);
    known.set(key, plane);
    return plane;
  };
  const best: UnderPlane[] = [];
  // True where a longer stretch is no better: what it leaves grows.
  const weigh = (from: number, length: number): boolean => {
    const near = fit(from, length);
    if (near.left >= least - GAIN) return true;
    const far = fit(from + length, SEARCHED - length);
    const left = Math.max(near.left, far.left);
    if (left < least - GAIN) {
      least = left;
      best.splice(0, 2, near, far);
    }
    return near.left >= far.left;
  };
  let length = 1;
  for (let from = 0; from < SEARCHED; from++) {
    // One clock on, the balance lies where it was, or farther on: the stretch is at most one clock shorter.
    length = Math.max(1, length - 2);
    while (length < SEARCHED - 1 && !weigh(from, length)) length++;
  }
  const [near = fit(0, SEARCHED / 2), far = fit(SEARCHED / 2, SEARCHED / 2)] = best;
  return [planeOf(near), planeOf(far)];
}

/** Clocks at which two planes meet on the round of radius `rho`: none, or two. */
function meetings(a: Plane, b: Plane, rho: number): readonly number[] {
  const x = rho * (a.x - b.x);
  const y = rho * (a.y - b.y);
  const swing = Math.hypot(x, y);
  const level = b.base - a.base;
  if (!(swing > 1e-12) || Math.abs(level) >= swing) return [];
  const middle = Math.atan2(y, x);
  const half = Math.acos(level / swing);
  return [middle - half, middle + half];
}

const heightOn = (plane: Plane, rho: number, clock: number): number =>
  plane.base + rho * (plane.x * Math.cos(clock) + plane.y * Math.sin(clock));

/** Each plane fitted anew to the clocks that it governs, those where both meet included, as long as that gains. */
function refined(
  end: CopedEnd,
  heights: Float64Array,
  start: readonly [Plane, Plane],
  steepest: number,
): readonly [Plane, Plane] {
  const rim = rimOf(end, heights, 1, 2);
  const middle = (bore(end) + end.outerRadius) / 2;
  let best = start;
  let least = started(end, heights, start).left as number;
  let [a, b] = start;
  for (let round = 0; round < ROUNDS; round++) {
    const meet = meetings(a, b, middle);
    if (meet.length === 0) break;
    for (const [i, clock] of meet.entries()) putClock(rim, end, FINE + i, clock, end.curve.cut(clock) ?? 0);
    const ofA = new Uint8Array(2 * FINE + 4).fill(1);
    const ofB = new Uint8Array(2 * FINE + 4).fill(1);
    for (let k = 0; k < FINE; k++) {
      const clock = (k * 2 * Math.PI) / FINE;
      const governs = heightOn(a, middle, clock) >= heightOn(b, middle, clock);
      (governs ? ofB : ofA).fill(0, 2 * k, 2 * k + 2);
    }
    const near = planeUnder(rim, ofA, steepest, least);
    if (near.left >= least) break;
    const far = planeUnder(rim, ofB, steepest, least);
    [a, b] = [planeOf(near), planeOf(far)];
    const left = Math.max(near.left, far.left);
    if (left < least) best = [a, b];
    if (!(left < least - GAIN)) break;
    least = left;
  }
  return best;
}

/** Planes set as deep as they may go, and what they leave: over all clocks, not only the sampled ones. */
function started(end: CopedEnd, heights: Float64Array, slopes: readonly Plane[], markStep = 0): FlatStart {
  const planes = slopes.map((plane): Plane => onMark(end, { ...plane, base: deepest(end, heights, plane) }, markStep));
  const rest = (clock: number, cut: number): number => cut - kept(end, planes, clock);
  const at = (clock: number): number => rest(clock, end.curve.cut(clock) ?? NaN);
  let where = 0;
  let most = -Infinity;
  const rests = heights.map((cut, k) => rest((k * 2 * Math.PI) / FINE, cut));
  for (const [k, value] of rests.entries()) {
    if (value > most) {
      most = value;
      where = k;
    }
  }
  const step = (2 * Math.PI) / FINE;
  const near = peak(at, (where - 1) * step, (where + 1) * step, 1e-7);
  const left = Math.max(0, turnMaximum(at, rests));
  const squared = turnMaximum(
    (clock) => Math.min(at(clock), (end.curve.cut(clock) ?? NaN) - end.minCut),
    rests.map((value, k) => Math.min(value, (heights[k] as number) - end.minCut)),
  );
  const cuts = planes
    .map((plane) => flatCut(end, plane))
    .sort((p, q) =>
      Math.abs(p.deep - q.deep) < AS_DEEP ? (p.deepClock ?? -1) - (q.deepClock ?? -1) : p.deep - q.deep,
    );
  return {
    cuts,
    left: mm(left),
    leftClock: rad(turned(near.value > most ? near.x : where * step)),
    leftSquared: mm(Math.max(0, squared)),
  };
}

/** How far from the joint on a plane of these slopes may lie: the true cut touches it, at the surface or in the bore. */
function deepest(end: CopedEnd, heights: Float64Array, { x, y }: Plane): number {
  const over = (clock: number, cut: number): number => {
    const slope = x * Math.cos(clock) + y * Math.sin(clock);
    return Math.max(bore(end) * slope, end.outerRadius * slope) - cut;
  };
  const samples = heights.map((cut, k) => over((k * 2 * Math.PI) / FINE, cut));
  return -turnMaximum((clock) => over(clock, end.curve.cut(clock) ?? NaN), samples) - CLEAR;
}

/** The plane moved toward the end until its mark stands on a whole step of a tape; never before the long point. */
function onMark(end: CopedEnd, plane: Plane, step: number): Plane {
  if (!(step > 0)) return plane;
  const mark = plane.base + end.outerRadius * Math.hypot(plane.x, plane.y) - end.minCut;
  return { ...plane, base: plane.base + Math.max(0, Math.floor(mark / step)) * step - mark };
}

/** From where on the planes leave material on a generator, at the place in the wall where they leave most. */
function kept(end: CopedEnd, planes: readonly Plane[], clock: number): number {
  const cos = Math.cos(clock);
  const sin = Math.sin(clock);
  const from = (rho: number): number => {
    let most = -Infinity;
    for (const plane of planes) most = Math.max(most, plane.base + rho * (plane.x * cos + plane.y * sin));
    return most;
  };
  let least = Math.min(from(bore(end)), from(end.outerRadius));
  const [a, b] = planes;
  if (a !== undefined && b !== undefined) {
    // The larger of two straight lines is least at an end, or where they cross.
    const slope = (a.x - b.x) * cos + (a.y - b.y) * sin;
    const rho = slope === 0 ? NaN : (b.base - a.base) / slope;
    if (rho > bore(end) && rho < end.outerRadius) least = Math.min(least, from(rho));
  }
  return least;
}

function flatCut(end: CopedEnd, { x, y, base }: Plane): FlatCut {
  const slope = Math.hypot(x, y);
  const angle = Math.atan(slope);
  const swing = end.outerRadius * slope;
  return {
    angle: rad(angle < SQUARE ? 0 : angle),
    deepClock: angle < SQUARE ? null : rad(turned(Math.atan2(y, x))),
    deep: mm(base + swing),
    shallow: mm(base - swing),
    fromLongPoint: mm(base + swing - end.minCut),
  };
}

/** A clock from 0 up to a full turn. */
function turned(clock: number): number {
  const rest = clock % (2 * Math.PI);
  const positive = rest < 0 ? rest + 2 * Math.PI : rest;
  return positive >= 2 * Math.PI - 1e-12 ? 0 : positive;
}
