/** Flat-sided bodies: boxes, prisms, discs, thin plates by their edge. Millimetres. */
import type { Triangle } from '../centreline/outline';
import { ears, normalOf } from '../centreline/outline';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, cross, dot, norm, scale, sub, unit } from '../centreline/vector';
import { Builder } from './builder';
import type { Mesh } from './mesh';

/** The triangles of a face seen from its other side, between its points in the other order. */
export const mirrored = (facets: readonly Triangle[], count: number): readonly Triangle[] =>
  facets.map(([a, b, c]) => [count - 1 - c, count - 1 - b, count - 1 - a] as const);

/**
 * A prism over a flat outline, by `rise`; null where the outline cannot be cut into triangles. Its edges are its lines.
 * `round`: it stands for a round one, whose upright edges are no lines.
 */
export function prism(outline: readonly Vec3[], rise: Vec3, round = false): Mesh | null {
  if (outline.length < 3) return null;
  const normal = normalOf(outline);
  // Counter-clockwise seen from the side that it rises to.
  const base = dot(normal, rise) < 0 ? [...outline].reverse() : outline;
  const triangles = round ? fan(base.length) : ears(base);
  if (triangles === null || !(norm(rise) > 0)) return null;
  const build = new Builder();
  const top = base.map((at) => add(at, rise));
  build.facets(top, triangles);
  build.facets([...base].reverse(), mirrored(triangles, base.length));
  for (const [i, a] of base.entries()) {
    const k = (i + 1) % base.length;
    const [b, up, next] = [base[k], top[i], top[k]];
    if (b === undefined || up === undefined || next === undefined) continue;
    build.face([a, b, next, up]);
    if (!round) build.line(a, up);
  }
  build.loop(base);
  build.loop(top);
  return build.mesh();
}

const fan = (corners: number): readonly Triangle[] =>
  Array.from({ length: corners - 2 }, (_, i) => [0, i + 1, i + 2] as const);

/** A box by its middle and its half edges. */
export function box(centre: Vec3, [a, b, c]: readonly [Vec3, Vec3, Vec3]): Mesh | null {
  const corner = (i: number, j: number): Vec3 => addScaled(addScaled(sub(centre, c), a, i), b, j);
  return prism([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)], scale(c, 2));
}

/** Two directions square to a unit vector and to each other, right-handed about it. */
export function across(axis: Vec3): readonly [Vec3, Vec3] {
  const aside = unit(cross(axis, Math.abs(axis[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  return [aside, cross(axis, aside)];
}

/** Points of a circle about `axis`. */
export function circle(centre: Vec3, axis: Vec3, radius: number, sides: number): readonly Vec3[] {
  const [p, q] = across(axis);
  return Array.from({ length: sides }, (_, i) => {
    const angle = (2 * Math.PI * i) / sides;
    return addScaled(addScaled(centre, p, radius * Math.cos(angle)), q, radius * Math.sin(angle));
  });
}

/** A round plate from `centre` along the unit vector `axis`. */
export const disc = (centre: Vec3, axis: Vec3, radius: number, thick: number, sides = 16): Mesh | null =>
  prism(circle(centre, axis, radius, sides), scale(axis, thick), true);

/** A ball: rings of latitude between two poles. */
export function ball(centre: Vec3, radius: number, sides = 48): Mesh | null {
  if (!(radius > 0 && radius < Infinity)) return null;
  const build = new Builder();
  const rows = sides / 2;
  const point = (row: number, i: number): number => {
    const [latitude, longitude] = [(Math.PI * row) / rows, (2 * Math.PI * i) / sides];
    const normal: Vec3 = [
      Math.sin(latitude) * Math.cos(longitude),
      Math.sin(latitude) * Math.sin(longitude),
      Math.cos(latitude),
    ];
    return build.corner(addScaled(centre, normal, radius), normal);
  };
  const top = build.corner(addScaled(centre, [0, 0, 1], radius), [0, 0, 1]);
  const bottom = build.corner(addScaled(centre, [0, 0, -1], radius), [0, 0, -1]);
  const rings = Array.from({ length: rows - 1 }, (_, k) => Array.from({ length: sides }, (_i, i) => point(k + 1, i)));
  for (let i = 0; i < sides; i++) {
    const j = (i + 1) % sides;
    const at = (k: number, n: number): number => rings[k]?.[n] ?? 0;
    build.triangle(top, at(0, i), at(0, j));
    build.triangle(bottom, at(rows - 2, j), at(rows - 2, i));
    for (let k = 0; k + 1 < rings.length; k++) {
      build.triangle(at(k, i), at(k + 1, i), at(k + 1, j));
      build.triangle(at(k, i), at(k + 1, j), at(k, j));
    }
  }
  return build.mesh();
}
