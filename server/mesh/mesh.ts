/** A closed surface of triangles, and what can be read off one. Millimetres in the car's frame. */
import type { Vec3 } from '../centreline/vector';

export interface Mesh {
  /** x, y, z of each corner; where an edge is sharp its corners stand twice. */
  readonly positions: Float32Array;
  /** Unit normal of each corner, outward. */
  readonly normals: Float32Array;
  /** Three a triangle, counter-clockwise seen from outside. */
  readonly indices: Uint32Array;
  /** x, y, z of both ends of each line that is drawn on it. */
  readonly lines: Float32Array;
}

/** Two corners of the box round surface and lines; null where there is neither. */
export function boxOf(mesh: Mesh): readonly [Vec3, Vec3] | null {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const list of [mesh.positions, mesh.lines]) {
    for (let i = 0; i < list.length; i++) {
      const value = list[i] as number;
      const k = (i % 3) as 0 | 1 | 2;
      if (value < low[k]) low[k] = value;
      if (value > high[k]) high[k] = value;
    }
  }
  return low[0] <= high[0] ? [low, high] : null;
}

/** What a closed surface encloses, mm³: the divergence theorem, one tetrahedron a triangle, seen from its first corner. */
export function volumeOf({ positions, indices }: Mesh): number {
  const [ox, oy, oz] = [positions[0] ?? 0, positions[1] ?? 0, positions[2] ?? 0];
  let six = 0;
  const at = (t: number, k: number): number => positions[(indices[t] as number) * 3 + k] as number;
  for (let t = 0; t < indices.length; t += 3) {
    const [ax, ay, az] = [at(t, 0) - ox, at(t, 1) - oy, at(t, 2) - oz];
    const [bx, by, bz] = [at(t + 1, 0) - ox, at(t + 1, 1) - oy, at(t + 1, 2) - oz];
    const [cx, cy, cz] = [at(t + 2, 0) - ox, at(t + 2, 1) - oy, at(t + 2, 2) - oz];
    six += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  }
  return six / 6;
}

const joined = (lists: readonly Float32Array[]): Float32Array => {
  const all = new Float32Array(lists.reduce((sum, list) => sum + list.length, 0));
  let at = 0;
  for (const list of lists) {
    all.set(list, at);
    at += list.length;
  }
  return all;
};

/** Several surfaces as one; null where none is known. */
export function merged(meshes: readonly (Mesh | null)[]): Mesh | null {
  const known = meshes.filter((mesh) => mesh !== null);
  if (known.length < 2) return known[0] ?? null;
  const indices = new Uint32Array(known.reduce((sum, mesh) => sum + mesh.indices.length, 0));
  let [at, corners] = [0, 0];
  for (const mesh of known) {
    for (const index of mesh.indices) indices[at++] = index + corners;
    corners += mesh.positions.length / 3;
  }
  return {
    positions: joined(known.map((mesh) => mesh.positions)),
    normals: joined(known.map((mesh) => mesh.normals)),
    indices,
    lines: joined(known.map((mesh) => mesh.lines)),
  };
}

/** FNV-1a over 32-bit words, twice with different seeds: from memory; it tells meshes apart and keeps no secret. */
function hashOf(words: Uint32Array, seed: number): number {
  let hash = seed;
  for (const word of words) hash = Math.imul(hash ^ word, 0x01000193);
  return hash >>> 0;
}

/** A short text that is the same for the same mesh, in any run. */
export function keyOf({ positions, indices, lines }: Mesh): string {
  const lists = [positions, indices, lines].map((l) => new Uint32Array(l.buffer, l.byteOffset, l.length));
  return [0x811c9dc5, 0x9747b28c]
    .map((seed) => lists.reduce((hash, list) => hashOf(list, hash ^ list.length), seed))
    .map((hash) => hash.toString(16).padStart(8, '0'))
    .join('');
}
