/** The bar that has to go in: its cut ends as points, in its own axes. Millimetres, radians. */
import type { Centreline } from '../../centreline/centreline';
import { nearestOn, pointAt } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import { add, addScaled, cross, dot, norm, scale, sub } from '../../centreline/vector';
import type { ClockFrame } from '../clock';
import { clockFrame } from '../clock';
import type { End, Part } from '../shape';
import { ringStretch } from '../stretch';
import type { Frame } from './frame';
import { directionIn, frameOf, pointIn } from './frame';
import type { Lines } from './lines';

/**
 * How its ends are cut: as a hole saw does, or to the outer edge with a bevel, so that the wall lies on the host all over:
 * its points are as long as they can be. Or square through the wall, where the bore decides.
 */
export type Cut = 'saddle' | 'square';

/** Clocks of an end; tips come ring by ring: outside, then bore. */
export const CLOCKS = 72;

/** One end's points, in axes of its own: z along its leg, outward. */
export interface BarEnd {
  readonly end: End;
  readonly clock: ClockFrame;
  /** The end's axes, in the bar's: rows x, y, z, and its origin on the axis of the leg. */
  readonly axes: readonly [Vec3, Vec3, Vec3];
  readonly origin: Vec3;
  /** Two rings of `CLOCKS`; their metal reaches back to the bend, or to the bar's middle. */
  readonly lines: Lines;
  /** A few of them, its long and its short points among them: for a glance. */
  readonly few: Lines;
  /** Of the end's face, in the middle, in the bar's axes. */
  readonly middle: Vec3;
  /** The host's line where the end sits, in the bar's axes. */
  readonly hostWay: Vec3;
}

export interface Bar {
  readonly part: Part;
  readonly frame: Frame;
  readonly straight: boolean;
  readonly radius: number;
  readonly inner: number;
  readonly ends: readonly [BarEnd, BarEnd];
  /** What lies between the end legs of a bent bar, in its axes; empty for a straight one. */
  readonly between: readonly Ball[];
  /** A box round all of them: its corners. */
  readonly box: readonly [Vec3, Vec3];
  /** The axis, ball-ended within the tube, from behind the deepest point of one cut to that of the other. */
  readonly axis: readonly Vec3[];
  /** In a straight line, from the one end's farthest point to the other's. */
  readonly overPoints: number;
}

/** A ball that tube may not come into: round a point of the axis, or, beside an end leg, round one of the surface. */
export interface Ball {
  readonly at: Vec3;
  readonly radius: number;
}

/** Balls of a bent bar's middle stand this far apart at most, mm; between them less than a millimetre of a tube of 38 is missed. */
const BALLS_APART = 12;
/** Points of a bend's axis stand this far apart at most, mm. */
const AXIS_STEP = 15;
/** Round the axis, where balls as thick as the tube would reach back over the leg. */
const SURFACE_CLOCKS = 16;

export const clockAt = (i: number): number => ((i % CLOCKS) * 2 * Math.PI) / CLOCKS;

/** The clock across an end's leg: that of the tube, which looks from its first end toward its last. */
export function clockFrameOf(end: End): ClockFrame | null {
  if (end.away === null || end.clockZero === null) return null;
  const travel = end.which === 'first' ? end.away : scale(end.away, -1);
  return { zero: end.clockZero, quarter: cross(travel, end.clockZero.vector), travel };
}

/** Set-backs at `CLOCKS` clocks, of the outside and of the bore; null where one is not known. */
function cutsOf({ curve }: End, cut: Cut): readonly [Float64Array, Float64Array] | null {
  const [outer, inner] = [new Float64Array(CLOCKS), new Float64Array(CLOCKS)];
  for (let i = 0; i < CLOCKS; i++) {
    const clock = clockAt(i);
    const atOuter = (cut === 'saddle' ? curve?.outer(clock) : curve?.cut(clock)) ?? null;
    if (atOuter === null) return null;
    outer[i] = atOuter;
    inner[i] = (cut === 'saddle' ? curve?.inner(clock) : atOuter) ?? atOuter;
  }
  return [outer, inner];
}

const average = (of: Float64Array): number => of.reduce((sum, one) => sum + one, 0) / of.length;

function endOf(
  end: End,
  frame: Frame,
  radii: readonly [number, number],
  parts: ReadonlyMap<string, Part>,
  leg: number,
  cut: Cut,
): BarEnd | null {
  const clock = clockFrameOf(end);
  const cuts = cutsOf(end, cut);
  const host = parts.get(end.hosts[0] ?? '')?.centreline ?? null;
  const { origin, away } = end;
  if (clock === null || cuts === null || host === null || origin === null || away === null) return null;
  const count = 2 * CLOCKS;
  const [x, y, z] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  for (let i = 0; i < count; i++) {
    const ring = i < CLOCKS ? 0 : 1;
    const rho = radii[ring];
    x[i] = rho * Math.cos(clockAt(i));
    y[i] = rho * Math.sin(clockAt(i));
    z[i] = -(cuts[ring][i % CLOCKS] as number);
  }
  const lines: Lines = { x, y, z, of: Int32Array.from(x.keys()), back: -leg, around: radii[0] };
  const axes = [clock.zero.vector, clock.quarter, scale(away, -1)].map((v) => directionIn(frame, v));
  return {
    end,
    clock,
    axes: axes as [Vec3, Vec3, Vec3],
    origin: pointIn(frame, origin),
    lines,
    few: fewOf(lines),
    middle: pointIn(frame, addScaled(origin, away, average(cuts[0]))),
    hostWay: directionIn(frame, nearestOn(host, origin).tangent),
  };
}

/** Of each ring every so many points, and those that are longest or shortest among their neighbours, with these. */
const EVERY = 6;

function fewOf({ x, y, z, ...rest }: Lines): Lines {
  const chosen = new Set<number>();
  const at = (i: number, by: number): number => i - (i % CLOCKS) + (((i % CLOCKS) + by + CLOCKS) % CLOCKS);
  for (const i of z.keys()) {
    const [before, here, after] = [z[at(i, -1)] as number, z[i] as number, z[at(i, 1)] as number];
    if (i % EVERY === 0) chosen.add(i);
    if ((here - before) * (here - after) < 0) continue;
    for (const by of [-1, 0, 1]) chosen.add(at(i, by));
  }
  const of = Int32Array.from(chosen).sort();
  const some = (all: Float64Array): Float64Array => Float64Array.from(of, (i) => all[i] as number);
  return { ...rest, x: some(x), y: some(y), z: some(z), of };
}

/** A point of an end, in the bar's axes. */
export function tipOf({ axes: [u, v, w], origin, lines: { x, y, z } }: BarEnd, i: number): Vec3 {
  const across = addScaled(addScaled(origin, u, x[i] ?? NaN), v, y[i] ?? NaN);
  return addScaled(across, w, z[i] ?? NaN);
}

const highest = (end: BarEnd, sign: number): number =>
  end.lines.x.reduce((most, _, i) => Math.max(most, sign * tipOf(end, i)[2]), -Infinity);

function boxOf(balls: readonly Ball[]): readonly [Vec3, Vec3] {
  const of = (k: 0 | 1 | 2, sign: number): number =>
    sign * balls.reduce((most, { at, radius }) => Math.max(most, sign * at[k] + radius), -Infinity);
  return [
    [of(0, -1), of(1, -1), of(2, -1)],
    [of(0, 1), of(1, 1), of(2, 1)],
  ];
}

function ballsOf(line: Centreline, frame: Frame, radius: number, from: number, to: number): readonly Ball[] {
  const count = Math.min(2000, Math.max(1, Math.ceil((to - from) / BALLS_APART)));
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count).flatMap((station) => {
    const { point, tangent } = pointAt(line, station);
    if (Math.min(station - from, to - station) >= radius) return [{ at: pointIn(frame, point), radius }];
    const { zero, quarter } = clockFrame(tangent);
    return Array.from({ length: SURFACE_CLOCKS }, (_unused, k): Ball => {
      const turn = (2 * Math.PI * k) / SURFACE_CLOCKS;
      const across = addScaled(scale(zero.vector, radius * Math.cos(turn)), quarter, radius * Math.sin(turn));
      return { at: pointIn(frame, add(point, across)), radius: 0 };
    });
  });
}

/** Points of the axis between two stations: where pieces meet, and along bends every so often. */
function axisOf(line: Centreline, frame: Frame, from: number, to: number): readonly Vec3[] {
  const stations = line.pieces.flatMap(({ kind, start, length }) => {
    const count = kind === 'arc' ? Math.max(1, Math.ceil(length / AXIS_STEP)) : 1;
    return Array.from({ length: count }, (_, i) => start + (length * i) / count);
  });
  return [from, ...stations.filter((s) => s > from && s < to), to].map((s) => pointIn(frame, pointAt(line, s).point));
}

/** A part as a bar whose both ends are coped to tubes; null for every other, and where a cut is not known. */
export function barOf(part: Part, parts: ReadonlyMap<string, Part>, cut: Cut = 'saddle'): Bar | null {
  const { section } = part.tube;
  const line = part.centreline;
  const [first, last] = part.ends;
  if (section === null || line === null || first.fit !== 'cope' || last.fit !== 'cope') return null;
  if (first.origin === null || last.origin === null || first.away === null || last.away === null) return null;
  const radius = section.od / 2;
  const inner = Math.max(0, radius - section.wall);
  const arcs = line.pieces.filter(({ kind }) => kind === 'arc');
  const [from, to] = [arcs[0], arcs.at(-1)];
  const straight = from === undefined || to === undefined;
  // A straight bar's own axis; a bent one's chord.
  const chord = sub(last.origin, first.origin);
  const along = straight ? scale(first.away, dot(chord, first.away)) : chord;
  if (!(norm(along) > 0)) return null;
  const frame = frameOf(first.origin, addScaled(first.origin, along, 1));
  const legs = straight
    ? [norm(along) / 2, norm(along) / 2]
    : [from.start, line.length - to.start - to.length].map((leg) => Math.max(0, leg));
  const one = endOf(first, frame, [radius, inner], parts, legs[0] ?? 0, cut);
  const two = endOf(last, frame, [radius, inner], parts, legs[1] ?? 0, cut);
  if (one === null || two === null) return null;
  const between = straight ? [] : ballsOf(line, frame, radius, from.start, to.start + to.length);
  const whole = ringStretch(part);
  if (whole === null) return null;
  const axis = axisOf(
    line,
    frame,
    Math.min(whole.from + radius, line.length / 2),
    Math.max(whole.to - radius, line.length / 2),
  );
  const overPoints = highest(two, 1) + highest(one, -1);
  return { part, frame, straight, radius, inner, ends: [one, two], between, box: boxOf(between), axis, overPoints };
}
