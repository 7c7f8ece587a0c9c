/**
 * The shortest distance between a flat rectangle and a bent round tube with flat ends, mm.
 *
 * The tube is the union of the discs across its centreline. Where its nearest point lies on its side, the line to it is
 * square to the centreline, so the distance is that of the centreline less the radius; else it lies on an end's disc.
 * Both are found by minimising the exact distance from a point to a rectangle, or to a disc.
 */
import type { Centreline, OnCentreline, Piece } from '../centreline/centreline';
import { alongPiece, onPiece } from '../centreline/piece';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, distance, dot, norm, sub, unit } from '../centreline/vector';
import type { Rectangle } from './shell';
import type { Stretch } from './shape';

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Golden-section steps: the bracket shrinks to 2e-15 of itself, what a double can tell apart. */
const STEPS = 70;
/** An arc is searched in pieces of this turn; within one the distance has one minimum at most for a car's sizes. */
const ARC_STEP = (5 * Math.PI) / 180;
/** Cosine under which a line counts as square to the centreline: its effect on the distance is of second order. */
const SQUARE = 1e-5;
/** A centreline this near to the rectangle goes through it, mm. */
const PIERCED = 1e-12;

/** The least value of a function with one minimum on [from, to], and where. */
function minimise(
  f: (x: number) => number,
  from: number,
  to: number,
  steps = STEPS,
): { readonly x: number; readonly value: number } {
  let [a, b] = [from, to];
  let [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  for (let i = 0; i < steps; i++) {
    if (fc <= fd) {
      [b, d, fd] = [d, c, fc];
      c = b - GOLDEN * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + GOLDEN * (b - a);
      fd = f(d);
    }
  }
  const candidates = [from, to, c, d].map((x) => ({ x, value: f(x) }));
  return candidates.reduce((best, next) => (next.value < best.value ? next : best));
}

/** The rectangle with unit sides, so that the nearest point is two clamps away. */
interface Face {
  readonly centre: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly halfU: number;
  readonly halfV: number;
}

const faceOf = (rectangle: Rectangle): Face => ({
  centre: rectangle.centre,
  u: unit(rectangle.halfAcross),
  v: unit(rectangle.halfUp),
  halfU: norm(rectangle.halfAcross),
  halfV: norm(rectangle.halfUp),
});

const clamp = (x: number, limit: number): number => Math.max(-limit, Math.min(limit, x));

const onFace = (face: Face, a: number, b: number): Vec3 => addScaled(addScaled(face.centre, face.u, a), face.v, b);

/** The rectangle's point nearest to `p`. Exact. */
const nearestOnFace = (face: Face, p: Vec3): Vec3 => {
  const rel = sub(p, face.centre);
  return onFace(face, clamp(dot(rel, face.u), face.halfU), clamp(dot(rel, face.v), face.halfV));
};

/** From a point to the flat disc of that radius across `on`. Exact. */
function toDisc(p: Vec3, on: OnCentreline, radius: number): number {
  const rel = sub(p, on.point);
  const height = dot(rel, on.tangent);
  const beside = norm(addScaled(rel, on.tangent, -height));
  return Math.hypot(height, Math.max(0, beside - radius));
}

/** Between the rectangle and the disc: convex in both coordinates of the rectangle. */
const faceToDisc = (face: Face, on: OnCentreline, radius: number): number =>
  minimise(
    (a) => minimise((b) => toDisc(onFace(face, a, b), on, radius), -face.halfV, face.halfV, 45).value,
    -face.halfU,
    face.halfU,
    45,
  ).value;

/** Between the rectangle and the side of the tube about one piece, where the line is square to the piece; else null. */
function toSide(face: Face, piece: Piece, from: number, to: number, radius: number): number | null {
  const far = (along: number): number => {
    const p = onPiece(piece, along).point;
    return distance(p, nearestOnFace(face, p));
  };
  const best = minimise(far, from, to);
  const on = onPiece(piece, best.x);
  const line = sub(nearestOnFace(face, on.point), on.point);
  const square = Math.abs(dot(line, on.tangent)) <= SQUARE * best.value + PIERCED;
  return square ? best.value - radius : null;
}

/** No part of the tube about this piece can be nearer than this: from the rectangle's middle, less all that reaches. */
const lowerBound = (face: Face, piece: Piece, radius: number): number =>
  distance(onPiece(piece, alongPiece(piece, face.centre)).point, face.centre) -
  Math.hypot(face.halfU, face.halfV) -
  radius;

/**
 * The shortest distance from the rectangle to the tube of that outer radius about the given stretch of a centreline,
 * 0 where they touch. What cannot be nearer than `enough` is not looked at: then `enough` comes back.
 */
export function rectangleToTube(
  rectangle: Rectangle,
  centreline: Centreline,
  stretch: Stretch,
  radius: number,
  enough = Infinity,
): number {
  const face = faceOf(rectangle);
  let least = enough;
  centreline.pieces.forEach((piece, i) => {
    // The end pieces go on beyond the end nodes where the tube runs past them.
    const from = i === 0 ? stretch.from : Math.max(0, stretch.from - piece.start);
    const to =
      i === centreline.pieces.length - 1 ? stretch.to - piece.start : Math.min(piece.length, stretch.to - piece.start);
    if (to < from || lowerBound(face, piece, radius) - Math.max(0, -from, to - piece.length) >= least) return;
    const cuts = piece.kind === 'arc' ? Math.ceil((to - from) / piece.radius / ARC_STEP) : 1;
    const step = (to - from) / Math.max(1, cuts);
    for (let k = 0; k < Math.max(1, cuts); k++) {
      const middle = onPiece(piece, from + (k + 0.5) * step).point;
      if (cuts > 1 && distance(middle, nearestOnFace(face, middle)) - step / 2 - radius >= least) continue;
      const found = toSide(face, piece, from + k * step, from + (k + 1) * step, radius);
      if (found !== null) least = Math.min(least, found);
    }
  });
  for (const station of [stretch.from, stretch.to]) {
    const end = endOf(centreline, station);
    const p = nearestOnFace(face, end.point);
    if (distance(p, end.point) - radius < least) least = Math.min(least, faceToDisc(face, end, radius));
  }
  return Math.max(0, least);
}

/** The point at a station; beyond the ends (a tube that runs past its node) the end leg goes on. */
function endOf(centreline: Centreline, station: number): OnCentreline {
  const on = pointAt(centreline, station);
  const beyond = station < 0 ? station : Math.max(0, station - centreline.length);
  return { ...on, point: addScaled(on.point, on.tangent, beyond), station };
}
