/** Flat outlines by their corners: their normal, and the triangles that they are made of. Numbers only, millimetres. */
import type { Vec3 } from './vector';
import { cross, dot, sub } from './vector';

export type Triangle = readonly [number, number, number];

/** Unit normal of a flat face by its edge, right-handed (Newell's method); straight up where it has none. */
export function normalOf(points: readonly Vec3[]): Vec3 {
  let [x, y, z] = [0, 0, 0];
  for (let i = 0; i < points.length; i++) {
    const a = points[i] as Vec3;
    const b = points[(i + 1) % points.length] as Vec3;
    x += (a[1] - b[1]) * (a[2] + b[2]);
    y += (a[2] - b[2]) * (a[0] + b[0]);
    z += (a[0] - b[0]) * (a[1] + b[1]);
  }
  const size = Math.sqrt(x * x + y * y + z * z);
  return size > 0 ? [x / size, y / size, z / size] : [0, 0, 1];
}

/**
 * Cuts an outline into triangles, ear by ear (G. H. Meisters, Polygons have ears, 1975): between its points, turning as
 * it does; null where it crosses itself or has no area. It may be a little out of flat: it is looked at square to its
 * mean plane.
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

const same = (a: Vec3, b: Vec3): boolean => a[0] === b[0] && a[1] === b[1] && a[2] === b[2];

/**
 * A surface by its edge as triangles, also where the edge turns inward. A point that is said twice in a row counts once.
 * What crosses itself has no inside: then it is the fan from its first point.
 * None where there are fewer than three points.
 */
export function facesOf(outline: readonly Vec3[]): readonly (readonly [Vec3, Vec3, Vec3])[] {
  const points = outline.filter((p, i) => !same(p, outline[(i + 1) % outline.length] ?? p) || outline.length === 1);
  if (points.length < 3) return [];
  const triangles = ears(points) ?? points.slice(2).map((_, i): Triangle => [0, i + 1, i + 2]);
  return triangles.flatMap(([a, b, c]) => {
    const [p, q, r] = [points[a], points[b], points[c]];
    return p === undefined || q === undefined || r === undefined ? [] : [[p, q, r] as const];
  });
}
