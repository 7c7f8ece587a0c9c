/**
 * The shortest distance between a flat rectangle and a bent round tube with flat ends, mm.
 *
 * The tube is the union of the discs across its centreline. Where its nearest point lies on its side, the line to it is
 * square to the centreline, so the distance is that of the centreline less the radius; else it lies on an end's disc.
 * Both hang on the exact distance from a point to a rectangle, or to a disc.
 */
import type { Arc, Centreline, Leg, OnCentreline, Piece } from '../centreline/centreline';
import { alongPiece, onPiece } from '../centreline/piece';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, distance, dot, norm, sub, unit } from '../centreline/vector';
import type { Rectangle } from './shell';
import type { Stretch } from './shape';

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** An arc is searched in pieces of this turn; within one the distance has one minimum at most for a car's sizes. */
const ARC_STEP = (5 * Math.PI) / 180;
/** Cosine under which a line counts as square to the centreline: its effect on the distance is of second order. */
const SQUARE = 1e-5;
/** What the search leaves of a line that is square to the centreline, mm: it counts where the centreline goes through the rectangle. */
const PIERCED = 1e-7;
/** Times to and fro between two bodies before another way is taken, and what is close enough, mm. */
const TO_AND_FRO = 40;
const CLOSE = 1e-9;
/** Golden-section steps: the bracket shrinks to 4e-10 of itself; the distance is off by its square, or by that much at a kink. */
const STEPS = 45;

/** The least value of a function with one minimum on [from, to]. */
function minimise(f: (x: number) => number, from: number, to: number): number {
  let [a, b] = [from, to];
  let [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  for (let i = 0; i < STEPS; i++) {
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
  return Math.min(f(from), f(to), fc, fd);
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

/** The disc's point nearest to `p`. Exact. */
function nearestOnDisc(p: Vec3, on: OnCentreline, radius: number): Vec3 {
  const rel = sub(p, on.point);
  const beside = addScaled(rel, on.tangent, -dot(rel, on.tangent));
  const far = norm(beside);
  return addScaled(on.point, beside, far > radius ? radius / far : 1);
}

/** From a point to the flat disc of that radius across `on`. Exact. */
function toDisc(p: Vec3, on: OnCentreline, radius: number): number {
  const rel = sub(p, on.point);
  const height = dot(rel, on.tangent);
  const beside = norm(addScaled(rel, on.tangent, -height));
  return Math.hypot(height, Math.max(0, beside - radius));
}

/**
 * How far rectangle and disc are apart at least: by the slab between them that stands square on the line from `q` on the
 * disc to `p` on the rectangle. It touches neither body, so no shorter way leads across.
 */
function slab(face: Face, p: Vec3, on: OnCentreline, radius: number, q: Vec3): number {
  const d = unit(sub(p, q));
  const ofFace = dot(face.centre, d) - face.halfU * Math.abs(dot(face.u, d)) - face.halfV * Math.abs(dot(face.v, d));
  const along = dot(on.tangent, d);
  return ofFace - dot(on.point, d) - radius * Math.sqrt(Math.max(0, 1 - along * along));
}

/**
 * Between the rectangle and the disc; what is not less than `enough` may come back as `enough`. Both are convex, so
 * going to and fro between the nearest points of the one and the other closes in on the shortest way; the slab says when
 * it is there. Where it closes in too slowly (the two nearly parallel), both coordinates of the rectangle are searched.
 */
function faceToDisc(face: Face, on: OnCentreline, radius: number, enough: number): number {
  let p = nearestOnFace(face, on.point);
  for (let i = 0; i < TO_AND_FRO; i++) {
    const q = nearestOnDisc(p, on, radius);
    p = nearestOnFace(face, q);
    const far = distance(p, q);
    const least = slab(face, p, on, radius, q);
    if (least >= enough) return enough;
    if (far - least <= CLOSE) return far;
  }
  return minimise(
    (a) => minimise((b) => toDisc(onFace(face, a, b), on, radius), -face.halfV, face.halfV),
    -face.halfU,
    face.halfU,
  );
}

/**
 * Where on [from, to] a leg comes nearest to the rectangle. Exact: the square of the distance is a sum of squares of
 * linear functions, one for each direction in which the leg is beside the rectangle, and so a parabola between the
 * places where it comes beside it or leaves it.
 */
function nearestOnLeg(face: Face, leg: Leg, from: number, to: number): number {
  const rel = sub(leg.from, face.centre);
  const sides = [
    { axis: cross(face.u, face.v), half: 0 },
    { axis: face.u, half: face.halfU },
    { axis: face.v, half: face.halfV },
  ].map(({ axis, half }) => ({ at: dot(rel, axis), slope: dot(leg.direction, axis), half }));
  const marks = [from, to];
  for (const { at, slope, half } of sides) {
    for (const edge of [-half, half]) {
      const along = (edge - at) / slope;
      if (along > from && along < to) marks.push(along);
    }
  }
  marks.sort((a, b) => a - b);
  let best = from;
  let least = Infinity;
  for (let i = 1; i < marks.length; i++) {
    const [low, high] = [marks[i - 1] as number, marks[i] as number];
    const middle = (low + high) / 2;
    let [falls, bends] = [0, 0];
    for (const { at, slope, half } of sides) {
      const there = at + slope * middle;
      if (Math.abs(there) < half) continue;
      falls += slope * (at - Math.sign(there) * half);
      bends += slope * slope;
    }
    const along = bends > 0 ? Math.min(high, Math.max(low, -falls / bends)) : middle;
    let square = 0;
    for (const { at, slope, half } of sides) square += Math.max(0, Math.abs(at + slope * along) - half) ** 2;
    if (square < least) [best, least] = [along, square];
  }
  return best;
}

/** Steps to the place where a slope is 0, at most; how near it is found, mm. */
const ROOT_STEPS = 60;
const FOUND = 1e-10;

/**
 * Where on a short stretch of an arc the centreline comes nearest to the rectangle: at an end, or where the line between
 * them is square to the arc. The square of the distance to a convex body has no kinks, so its slope is solved for (the
 * "Illinois" method; Dowell and Jarratt 1971).
 */
function nearestOnArc(face: Face, arc: Arc, from: number, to: number): number {
  const at = (along: number): { readonly slope: number; readonly square: number } => {
    const on = onPiece(arc, along);
    const line = sub(on.point, nearestOnFace(face, on.point));
    return { slope: dot(line, on.tangent), square: dot(line, line) };
  };
  const [first, last] = [at(from), at(to)];
  if (first.slope >= 0 || last.slope <= 0) return first.square <= last.square ? from : to;
  let [low, high] = [from, to];
  let [falling, rising] = [first.slope, last.slope];
  for (let i = 0, side = 0; i < ROOT_STEPS && high - low > FOUND; i++) {
    const along = (low * rising - high * falling) / (rising - falling);
    const { slope } = at(along);
    if (Math.abs(slope) < FOUND) return along;
    if (slope > 0) {
      [high, rising] = [along, slope];
      if (side === 1) falling /= 2;
      side = 1;
    } else {
      [low, falling] = [along, slope];
      if (side === -1) rising /= 2;
      side = -1;
    }
  }
  return (low + high) / 2;
}

/** Between the rectangle and the side of the tube about one piece, where the line is square to the piece; else null. */
function toSide(face: Face, piece: Piece, from: number, to: number, radius: number): number | null {
  const along = piece.kind === 'leg' ? nearestOnLeg(face, piece, from, to) : nearestOnArc(face, piece, from, to);
  const on = onPiece(piece, along);
  const line = sub(nearestOnFace(face, on.point), on.point);
  const far = norm(line);
  return Math.abs(dot(line, on.tangent)) <= SQUARE * far + PIERCED ? far - radius : null;
}

/** No part of the tube about this piece can be nearer than this: from the rectangle's middle, less all that reaches. */
const lowerBound = (face: Face, piece: Piece, radius: number): number =>
  distance(onPiece(piece, alongPiece(piece, face.centre)).point, face.centre) -
  Math.hypot(face.halfU, face.halfV) -
  radius;

/** The same for a whole tube. Cheap: whoever looks for the nearest of many tubes begins with the least. */
export function tubeAtLeast(rectangle: Rectangle, centreline: Centreline, stretch: Stretch, radius: number): number {
  const face = faceOf(rectangle);
  const beyond = Math.max(0, -stretch.from, stretch.to - centreline.length);
  return Math.min(...centreline.pieces.map((piece) => lowerBound(face, piece, radius))) - beyond;
}

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
  // What may be nearest comes first: then most of the others need not be looked at.
  const pieces = centreline.pieces
    .map((piece, i) => ({ piece, i, bound: lowerBound(face, piece, radius) }))
    .sort((a, b) => a.bound - b.bound);
  for (const { piece, i, bound } of pieces) {
    // The end pieces go on beyond the end nodes where the tube runs past them.
    const from = i === 0 ? stretch.from : Math.max(0, stretch.from - piece.start);
    const to =
      i === centreline.pieces.length - 1 ? stretch.to - piece.start : Math.min(piece.length, stretch.to - piece.start);
    if (to < from || bound - Math.max(0, -from, to - piece.length) >= least) continue;
    const cuts = piece.kind === 'arc' ? Math.ceil((to - from) / piece.radius / ARC_STEP) : 1;
    const step = (to - from) / Math.max(1, cuts);
    for (let k = 0; k < Math.max(1, cuts); k++) {
      const middle = onPiece(piece, from + (k + 0.5) * step).point;
      if (cuts > 1 && distance(middle, nearestOnFace(face, middle)) - step / 2 - radius >= least) continue;
      const found = toSide(face, piece, from + k * step, from + (k + 1) * step, radius);
      if (found !== null) least = Math.min(least, found);
    }
  }
  for (const station of [stretch.from, stretch.to]) {
    const end = endOf(centreline, station);
    const p = nearestOnFace(face, end.point);
    if (distance(p, end.point) - radius < least) least = Math.min(least, faceToDisc(face, end, radius, least));
  }
  return Math.max(0, least);
}

/** The point at a station; beyond the ends (a tube that runs past its node) the end leg goes on. */
function endOf(centreline: Centreline, station: number): OnCentreline {
  const on = pointAt(centreline, station);
  const beyond = station < 0 ? station : Math.max(0, station - centreline.length);
  return { ...on, point: addScaled(on.point, on.tangent, beyond), station };
}
