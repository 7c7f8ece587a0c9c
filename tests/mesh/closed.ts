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
  const edges = new Map<string, number>();
  const wrong: string[] = [];
  const at = (v: number, k: number): number => places[v * 3 + k] ?? NaN;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t] ?? 0, triangles[t + 1] ?? 0, triangles[t + 2] ?? 0];
    for (const [p, q] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const)
      edges.set(`${String(p)} ${String(q)}`, (edges.get(`${String(p)} ${String(q)}`) ?? 0) + 1);
    const [ux, uy, uz] = [at(b, 0) - at(a, 0), at(b, 1) - at(a, 1), at(b, 2) - at(a, 2)];
    const [vx, vy, vz] = [at(c, 0) - at(a, 0), at(c, 1) - at(a, 1), at(c, 2) - at(a, 2)];
    const area = Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
    if (!(area > 0)) wrong.push(`triangle ${String(t / 3)} has no area`);
  }
  for (const [edge, count] of edges) {
    const [p, q] = edge.split(' ');
    if (count !== 1 || edges.get(`${q ?? ''} ${p ?? ''}`) !== 1)
      wrong.push(`edge ${edge} is there ${String(count)} times`);
  }
  return wrong;
}
