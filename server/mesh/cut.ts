/** The curves in which a pipe ends, on its outside and in its bore. Millimetres, radians. */
import type { Leg, Piece } from '../centreline/centreline';
import { arcPoint, arcTangent } from '../centreline/piece';
import type { Vec3 } from '../centreline/vector';
import { addScaled, dot, scale, sub } from '../centreline/vector';

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

export const TURN = 2 * Math.PI;
/** Between an end and the next ring of corners there is at least so much, mm. */
export const LEAST = 0.02;
/** A stretch of a cut is halved so often at most. */
const HALVINGS = 4;

const NOWHERE: Vec3 = [NaN, NaN, NaN];

/** The leg at an end; one of no length where a bend begins there. */
function endLeg(pieces: readonly Piece[], last: boolean): Leg {
  const piece = pieces[last ? pieces.length - 1 : 0];
  if (piece === undefined) return { kind: 'leg', from: NOWHERE, to: NOWHERE, direction: NOWHERE, start: 0, length: 0 };
  if (piece.kind === 'leg') return piece;
  const angle = last ? piece.angle : 0;
  const at = arcPoint(piece, angle);
  return { kind: 'leg', from: at, to: at, direction: arcTangent(piece, angle), start: 0, length: 0 };
}

/** The curve in which a skin ends, by the angle of the carried frame. */
export interface Edge {
  readonly point: (angle: number) => Vec3;
  readonly outward: (angle: number) => Vec3;
}

/** Both end curves of one skin (the outside, or the bore). They never cross, nor do they reach into a bend. */
export function edgesOf(pipe: Pipe, skin: 'outer' | 'inner', lastZero: Vec3): readonly [Edge, Edge] {
  const radius = pipe[skin];
  const single = pipe.pieces.length === 1;
  const [a, b] = [endLeg(pipe.pieces, false), endLeg(pipe.pieces, true)];
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

/** The curves of one cut on the outside and in the bore (of a solid: the outside alone), at the same angles. */
export interface Cut {
  readonly angles: readonly number[];
  /** Of each skin, a point for each angle. */
  readonly points: readonly (readonly Vec3[])[];
}

/** The curves at angles at which they are known well enough: those of the ring, halved where one of them bows. */
export function sampled(edges: readonly Edge[], even: readonly number[], within: number): Cut {
  const angles: number[] = [];
  const points = edges.map((): Vec3[] => []);
  const add = (angle: number, all: readonly Vec3[]): void => {
    angles.push(angle);
    all.forEach((at, skin) => points[skin]?.push(at));
  };
  const at = (angle: number): readonly Vec3[] => edges.map(({ point }) => point(angle));
  const between = (from: number, a: readonly Vec3[], to: number, b: readonly Vec3[], left: number): void => {
    if (left === 0) return;
    const middle = (from + to) / 2;
    const here = at(middle);
    if (here.every((p, skin) => bow(p, a[skin] ?? p, b[skin] ?? p) <= within)) return;
    between(from, a, middle, here, left - 1);
    add(middle, here);
    between(middle, here, to, b, left - 1);
  };
  const ring = even.map(at);
  for (const [i, here] of ring.entries()) {
    const angle = even[i] as number;
    add(angle, here);
    between(angle, here, even[i + 1] ?? TURN, ring[(i + 1) % ring.length] ?? here, HALVINGS);
  }
  return { angles, points };
}
