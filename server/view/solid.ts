/**
 * What can be measured to, as convex pieces, and the shortest line between two of them. Exact bodies, not meshes:
 * tubes about their bent centrelines, plates, the seat's rear face, balls, points.
 */
import type { Centreline, Piece } from '../centreline/centreline';
import { alongPiece, onPiece } from '../centreline/piece';
import { nearestBetween } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, cross, distance, dot, norm, scale, sub } from '../centreline/vector';

/** A convex piece of a body, or an arc, which is convex enough for what lies near it. */
export type Solid =
  | { readonly kind: 'tube'; readonly piece: Piece; readonly radius: number }
  /** A plate or a flat face: half edges square to each other; one of them may have no length. */
  | { readonly kind: 'box'; readonly centre: Vec3; readonly halves: readonly Vec3[] }
  | { readonly kind: 'ball'; readonly centre: Vec3; readonly radius: number }
  | { readonly kind: 'facet'; readonly corners: readonly [Vec3, Vec3, Vec3] };

/** A line between two bodies, mm. */
export interface Between {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly distance: number;
}

/** Times to and fro between two bodies, and what is close enough, mm. */
const TO_AND_FRO = 200;
const CLOSE = 1e-10;

/** The point of a solid nearest to `p`; `p` itself where it is inside. Exact. */
export function nearestIn(solid: Solid, p: Vec3): Vec3 {
  switch (solid.kind) {
    case 'tube': {
      // Of a flat-ended tube: beside the axis at most its radius, along it at most to its ends.
      const on = onPiece(solid.piece, alongPiece(solid.piece, p));
      const rel = sub(p, on.point);
      const aside = addScaled(rel, on.tangent, -dot(rel, on.tangent));
      const far = norm(aside);
      return addScaled(on.point, aside, far > solid.radius ? solid.radius / far : 1);
    }
    case 'box': {
      const rel = sub(p, solid.centre);
      return solid.halves.reduce<Vec3>((at, half) => {
        const size = dot(half, half);
        if (!(size > 0)) return at;
        return addScaled(at, half, Math.max(-1, Math.min(1, dot(rel, half) / size)));
      }, solid.centre);
    }
    case 'ball': {
      const rel = sub(p, solid.centre);
      const far = norm(rel);
      return far > solid.radius ? addScaled(solid.centre, rel, solid.radius / far) : p;
    }
    case 'facet':
      return onFacet(solid.corners, p);
  }
}

function onEdge(a: Vec3, b: Vec3, p: Vec3): Vec3 {
  const along = sub(b, a);
  const size = dot(along, along);
  return addScaled(a, along, size > 0 ? Math.min(1, Math.max(0, dot(sub(p, a), along) / size)) : 0);
}

/** The point of a triangle nearest to `p`: straight above it, or on an edge. */
function onFacet([a, b, c]: readonly [Vec3, Vec3, Vec3], p: Vec3): Vec3 {
  const n = cross(sub(b, a), sub(c, a));
  const size = dot(n, n);
  const edges = [
    [a, b],
    [b, c],
    [c, a],
  ] as const;
  if (size > 0 && edges.every(([from, to]) => dot(cross(sub(to, from), sub(p, from)), n) >= 0))
    return addScaled(p, n, -dot(sub(p, a), n) / size);
  return edges
    .map(([from, to]) => onEdge(from, to, p))
    .reduce((best, one) => (distance(one, p) < distance(best, p) ? one : best));
}

const alone = (piece: Piece): Centreline => ({ pieces: [piece], length: piece.length, points: [] });

function middleOf(solid: Solid): Vec3 {
  if (solid.kind === 'tube') return onPiece(solid.piece, solid.piece.length / 2).point;
  if (solid.kind !== 'facet') return solid.centre;
  const [a, b, c] = solid.corners;
  return scale(add(add(a, b), c), 1 / 3);
}

const reachOf = (solid: Solid): number => {
  switch (solid.kind) {
    case 'tube':
      return solid.piece.length / 2 + solid.radius;
    case 'box':
      return Math.hypot(...solid.halves.map(norm));
    case 'ball':
      return solid.radius;
    case 'facet':
      return Math.max(...solid.corners.map((corner) => distance(corner, middleOf(solid))));
  }
};

/** Where the search of two begins: for tubes where their axes are nearest, which is right but at their ends. */
function beginOf(a: Solid, b: Solid): Vec3 {
  if (a.kind === 'tube' && b.kind === 'tube') return nearestBetween(alone(a.piece), alone(b.piece)).onB.point;
  if (b.kind === 'tube') return onPiece(b.piece, alongPiece(b.piece, middleOf(a))).point;
  return middleOf(b);
}

/**
 * The shortest line between two solids; of no length where they touch. Both are convex, so going to and fro between the
 * nearest points of the one and the other closes in on it (Cheney and Goldstein 1959).
 */
function between(a: Solid, b: Solid): Between {
  let q = beginOf(a, b);
  let p = nearestIn(a, q);
  let far = Infinity;
  for (let i = 0; i < TO_AND_FRO; i++) {
    q = nearestIn(b, p);
    p = nearestIn(a, q);
    const now = distance(p, q);
    if (far - now < CLOSE) break;
    far = now;
  }
  return { from: p, to: q, distance: distance(p, q) };
}

/** The shortest line between two bodies of some solids each; null where one of them has none. */
export function shortest(as: readonly Solid[], bs: readonly Solid[]): Between | null {
  const pairs = as
    .flatMap((a) => bs.map((b) => ({ a, b, bound: distance(middleOf(a), middleOf(b)) - reachOf(a) - reachOf(b) })))
    .sort((one, other) => one.bound - other.bound);
  let best: Between | null = null;
  for (const { a, b, bound } of pairs) {
    if (best !== null && bound >= best.distance) break;
    const found = between(a, b);
    if (best === null || found.distance < best.distance) best = found;
  }
  return best;
}
