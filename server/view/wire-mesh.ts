/**
 * Surfaces as they travel: small whole numbers instead of floats, a third of the size. A place is counted in steps of a
 * 65535th of the mesh's box: of a tube two metres long it is off by 0.015 mm at most, far less than the surface itself is.
 */
import type { MadeMesh } from '../mesh/meshes';
import type { Vec3 } from '../centreline/vector';
import type { Point3, WireMesh } from './model';

/** Numbers as they lie in memory. */
export type Numbers = Float32Array | Uint32Array | Uint16Array | Int8Array;

/** Numbers as they travel: packed at the edge, which knows how. */
export type Pack = (numbers: Numbers) => string;

/** The largest number of 16 and of 8 bits. */
const MOST_STEPS = 0xffff;
const LONGEST = 0x7f;

/** Places in steps from a corner of the box. */
function stepped(places: Float32Array, [x0, y0, z0]: Vec3, [x, y, z]: Vec3): Uint16Array {
  const steps = new Uint16Array(places.length);
  // Along an axis on which nothing extends all is at 0.
  const [px, py, pz] = [x > 0 ? 1 / x : 0, y > 0 ? 1 / y : 0, z > 0 ? 1 / z : 0];
  for (let i = 0; i + 2 < places.length; i += 3) {
    steps[i] = ((places[i] as number) - x0) * px + 0.5;
    steps[i + 1] = ((places[i + 1] as number) - y0) * py + 0.5;
    steps[i + 2] = ((places[i + 2] as number) - z0) * pz + 0.5;
  }
  return steps;
}

const shortNormals = (normals: Float32Array): Int8Array => {
  const short = new Int8Array(normals.length);
  for (let i = 0; i < normals.length; i++) short[i] = Math.round((normals[i] as number) * LONGEST);
  return short;
};

/** Lines that go on where the one before ended, as one stroke: its points once, and how many there are. */
function strokesOf(lines: Float32Array): { readonly points: Float32Array; readonly strokes: Uint16Array } {
  const points = new Float32Array(lines.length);
  const strokes: number[] = [];
  let [size, count] = [0, 0];
  const put = (at: number): void => {
    for (let k = 0; k < 3; k++) points[size++] = lines[at + k] as number;
    count += 1;
  };
  for (let i = 0; i + 5 < lines.length; i += 6) {
    const goesOn =
      count > 0 &&
      count < MOST_STEPS &&
      lines[i] === points[size - 3] &&
      lines[i + 1] === points[size - 2] &&
      lines[i + 2] === points[size - 1];
    if (!goesOn) {
      if (count > 0) strokes.push(count);
      count = 0;
      put(i);
    }
    put(i + 3);
  }
  if (count > 0) strokes.push(count);
  return { points: points.subarray(0, size), strokes: Uint16Array.from(strokes) };
}

export function wireMesh({ mesh, box }: MadeMesh, pack: Pack): WireMesh {
  const [from, to] = box;
  const stepOf = (axis: 0 | 1 | 2): number => (to[axis] - from[axis]) / MOST_STEPS;
  const step: Point3 = [stepOf(0), stepOf(1), stepOf(2)];
  const { points, strokes } = strokesOf(mesh.lines);
  return {
    from,
    step,
    positions: pack(stepped(mesh.positions, from, step)),
    normals: pack(shortNormals(mesh.normals)),
    indices: pack(mesh.positions.length / 3 > MOST_STEPS ? mesh.indices : Uint16Array.from(mesh.indices)),
    lines: pack(stepped(points, from, step)),
    strokes: pack(strokes),
  };
}
