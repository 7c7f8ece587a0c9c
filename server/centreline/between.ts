/** Where two bent centrelines come nearest to each other. */
import type { Arc, Centreline, Leg, OnCentreline, Piece } from './centreline';
import { alongPiece, arcPoint, arcTangent, onPiece } from './piece';
import type { Vec3 } from './vector';
import { cross, distance, dot, scale, sub } from './vector';

export interface Nearest {
  readonly onA: OnCentreline;
  readonly onB: OnCentreline;
  /** mm. */
  readonly distance: number;
}

/** Samples of an arc's angle before each minimum between them is refined. */
const SAMPLES = 48;

/**
 * The nearest points of two centrelines, and their distance, mm.
 *
 * Two legs: closed form (C. Ericson, Real-Time Collision Detection, 5.1.9); for parallel ones the middle of what they
 * share. Where an arc takes part: minima of the distance to the other piece's exact nearest point, bracketed by
 * samples, then refined by bisection of its derivative until the angle no longer changes.
 */
export function nearestBetween(a: Centreline, b: Centreline): Nearest {
  let onA = begin(a);
  let onB = begin(b);
  let least = Infinity;
  const balls = b.pieces.map(ball);
  for (const pa of a.pieces) {
    const ballA = ball(pa);
    for (let i = 0; i < b.pieces.length; i++) {
      const pb = b.pieces[i] as Piece;
      const ballB = balls[i] as Ball;
      if (distance(ballA.centre, ballB.centre) - ballA.radius - ballB.radius > least) continue;
      const [alongA, alongB] = betweenPieces(pa, pb);
      const candidateA = onPiece(pa, alongA);
      const candidateB = onPiece(pb, alongB);
      const far = distance(candidateA.point, candidateB.point);
      if (far < least) {
        least = far;
        onA = candidateA;
        onB = candidateB;
      }
    }
  }
  return { onA, onB, distance: distance(onA.point, onB.point) };
}

/** A centreline without pieces, which is never built, is its first point. */
const begin = (c: Centreline): OnCentreline => {
  const piece = c.pieces[0];
  return piece === undefined ? { point: c.points[0] ?? [0, 0, 0], tangent: [1, 0, 0], station: 0 } : onPiece(piece, 0);
};

interface Ball {
  readonly centre: Vec3;
  readonly radius: number;
}

/** A ball round a piece; every point of a leg or arc is within half its length of its middle. */
const ball = (piece: Piece): Ball => ({ centre: onPiece(piece, piece.length / 2).point, radius: piece.length / 2 });

function betweenPieces(a: Piece, b: Piece): readonly [number, number] {
  if (a.kind === 'arc') return fromArc(a, b);
  if (b.kind === 'arc') {
    const [alongB, alongA] = fromArc(b, a);
    return [alongA, alongB];
  }
  return betweenLegs(a, b);
}

function betweenLegs(a: Leg, b: Leg): readonly [number, number] {
  const clamp = (value: number, limit: number): number => (value > 0 ? Math.min(value, limit) : 0);
  const r = sub(a.from, b.from);
  const across = cross(a.direction, b.direction);
  const sine2 = dot(across, across);
  const cosine = dot(a.direction, b.direction);
  const c = dot(a.direction, r);
  const f = dot(b.direction, r);
  let s: number;
  if (sine2 > 1e-18) {
    // (b×) form of Cramer's rule keeps its digits for nearly parallel legs, where 1 - cos² does not.
    s = clamp(dot(cross(scale(r, -1), b.direction), across) / sine2, a.length);
  } else {
    // Parallel: the middle of what a shares with b, seen along a; without a share, the clamp below finds the ends.
    const one = -c;
    const other = -c + cosine * b.length;
    const low = clamp(Math.min(one, other), a.length);
    const high = clamp(Math.max(one, other), a.length);
    s = (low + high) / 2;
  }
  let t = f + s * cosine;
  if (t < 0) {
    t = 0;
    s = clamp(-c, a.length);
  } else if (t > b.length) {
    t = b.length;
    s = clamp(cosine * b.length - c, a.length);
  }
  return [s, clamp(t, b.length)];
}

/** Nearest points of an arc and any piece, mm along each. */
function fromArc(arc: Arc, other: Piece): readonly [number, number] {
  const opposite = (angle: number): Vec3 => {
    const p = arcPoint(arc, angle);
    return sub(p, onPiece(other, alongPiece(other, p)).point);
  };
  /** Half the derivative of the squared distance by the way along the arc; the other's nearest point drops out of it. */
  const slope = (angle: number): number => dot(opposite(angle), arcTangent(arc, angle));
  const squared = (angle: number): number => {
    const d = opposite(angle);
    return dot(d, d);
  };
  let best = 0;
  let least = Infinity;
  const offer = (angle: number): void => {
    const d = squared(angle);
    if (d < least) {
      least = d;
      best = angle;
    }
  };
  offer(0);
  let low = 0;
  let slopeLow = slope(0);
  for (let i = 1; i <= SAMPLES; i++) {
    const high = (arc.angle * i) / SAMPLES;
    const slopeHigh = slope(high);
    if (slopeLow < 0 && slopeHigh >= 0) offer(bisect(slope, low, high));
    low = high;
    slopeLow = slopeHigh;
  }
  offer(arc.angle);
  return [arc.radius * best, alongPiece(other, arcPoint(arc, best))];
}

/** A zero of `f`, which is negative at `low` and not at `high`. */
function bisect(f: (x: number) => number, low: number, high: number): number {
  let a = low;
  let b = high;
  for (let i = 0; i < 60 && b - a > 1e-15 * Math.max(1, b); i++) {
    const mid = (a + b) / 2;
    if (f(mid) < 0) a = mid;
    else b = mid;
  }
  return (a + b) / 2;
}
