/** The shape of one thing as the picture holds it: made of a mesh that came over the wire, once, and kept by its key. */
import { Box3, BufferAttribute, BufferGeometry, Sphere, Vector3 } from 'three';
import type { Point3, WireMesh } from '../../server/view/model';
import { surfaceOf } from './decode';

export interface Form {
  readonly key: string;
  readonly surface: BufferGeometry;
  readonly lines: BufferGeometry | null;
  /** A place on it near its middle: where words about it stand. */
  readonly middle: Point3;
}

/** The box round corners; null where there are none, or one of them is nowhere. */
function boxOf(positions: Float32Array): Box3 | null {
  let [x0, y0, z0, x1, y1, z1] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
  for (let i = 0; i + 2 < positions.length; i += 3) {
    const x = positions[i] ?? NaN;
    const y = positions[i + 1] ?? NaN;
    const z = positions[i + 2] ?? NaN;
    if (!Number.isFinite(x + y + z)) return null;
    if (x < x0) x0 = x;
    if (y < y0) y0 = y;
    if (z < z0) z0 = z;
    if (x > x1) x1 = x;
    if (y > y1) y1 = y;
    if (z > z1) z1 = z;
  }
  return x0 > x1 ? null : new Box3(new Vector3(x0, y0, z0), new Vector3(x1, y1, z1));
}

/** The corner that is nearest to the middle of the box: a bent tube's own middle is in the air. */
function nearest(positions: Float32Array, middle: Vector3): Point3 {
  let best = Infinity;
  let at = 0;
  for (let i = 0; i + 2 < positions.length; i += 3) {
    const x = (positions[i] ?? 0) - middle.x;
    const y = (positions[i + 1] ?? 0) - middle.y;
    const z = (positions[i + 2] ?? 0) - middle.z;
    const off = x * x + y * y + z * z;
    if (off < best) [best, at] = [off, i];
  }
  return [positions[at] ?? 0, positions[at + 1] ?? 0, positions[at + 2] ?? 0];
}

function allBelow(indices: Uint16Array | Uint32Array, end: number): boolean {
  for (let i = 0; i < indices.length; i++) if ((indices[i] ?? end) >= end) return false;
  return true;
}

const finite = (numbers: Float32Array): boolean => {
  for (let i = 0; i < numbers.length; i++) if (!Number.isFinite(numbers[i] ?? NaN)) return false;
  return true;
};

/** Null where the arrays do not fit together: that would be drawn as noise, or read beyond its end. */
export function formOf(key: string, mesh: WireMesh): Form | null {
  const { positions, normals, indices, lines: points } = surfaceOf(mesh);
  const box = boxOf(positions);
  if (!box || positions.length % 3 !== 0 || normals.length !== positions.length) return null;
  if (indices.length === 0 || !allBelow(indices, positions.length / 3)) return null;
  const surface = new BufferGeometry();
  surface.setAttribute('position', new BufferAttribute(positions, 3));
  surface.setAttribute('normal', new BufferAttribute(normals, 3));
  surface.setIndex(new BufferAttribute(indices, 1));
  surface.boundingBox = box;
  surface.boundingSphere = box.getBoundingSphere(new Sphere());
  let lines: BufferGeometry | null = null;
  if (points.length >= 6 && points.length % 6 === 0 && finite(points)) {
    lines = new BufferGeometry();
    lines.setAttribute('position', new BufferAttribute(points, 3));
    // They lie on the surface.
    lines.boundingSphere = surface.boundingSphere.clone();
  }
  return { key, surface, lines, middle: nearest(positions, box.getCenter(new Vector3())) };
}

/** Gives back what the graphics card holds of it. */
export const free = (form: Form | null): void => {
  form?.surface.dispose();
  form?.lines?.dispose();
};

/** Triangles that are looked at, and places along the longest side of each: a straight tube has corners at its ends only. */
const SAMPLED = 90;
const ALONG = 8;

/** Places spread over a surface, mm: some hundreds at most. */
export function spreadOver(surface: BufferGeometry): readonly Point3[] {
  const index = surface.getIndex();
  const corners = surface.getAttribute('position');
  if (!index || !(corners instanceof BufferAttribute)) return [];
  const triangles = Math.floor(index.count / 3);
  const step = Math.max(1, Math.floor(triangles / SAMPLED));
  const places: Point3[] = [];
  const corner = (at: number) => new Vector3().fromBufferAttribute(corners, index.getX(at));
  for (let triangle = 0; triangle < triangles; triangle += step) {
    const [a, b, c] = [corner(3 * triangle), corner(3 * triangle + 1), corner(3 * triangle + 2)];
    const sides = [[a, b] as const, [b, c] as const, [c, a] as const];
    const [from, to] = sides.reduce((long, side) =>
      side[0].distanceTo(side[1]) > long[0].distanceTo(long[1]) ? side : long,
    );
    for (let n = 0; n <= ALONG; n++)
      places.push(
        from
          .clone()
          .lerp(to, n / ALONG)
          .toArray(),
      );
  }
  return places;
}
