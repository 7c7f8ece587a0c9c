/**
 * The surface of a bent pipe: outside, bore, and the faces of both ends, closed without a gap. Corners stand in rings
 * across the centreline; every ring has one at the angle 0 of a frame that is carried along without twist. Millimetres.
 */
import type { Arc } from '../centreline/centreline';
import { arcPoint, arcTangent } from '../centreline/piece';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, distance, dot, scale, unit } from '../centreline/vector';
import { Builder } from './builder';
import type { Cut, Pipe } from './cut';
import { cutsOf, LEAST, TURN } from './cut';
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

const FEWEST = 12;
const MOST = 360;

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

/** The outside (`skin` 0), or the wall of the bore (1). */
function skinOf(
  build: Builder,
  skin: 0 | 1,
  radius: number,
  even: readonly number[],
  cuts: readonly [Cut, Cut],
  stations: readonly Station[],
): void {
  const sense = skin === 0 ? 1 : -1;
  const cutRing = (which: 0 | 1): Ring => {
    const { angles, outward, points } = cuts[which];
    const own = points[skin] ?? [];
    const { corner: first } = build.mark;
    for (let k = 0; k < own.length; k += 3) {
      const [nx, ny, nz] = [outward[k] as number, outward[k + 1] as number, outward[k + 2] as number];
      const [x, y, z] = [own[k] as number, own[k + 1] as number, own[k + 2] as number];
      build.cornerAt(x, y, z, nx * sense, ny * sense, nz * sense);
    }
    build.loopOf(first, angles.length);
    return { angles, first };
  };
  const [cos, sin] = [even.map(Math.cos), even.map(Math.sin)];
  const ringAt = ({ at, tangent, zero, tangency }: Station): Ring => {
    const { corner: first } = build.mark;
    const quarter = cross(tangent, zero);
    for (let k = 0; k < even.length; k++) {
      const [c, s] = [cos[k] as number, sin[k] as number];
      const x = zero[0] * c + quarter[0] * s;
      const y = zero[1] * c + quarter[1] * s;
      const z = zero[2] * c + quarter[2] * s;
      build.cornerAt(at[0] + x * radius, at[1] + y * radius, at[2] + z * radius, x * sense, y * sense, z * sense);
    }
    if (tangency && skin === 0) build.loopOf(first, even.length);
    return { angles: even, first };
  };
  const rings = [cutRing(0), ...stations.map(ringAt), cutRing(1)];
  for (let k = 0; k + 1 < rings.length; k++) {
    const [a, b] = [rings[k], rings[k + 1]];
    if (a === undefined || b === undefined) continue;
    if (skin === 0) stitch(build, a, b);
    else stitch(build, b, a);
  }
}

/** Corners at points that lie one after the other in a list, without a normal yet; gives the index of the first. */
function cornersAt(build: Builder, points: readonly number[]): number {
  const { corner: first } = build.mark;
  for (let k = 0; k < points.length; k += 3)
    build.cornerAt(points[k] as number, points[k + 1] as number, points[k + 2] as number, 0, 0, 0);
  return first;
}

/** The face of an end: between the two skins, or over the whole end of a solid one. */
function faceOf(build: Builder, which: 0 | 1, { angles, points }: Cut): void {
  const mark = build.mark;
  const [outer, inner] = points;
  if (outer === undefined) return;
  const count = angles.length;
  const rim = cornersAt(build, outer);
  if (inner !== undefined) {
    const bore = cornersAt(build, inner);
    if (which === 0) strip(build, bore, rim, count);
    else strip(build, rim, bore, count);
  } else {
    const mean = (k: number): number => {
      let sum = 0;
      for (let i = k; i < outer.length; i += 3) sum += outer[i] as number;
      return sum / count;
    };
    const middle = build.cornerAt(mean(0), mean(1), mean(2), 0, 0, 0);
    for (let i = 0; i < count; i++) {
      const [p, q] = [rim + i, rim + ((i + 1) % count)];
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
  const { stations, zero } = stationsOf(pipe, fineness.along);
  const even = evenly(sidesFor(outer, fineness.across));
  const cuts = cutsOf(pipe, zero, even, fineness.edge);
  const cut = cuts[0].angles.length + cuts[1].angles.length;
  // Each skin has its rings and both cuts, each face both cut edges.
  const build = new Builder(2 * (stations.length * even.length + 2 * cut));
  skinOf(build, 0, outer, even, cuts, stations);
  if (inner > 0) skinOf(build, 1, inner, even, cuts, stations);
  faceOf(build, 0, cuts[0]);
  faceOf(build, 1, cuts[1]);
  return build.mesh();
}
