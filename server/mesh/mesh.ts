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
export function boxOf({ positions, lines }: Mesh): readonly [Vec3, Vec3] | null {
  let [ax, ay, az] = [Infinity, Infinity, Infinity];
  let [bx, by, bz] = [-Infinity, -Infinity, -Infinity];
  for (const list of [positions, lines]) {
    for (let i = 0; i + 2 < list.length; i += 3) {
      const [x, y, z] = [list[i] as number, list[i + 1] as number, list[i + 2] as number];
      if (x < ax) ax = x;
      if (x > bx) bx = x;
      if (y < ay) ay = y;
      if (y > by) by = y;
      if (z < az) az = z;
      if (z > bz) bz = z;
    }
  }
  return ax <= bx
    ? [
        [ax, ay, az],
        [bx, by, bz],
      ]
    : null;
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

/** Where two hashes begin, so that what shares the one differs in the other. */
const SEEDS = [0x811c9dc5, 0x9747b28c] as const;

/**
 * FNV-1a over numbers of up to 32 bits, twice with different seeds (from memory): it tells things apart and keeps no secret.
 * It begins where the one before ended.
 */
function hashed(words: Uint32Array, [a, b]: readonly [number, number]): readonly [number, number] {
  a ^= words.length;
  b ^= words.length;
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as number;
    a = Math.imul(a ^ word, 0x01000193);
    b = Math.imul(b ^ word, 0x01000193);
  }
  return [a, b];
}

const told = (hashes: readonly [number, number]): string =>
  hashes.map((hash) => (hash >>> 0).toString(16).padStart(8, '0')).join('');

/** A short text that is the same for the same mesh, in any run. */
export function keyOf({ positions, indices, lines }: Mesh): string {
  let hashes: readonly [number, number] = SEEDS;
  for (const list of [positions, indices, lines]) {
    hashes = hashed(new Uint32Array(list.buffer, list.byteOffset, list.length), hashes);
  }
  return told(hashes);
}

/** The same for a text. */
export function keyOfText(text: string): string {
  const words = new Uint32Array(text.length);
  for (let i = 0; i < text.length; i++) words[i] = text.charCodeAt(i);
  return told(hashed(words, SEEDS));
}
