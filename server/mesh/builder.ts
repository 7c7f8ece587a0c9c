/** Puts a mesh together, corner by corner. What is not finite makes no mesh. Millimetres. */
import type { Vec3 } from '../centreline/vector';
import { cross, norm, sub } from '../centreline/vector';
import type { Mesh } from './mesh';

export class Builder {
  private readonly positions: number[] = [];
  private readonly normals: number[] = [];
  private readonly indices: number[] = [];
  private readonly lines: number[] = [];

  /** Adds a corner; gives its index. */
  corner(at: Vec3, normal: Vec3): number {
    this.positions.push(at[0], at[1], at[2]);
    this.normals.push(normal[0], normal[1], normal[2]);
    return this.positions.length / 3 - 1;
  }

  /** Counter-clockwise seen from outside. */
  triangle(a: number, b: number, c: number): void {
    this.indices.push(a, b, c);
  }

  /** A flat face by its edge, counter-clockwise seen from outside, as a fan from its first corner: convex ones. */
  face(points: readonly Vec3[]): void {
    const triangles = Array.from({ length: Math.max(0, points.length - 2) }, (_, i) => [0, i + 1, i + 2] as const);
    this.facets(points, triangles);
  }

  /** A flat face of triangles between its corners. */
  facets(points: readonly Vec3[], triangles: readonly (readonly [number, number, number])[]): void {
    const normal = normalOf(points);
    const first = this.positions.length / 3;
    for (const at of points) this.corner(at, normal);
    for (const [a, b, c] of triangles) this.triangle(first + a, first + b, first + c);
  }

  line(a: Vec3, b: Vec3): void {
    this.lines.push(a[0], a[1], a[2], b[0], b[1], b[2]);
  }

  /** The line through all points and back to the first. */
  loop(points: readonly Vec3[]): void {
    for (const [i, at] of points.entries()) this.line(at, points[(i + 1) % points.length] ?? at);
  }

  /** How many corners and how many indices there are: what {@link smoothed} counts from. */
  get mark(): { readonly corner: number; readonly index: number } {
    return { corner: this.positions.length / 3, index: this.indices.length };
  }

  /** Gives the corners since the mark the mean of the normals of their triangles since then, by area. */
  smoothed(mark: Builder['mark']): void {
    const { normals, positions, indices } = this;
    for (let i = mark.corner * 3; i < normals.length; i++) normals[i] = 0;
    const at = (corner: number): Vec3 => [
      positions[corner * 3] as number,
      positions[corner * 3 + 1] as number,
      positions[corner * 3 + 2] as number,
    ];
    for (let t = mark.index; t < indices.length; t += 3) {
      const corners = [indices[t] as number, indices[t + 1] as number, indices[t + 2] as number] as const;
      const a = at(corners[0]);
      const area = cross(sub(at(corners[1]), a), sub(at(corners[2]), a));
      for (const corner of corners)
        for (let k = 0; k < 3; k++)
          normals[corner * 3 + k] = (normals[corner * 3 + k] as number) + (area[k as 0 | 1 | 2] ?? 0);
    }
    for (let corner = mark.corner; corner < normals.length / 3; corner++) {
      const size = Math.hypot(...[0, 1, 2].map((k) => normals[corner * 3 + k] as number));
      for (let k = 0; k < 3; k++)
        normals[corner * 3 + k] = size > 0 ? (normals[corner * 3 + k] as number) / size : k === 2 ? 1 : 0;
    }
  }

  /** Null: something in it is not finite, or there is nothing. */
  mesh(): Mesh | null {
    const { positions, normals, indices, lines } = this;
    if (positions.length === 0 && lines.length === 0) return null;
    if (![positions, normals, lines].every((list) => list.every(Number.isFinite))) return null;
    return {
      positions: Float32Array.from(positions),
      normals: Float32Array.from(normals),
      indices: Uint32Array.from(indices),
      lines: Float32Array.from(lines),
    };
  }
}

/** Unit normal of a flat face by its edge, right-handed (Newell's method); straight up where it has none. */
export function normalOf(points: readonly Vec3[]): Vec3 {
  const sum: [number, number, number] = [0, 0, 0];
  for (const [i, a] of points.entries()) {
    const b = points[(i + 1) % points.length] ?? a;
    sum[0] += (a[1] - b[1]) * (a[2] + b[2]);
    sum[1] += (a[2] - b[2]) * (a[0] + b[0]);
    sum[2] += (a[0] - b[0]) * (a[1] + b[1]);
  }
  const size = norm(sum);
  return size > 0 ? [sum[0] / size, sum[1] / size, sum[2] / size] : [0, 0, 1];
}
