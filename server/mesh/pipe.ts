/**
 * The surface of a bent pipe: outside, bore, and the faces of both ends, closed without a gap. Corners stand in rings
 * across the centreline; every ring has one at the angle 0 of a frame that is carried along without twist. Millimetres.
 */
import type { Arc, Leg, Piece } from '../centreline/centreline';
import { arcPoint, arcTangent } from '../centreline/piece';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, cross, distance, dot, scale, sub, unit } from '../centreline/vector';
import { Builder } from './builder';
import type { Mesh } from './mesh';

/** How far the surface may stay inside of the true one, mm. */
export interface Fineness {
  /** Across the outside; the bore has as many sides. */
  readonly across: number;
  /** Along a bend. */
  readonly along: number;
  /** Along the curve of a cut. */
  readonly edge: number;
}

/** For looking at, and for measuring and other programs. */
export const TO_VIEW: Fineness = { across: 0.1, along: 0.25, edge: 0.1 };
export const TO_MEASURE: Fineness = { across: 0.02, along: 0.05, edge: 0.02 };

/** Where a pipe ends: set-backs from `origin` along `away`, at clocks from `zero` toward `quarter`. */
export interface PipeEnd {
  readonly origin: Vec3;
  readonly away: Vec3;
  readonly zero: Vec3;
  readonly quarter: Vec3;
  readonly outer: (clock: number) => number;
  readonly inner: (clock: number) => number;
}

export interface Pipe {
  /** Of the centreline, in the order of travel. */
  readonly pieces: readonly Piece[];
  readonly outer: number;
  /** 0: it is solid. */
  readonly inner: number;
  readonly ends: readonly [PipeEnd, PipeEnd];
}

const TURN = 2 * Math.PI;
const FEWEST = 12;
const MOST = 360;
/** Between an end and the next ring of corners there is at least so much, mm. */
const LEAST = 0.02;
/** A stretch of a cut is halved so often at most. */
const HALVINGS = 4;

/** Sides of a ring: a multiple of four, whose chords leave the circle by no more than `within`. */
export function sidesFor(radius: number, within: number): number {
  const half = Math.acos(Math.max(-1, 1 - within / radius));
  const sides = Math.ceil(Math.PI / half / 4) * 4;
  return Math.min(MOST, Math.max(FEWEST, sides));
}

/** Steps of a bend whose chords leave its outermost line by no more than `within`. */
const stepsFor = (arc: Arc, radius: number, within: number): number => {
  const step = 2 * Math.acos(Math.max(0, 1 - within / (arc.radius + radius)));
  return Math.max(2, Math.min(MOST, Math.ceil(arc.angle / step)));
};

/** A place on the centreline with the direction across it that is carried along. */
interface Station {
  readonly at: Vec3;
  readonly tangent: Vec3;
  readonly zero: Vec3;
  /** A bend begins or ends here. */
  readonly tangency: boolean;
}

interface Ring {
  /** From 0, growing, below a full turn. */
  readonly angles: readonly number[];
  /** Index of its first corner. */
  readonly first: number;
}

/** A direction across an arc's begin, carried along it: its share in the bend plane turns with the arc. */
const carried = (arc: Arc, zero: Vec3, angle: number): Vec3 => {
  const inPlane = dot(zero, arc.fromCentre);
  const square = dot(zero, arc.axis);
  const out = addScaled(scale(arc.fromCentre, Math.cos(angle)), arc.tangent, Math.sin(angle));
  return unit(addScaled(scale(out, inPlane), arc.axis, square));
};

/** Rings between both ends, and the frame at the last end. */
function stationsOf(pipe: Pipe, within: number): { readonly stations: readonly Station[]; readonly zero: Vec3 } {
  const stations: Station[] = [];
  let { zero } = pipe.ends[0];
  for (const piece of pipe.pieces) {
    if (piece.kind === 'leg') {
      zero = unit(addScaled(zero, piece.direction, -dot(zero, piece.direction)));
      continue;
    }
    const begin = zero;
    const steps = stepsFor(piece, pipe.outer, within);
    for (let i = 0; i <= steps; i++) {
      const angle = (piece.angle * i) / steps;
      const at = arcPoint(piece, angle);
      const before = stations[stations.length - 1];
      zero = carried(piece, begin, angle);
      if (i === 0 && before !== undefined && distance(before.at, at) < LEAST) continue;
      stations.push({ at, tangent: arcTangent(piece, angle), zero, tangency: i === 0 || i === steps });
    }
  }
  return { stations, zero };
}

/** The leg at an end; one of no length where a bend begins there. */
function endLeg(pieces: readonly Piece[], last: boolean): Leg | null {
  const piece = pieces[last ? pieces.length - 1 : 0];
  if (piece === undefined || piece.kind === 'leg') return piece ?? null;
  const angle = last ? piece.angle : 0;
  const at = arcPoint(piece, angle);
  return { kind: 'leg', from: at, to: at, direction: arcTangent(piece, angle), start: 0, length: 0 };
}

/** The curve in which a skin ends, by the angle of the carried frame. */
interface Edge {
  readonly point: (angle: number) => Vec3;
  readonly outward: (angle: number) => Vec3;
}

/** Both end curves of one skin (the outside, or the bore). They never cross, nor do they reach into a bend. */
function edgesOf(pipe: Pipe, skin: 'outer' | 'inner', lastZero: Vec3): readonly [Edge, Edge] | null {
  const radius = pipe[skin];
  const single = pipe.pieces.length === 1;
  const [a, b] = [endLeg(pipe.pieces, false), endLeg(pipe.pieces, true)];
  if (a === null || b === null) return null;
  const turnAt = ({ zero, quarter }: PipeEnd, from: Vec3): number => Math.atan2(dot(from, quarter), dot(from, zero));
  const turns = [turnAt(pipe.ends[0], pipe.ends[0].zero), turnAt(pipe.ends[1], lastZero)] as const;
  /** From the leg's end into it. */
  const along = (which: 0 | 1, angle: number): number => {
    const end = pipe.ends[which];
    const tip = which === 0 ? a.from : b.to;
    return dot(sub(end.origin, tip), end.away) + end[skin](angle + turns[which]);
  };
  const room = (which: 0 | 1, angle: number): number => {
    const own = along(which, angle);
    if (!single || a.length === 0) return Math.min(own, (which === 0 ? a : b).length - LEAST);
    const over = own + along(which === 0 ? 1 : 0, angle) - (a.length - LEAST);
    return over > 0 ? own - over / 2 : own;
  };
  const edge = (which: 0 | 1): Edge => {
    const end = pipe.ends[which];
    const tip = which === 0 ? a.from : b.to;
    // Round the axis of the cut, which may stand beside the leg by the half millimetre that an end may miss.
    const base = addScaled(end.origin, end.away, -dot(sub(end.origin, tip), end.away));
    const outward = (angle: number): Vec3 => {
      const clock = angle + turns[which];
      return addScaled(scale(end.zero, Math.cos(clock)), end.quarter, Math.sin(clock));
    };
    return {
      outward,
      point: (angle) => addScaled(addScaled(base, end.away, room(which, angle)), outward(angle), radius),
    };
  };
  return [edge(0), edge(1)];
}

/** How far a point lies from the line through two others. */
function bow(at: Vec3, a: Vec3, b: Vec3): number {
  const [x, y, z] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [u, v, w] = [at[0] - a[0], at[1] - a[1], at[2] - a[2]];
  const [p, q, r] = [v * z - w * y, w * x - u * z, u * y - v * x];
  return Math.sqrt((p * p + q * q + r * r) / (x * x + y * y + z * z));
}

/** Angles at which a curve is known well enough, with the points there: those of the ring, halved where it bows. */
function sampled(
  edge: Edge,
  even: readonly number[],
  within: number,
): { readonly angles: number[]; readonly points: Vec3[] } {
  const angles: number[] = [];
  const points: Vec3[] = [];
  const between = (from: number, a: Vec3, to: number, b: Vec3, left: number): void => {
    const middle = (from + to) / 2;
    const at = edge.point(middle);
    if (left === 0 || bow(at, a, b) <= within) return;
    between(from, a, middle, at, left - 1);
    angles.push(middle);
    points.push(at);
    between(middle, at, to, b, left - 1);
  };
  const ring = even.map(edge.point);
  for (const [i, at] of ring.entries()) {
    const angle = even[i] as number;
    angles.push(angle);
    points.push(at);
    between(angle, at, even[i + 1] ?? TURN, ring[(i + 1) % ring.length] ?? at, HALVINGS);
  }
  return { angles, points };
}

/** Triangles between two rings of the same angles. */
function strip(build: Builder, a: number, b: number, count: number): void {
  for (let i = 0; i < count; i++) {
    const k = (i + 1) % count;
    build.triangle(a + i, a + k, b + i);
    build.triangle(a + k, b + k, b + i);
  }
}

/**
 * Triangles between two rings. Seen so that angles grow counter-clockwise about the way from `a` to `b`, outside is out. The
 * ring whose next corner comes first goes on, but where the surface would fold over there, as beside a deep notch.
 */
function stitch(build: Builder, a: Ring, b: Ring): void {
  if (a.angles === b.angles) {
    strip(build, a.first, b.first, a.angles.length);
    return;
  }
  const [n, m] = [a.angles.length, b.angles.length];
  const angle = (ring: Ring, k: number): number => ring.angles[k] ?? (k > ring.angles.length ? Infinity : TURN);
  let [i, j] = [0, 0];
  while (i < n || j < m) {
    const [ca, cb] = [a.first + (i % n), b.first + (j % m)];
    const [na, nb] = [a.first + ((i + 1) % n), b.first + ((j + 1) % m)];
    const first = angle(a, i + 1) <= angle(b, j + 1);
    const folds = first ? build.folds(ca, na, cb) : build.folds(ca, nb, cb);
    // The other ring may be ahead by its one next corner, no more.
    const otherMay = first ? j < m && angle(b, j) <= angle(a, i) : i < n && angle(a, i) <= angle(b, j);
    if (first === (folds && otherMay)) {
      build.triangle(ca, nb, cb);
      j += 1;
    } else {
      build.triangle(ca, na, cb);
      i += 1;
    }
  }
}

const evenly = (sides: number): readonly number[] => Array.from({ length: sides }, (_, i) => (TURN * i) / sides);

interface Skin {
  /** The points of both ends' curves. */
  readonly edges: readonly [readonly Vec3[], readonly Vec3[]];
  readonly angles: readonly [readonly number[], readonly number[]];
}

/** The outside (`sense` 1) or the wall of the bore (-1). */
function skinOf(
  build: Builder,
  pipe: Pipe,
  skin: 'outer' | 'inner',
  fineness: Fineness,
  run: { readonly stations: readonly Station[]; readonly zero: Vec3 },
): Skin | null {
  const edges = edgesOf(pipe, skin, run.zero);
  if (edges === null) return null;
  const radius = pipe[skin];
  const sense = skin === 'outer' ? 1 : -1;
  const even = evenly(sidesFor(pipe.outer, fineness.across));
  const cuts = edges.map((edge) => sampled(edge, even, fineness.edge));
  const [head, tail] = cuts;
  if (head === undefined || tail === undefined) return null;
  const cutRing = (which: 0 | 1): Ring => {
    const { angles, points } = which === 0 ? head : tail;
    const first = build.mark.corner;
    points.forEach((at, k) => build.corner(at, scale(edges[which].outward(angles[k] as number), sense)));
    build.loopOf(first, points.length);
    return { angles, first };
  };
  const [cos, sin] = [even.map(Math.cos), even.map(Math.sin)];
  const ringAt = ({ at, tangent, zero, tangency }: Station): Ring => {
    const first = build.mark.corner;
    const quarter = cross(tangent, zero);
    for (let k = 0; k < even.length; k++) {
      const [c, s] = [cos[k] as number, sin[k] as number];
      const x = zero[0] * c + quarter[0] * s;
      const y = zero[1] * c + quarter[1] * s;
      const z = zero[2] * c + quarter[2] * s;
      build.cornerAt(at[0] + x * radius, at[1] + y * radius, at[2] + z * radius, x * sense, y * sense, z * sense);
    }
    if (tangency && sense > 0) build.loopOf(first, even.length);
    return { angles: even, first };
  };
  const rings = [cutRing(0), ...run.stations.map(ringAt), cutRing(1)];
  for (let k = 0; k + 1 < rings.length; k++) {
    const [a, b] = [rings[k], rings[k + 1]];
    if (a === undefined || b === undefined) continue;
    if (sense > 0) stitch(build, a, b);
    else stitch(build, b, a);
  }
  return { edges: [head.points, tail.points], angles: [head.angles, tail.angles] };
}

/** The face of an end: between the two skins, or over the whole end of a solid one. */
function faceOf(build: Builder, which: 0 | 1, outer: Skin, inner: Skin | null): void {
  const still: Vec3 = [0, 0, 0];
  const mark = build.mark;
  const ring = (skin: Skin): Ring => {
    const { corner: first } = build.mark;
    for (const at of skin.edges[which]) build.corner(at, still);
    return { angles: skin.angles[which], first };
  };
  const rim = ring(outer);
  if (inner !== null) {
    const bore = ring(inner);
    if (which === 0) stitch(build, bore, rim);
    else stitch(build, rim, bore);
  } else {
    const points = outer.edges[which];
    const middle = build.corner(scale(points.reduce(add, still), 1 / points.length), still);
    for (let i = 0; i < points.length; i++) {
      const [p, q] = [rim.first + i, rim.first + ((i + 1) % points.length)];
      if (which === 0) build.triangle(middle, q, p);
      else build.triangle(middle, p, q);
    }
  }
  build.smoothed(mark);
}

/** The closed surface of a pipe; null where a figure of it is not finite. Its lines: the cut edges, the tangents of bends. */
export function pipeMesh(pipe: Pipe, fineness: Fineness): Mesh | null {
  const { outer, inner, pieces } = pipe;
  if (!(outer > 0 && inner >= 0 && inner < outer && outer < Infinity) || pieces.length === 0) return null;
  const build = new Builder();
  const run = stationsOf(pipe, fineness.along);
  const skin = skinOf(build, pipe, 'outer', fineness, run);
  const bore = inner > 0 ? skinOf(build, pipe, 'inner', fineness, run) : null;
  if (skin === null || (inner > 0 && bore === null)) return null;
  faceOf(build, 0, skin, bore);
  faceOf(build, 1, skin, bore);
  return build.mesh();
}
