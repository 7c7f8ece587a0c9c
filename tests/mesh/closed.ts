/** Whether a mesh is closed, by its corners' places: each edge twice, once each way, and no triangle without area. */
import type { Mesh } from '../../server/mesh/mesh';

/** Corners of one place are one: by their 32-bit coordinates, to the last bit. */
export function welded({ positions, indices }: Mesh): {
  readonly places: Float32Array;
  readonly triangles: Uint32Array;
} {
  const names = new Map<string, number>();
  const places: number[] = [];
  const own = Array.from({ length: positions.length / 3 }, (_, i) => {
    const at = [...positions.subarray(i * 3, i * 3 + 3)];
    const key = at.join(' ');
    const known = names.get(key);
    if (known !== undefined) return known;
    const made = names.size;
    names.set(key, made);
    places.push(...at);
    return made;
  });
  return { places: Float32Array.from(places), triangles: Uint32Array.from(indices, (i) => own[i] ?? 0) };
}

/** What is wrong with a surface, in words; empty: it is closed. */
export function leaks(mesh: Mesh): readonly string[] {
  const { triangles, places } = welded(mesh);
  const count = places.length / 3;
  /** How often each edge is there that way: from the one corner to the other. */
  const edges = new Map<number, number>();
  const wrong: string[] = [];
  const at = (v: number, k: number): number => places[v * 3 + k] ?? NaN;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t] ?? 0, triangles[t + 1] ?? 0, triangles[t + 2] ?? 0];
    for (const edge of [a * count + b, b * count + c, c * count + a]) edges.set(edge, (edges.get(edge) ?? 0) + 1);
    const [ux, uy, uz] = [at(b, 0) - at(a, 0), at(b, 1) - at(a, 1), at(b, 2) - at(a, 2)];
    const [vx, vy, vz] = [at(c, 0) - at(a, 0), at(c, 1) - at(a, 1), at(c, 2) - at(a, 2)];
    const area = Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
    if (!(area > 0)) wrong.push(`triangle ${String(t / 3)} has no area`);
  }
  for (const [edge, times] of edges) {
    const [p, q] = [Math.floor(edge / count), edge % count];
    if (times !== 1 || edges.get(q * count + p) !== 1)
      wrong.push(`edge ${String(p)} ${String(q)} is there ${String(times)} times`);
  }
  return wrong;
}
