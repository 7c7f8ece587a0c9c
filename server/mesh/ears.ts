/** Cuts a flat outline into triangles, ear by ear (G. H. Meisters, Polygons have ears, 1975). */
import type { Vec3 } from '../centreline/vector';
import { cross, dot, sub } from '../centreline/vector';
import { normalOf } from './builder';

export type Triangle = readonly [number, number, number];

/**
 * Triangles between the points of a plain outline, turning as it does; null where it crosses itself or has no area. It
 * may be a little out of flat: it is looked at square to its mean plane.
 */
export function ears(outline: readonly Vec3[]): readonly Triangle[] | null {
  const normal = normalOf(outline);
  const at = (i: number): Vec3 => outline[i] ?? [0, 0, 0];
  /** Twice the area, above 0 where it turns to the left. */
  const turn = (a: number, b: number, c: number): number => dot(cross(sub(at(b), at(a)), sub(at(c), at(a))), normal);
  const size = Math.max(...outline.map((p) => Math.hypot(...sub(p, at(0)))));
  const nothing = 1e-12 * size * size;
  const inside = (p: number, a: number, b: number, c: number): boolean =>
    turn(a, b, p) >= -nothing && turn(b, c, p) >= -nothing && turn(c, a, p) >= -nothing;
  const left = outline.map((_, i) => i);
  const triangles: Triangle[] = [];
  while (left.length > 2) {
    const ear = left.findIndex((b, i) => {
      const a = left[(i + left.length - 1) % left.length] ?? 0;
      const c = left[(i + 1) % left.length] ?? 0;
      if (turn(a, b, c) <= nothing) return false;
      return !left.some((p) => p !== a && p !== b && p !== c && inside(p, a, b, c));
    });
    const b = left[ear];
    if (b === undefined) return null;
    triangles.push([left[(ear + left.length - 1) % left.length] ?? 0, b, left[(ear + 1) % left.length] ?? 0]);
    left.splice(ear, 1);
  }
  return triangles;
}
