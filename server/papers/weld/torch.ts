/** Whether a torch can stand in a groove: a straight nozzle against tubes and panels. Millimetres, radians. */
import type { Torch as ToldTorch } from '../../cage/cage';
import { betweenStretches } from '../../centreline/stretches';
import type { Vec3 } from '../../centreline/vector';
import { add, addScaled, cross, dot, norm, scale, sub, unit } from '../../centreline/vector';
import { crossesTriangle } from '../order/through';

/** Nozzle's diameter, and what of it has to find room behind the weld. */
export interface Torch {
  readonly nozzle: number;
  readonly reach: number;
  /** From the weld to where the nozzle begins. */
  readonly stickOut: number;
  /** It may lean so far from the middle of the groove, either way. */
  readonly lean: number;
}

/** Sizes of a small hand torch: common practice, no source. */
export const TORCH: Torch = { nozzle: 18, reach: 90, stickOut: 10, lean: Math.PI / 6 };

/** The torch of the file; what it does not tell is that of `TORCH`. */
export function torchOf(told: Pick<ToldTorch, 'nozzle' | 'reach' | 'stickOut' | 'lean'> | null): Torch {
  // Neither assumed length contradicts the told one: a nozzle never begins behind its end.
  const stickOut = Math.min(told?.stickOut ?? TORCH.stickOut, told?.reach ?? Infinity);
  return {
    nozzle: told?.nozzle ?? TORCH.nozzle,
    reach: Math.max(told?.reach ?? TORCH.reach, stickOut),
    stickOut,
    lean: told?.lean ?? TORCH.lean,
  };
}

/** What stands in the way: a stretch of tube with its radius, or a face (radius 0). */
export type Obstacle =
  | {
      readonly kind: 'tube';
      readonly name: string;
      readonly a: Vec3;
      readonly b: Vec3;
      readonly radius: number;
      readonly moves: boolean;
    }
  | {
      readonly kind: 'face';
      readonly name: string;
      readonly corners: readonly [Vec3, Vec3, Vec3];
      readonly moves: boolean;
    };

function pointToFace(p: Vec3, [a, b, c]: readonly [Vec3, Vec3, Vec3]): number {
  const n = cross(sub(b, a), sub(c, a));
  const size = norm(n);
  if (size < 1e-9) return Infinity;
  const inside = [
    [a, b],
    [b, c],
    [c, a],
  ].every(([from, to]) => dot(cross(sub(to ?? a, from ?? a), sub(p, from ?? a)), n) >= 0);
  return inside ? Math.abs(dot(sub(p, a), n)) / size : Infinity;
}

function stretchToFace(p: Vec3, q: Vec3, corners: readonly [Vec3, Vec3, Vec3]): number {
  const [a, b, c] = corners;
  if (crossesTriangle(p, q, a, b, c)) return 0;
  return Math.min(
    pointToFace(p, corners),
    pointToFace(q, corners),
    betweenStretches(p, q, a, b),
    betweenStretches(p, q, b, c),
    betweenStretches(p, q, c, a),
  );
}

/** True where a nozzle along p to q, its ends rounded, meets it. */
const meets = (p: Vec3, q: Vec3, radius: number, it: Obstacle): boolean =>
  it.kind === 'tube'
    ? betweenStretches(p, q, it.a, it.b) < radius + it.radius
    : stretchToFace(p, q, it.corners) < radius;

/** The middle of the groove, then rings at half the lean and at the whole. */
export function waysOf(middle: Vec3, lean: number): readonly Vec3[] {
  const side = unit(cross(middle, Math.abs(middle[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const other = cross(middle, side);
  const ring = (angle: number, count: number): readonly Vec3[] =>
    Array.from({ length: count }, (_, i) => {
      const turn = (2 * Math.PI * i) / count;
      const out = add(scale(side, Math.cos(turn)), scale(other, Math.sin(turn)));
      return add(scale(middle, Math.cos(angle)), scale(out, Math.sin(angle)));
    });
  return [middle, ...ring(lean / 2, 8), ...ring(lean, 12)];
}

/** Null: the torch finds a way. Otherwise the names of what stands in the middle of the groove or, if it is free, in any way. */
export function blockersAt(
  point: Vec3,
  middle: Vec3,
  obstacles: readonly Obstacle[],
  torch: Torch,
): readonly string[] | null {
  const radius = torch.nozzle / 2;
  const names = new Set<string>();
  for (const way of waysOf(middle, torch.lean)) {
    const [p, q] = [addScaled(point, way, torch.stickOut), addScaled(point, way, torch.reach)];
    const hit = obstacles.find((it) => meets(p, q, radius, it));
    if (hit === undefined) return null;
    names.add(hit.name);
  }
  return [...names];
}
