/** Puts a mesh together, corner by corner. What is not finite makes no mesh. Millimetres. */
import { normalOf } from '../centreline/outline';
import type { Vec3 } from '../centreline/vector';
import type { Mesh } from './mesh';

/** Numbers one after the other, in an array that grows. */
class Growing<A extends Float32Array<ArrayBuffer> | Uint32Array<ArrayBuffer>> {
  size = 0;

  constructor(
    public list: A,
    private readonly longer: (size: number) => A,
  ) {}

  /** Room for so many more; gives the place of the first. */
  more(count: number): number {
    const at = this.size;
    this.size += count;
    if (this.size > this.list.length) {
      const { list } = this;
      this.list = this.longer(Math.max(this.size, 2 * list.length));
      this.list.set(list);
    }
    return at;
  }
}

const floats = (size: number): Growing<Float32Array<ArrayBuffer>> =>
  new Growing(new Float32Array(size), (n) => new Float32Array(n));

/** Corners for which there is room at first. */
const FEW = 256;

export class Builder {
  private readonly positions: Growing<Float32Array<ArrayBuffer>>;
  private readonly normals: Growing<Float32Array<ArrayBuffer>>;
  private readonly lines = floats(3 * FEW);
  private readonly indices: Growing<Uint32Array<ArrayBuffer>>;

  /** @param corners about so many there will be */
  constructor(corners = FEW) {
    this.positions = floats(3 * corners);
    this.normals = floats(3 * corners);
    this.indices = new Growing(new Uint32Array(6 * corners), (n) => new Uint32Array(n));
  }

  /** Adds a corner; gives its index. */
  corner(at: Vec3, normal: Vec3): number {
    return this.cornerAt(at[0], at[1], at[2], normal[0], normal[1], normal[2]);
  }

  cornerAt(x: number, y: number, z: number, nx: number, ny: number, nz: number): number {
    const at = this.positions.more(3);
    this.normals.more(3);
    const p = this.positions.list;
    const n = this.normals.list;
    p[at] = x;
    p[at + 1] = y;
    p[at + 2] = z;
    n[at] = nx;
    n[at + 1] = ny;
    n[at + 2] = nz;
    return at / 3;
  }

  /** Counter-clockwise seen from outside. */
  triangle(a: number, b: number, c: number): void {
    const at = this.indices.more(3);
    const { list } = this.indices;
    list[at] = a;
    list[at + 1] = b;
    list[at + 2] = c;
  }

  /** A flat face by its edge, counter-clockwise seen from outside, as a fan from its first corner: convex ones. */
  face(points: readonly Vec3[]): void {
    const normal = normalOf(points);
    const first = this.positions.size / 3;
    for (const at of points) this.corner(at, normal);
    for (let i = 1; i + 1 < points.length; i++) this.triangle(first, first + i, first + i + 1);
  }

  /** A flat face of triangles between its corners. */
  facets(points: readonly Vec3[], triangles: readonly (readonly [number, number, number])[]): void {
    const normal = normalOf(points);
    const first = this.positions.size / 3;
    for (const at of points) this.corner(at, normal);
    for (const [a, b, c] of triangles) this.triangle(first + a, first + b, first + c);
  }

  line(a: Vec3, b: Vec3): void {
    const at = this.lines.more(6);
    const { list } = this.lines;
    for (let k = 0; k < 3; k++) {
      list[at + k] = a[k] as number;
      list[at + 3 + k] = b[k] as number;
    }
  }

  /** The line through all points and back to the first. */
  loop(points: readonly Vec3[]): void {
    for (let i = 0; i < points.length; i++) this.line(points[i] as Vec3, points[(i + 1) % points.length] as Vec3);
  }

  /** Lines from corner to corner, round and back. */
  loopOf(first: number, count: number): void {
    const start = this.lines.more(6 * count);
    const { list } = this.lines;
    const p = this.positions.list;
    for (let i = 0; i < count; i++) {
      const [a, b] = [3 * (first + i), 3 * (first + ((i + 1) % count))];
      for (let k = 0; k < 3; k++) {
        list[start + 6 * i + k] = p[a + k] as number;
        list[start + 6 * i + 3 + k] = p[b + k] as number;
      }
    }
  }

  /** How many corners and how many indices there are: what {@link smoothed} counts from. */
  get mark(): { readonly corner: number; readonly index: number } {
    return { corner: this.positions.size / 3, index: this.indices.size };
  }

  /**
   * Gives the corners since the mark the mean of the normals of their triangles since then, by area. A triangle that looks
   * another way than such a mean, as beside a notch, gets corners and a normal of its own.
   */
  smoothed(mark: Builder['mark']): void {
    const n = this.normals.list;
    const { size } = this.indices;
    n.fill(0, mark.corner * 3, this.normals.size);
    for (let t = mark.index; t < size; t += 3) {
      const { list } = this.indices;
      const [x, y, z] = this.square(list[t] as number, list[t + 1] as number, list[t + 2] as number);
      for (let i = 0; i < 3; i++) {
        const corner = 3 * (list[t + i] as number);
        n[corner] = (n[corner] as number) + x;
        n[corner + 1] = (n[corner + 1] as number) + y;
        n[corner + 2] = (n[corner + 2] as number) + z;
      }
    }
    for (let at = mark.corner * 3; at < this.normals.size; at += 3) {
      const [x, y, z] = [n[at] as number, n[at + 1] as number, n[at + 2] as number];
      const long = Math.sqrt(x * x + y * y + z * z);
      n[at] = long > 0 ? x / long : 0;
      n[at + 1] = long > 0 ? y / long : 0;
      n[at + 2] = long > 0 ? z / long : 1;
    }
    for (let t = mark.index; t < size; t += 3) this.turned(t);
  }

  /** True where a triangle between corners would look against their normals. */
  folds(a: number, b: number, c: number): boolean {
    const [x, y, z] = this.square(a, b, c);
    const n = this.normals.list;
    const along = (k: number): number => (n[3 * a + k] as number) + (n[3 * b + k] as number) + (n[3 * c + k] as number);
    return x * along(0) + y * along(1) + z * along(2) < 0;
  }

  /** Square to a triangle between corners, as long as twice its area. */
  private square(i: number, j: number, k: number): Vec3 {
    const p = this.positions.list;
    const [a, b, c] = [3 * i, 3 * j, 3 * k];
    const [ax, ay, az] = [p[a] as number, p[a + 1] as number, p[a + 2] as number];
    const [ux, uy, uz] = [(p[b] as number) - ax, (p[b + 1] as number) - ay, (p[b + 2] as number) - az];
    const [vx, vy, vz] = [(p[c] as number) - ax, (p[c + 1] as number) - ay, (p[c + 2] as number) - az];
    return [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  }

  /** Gives a triangle its own corners where one of their normals looks away from it by more than 75 degrees. */
  private turned(t: number): void {
    const { list } = this.indices;
    const [a, b, c] = [list[t] as number, list[t + 1] as number, list[t + 2] as number];
    const [x, y, z] = this.square(a, b, c);
    const long = Math.sqrt(x * x + y * y + z * z);
    if (!(long > 0)) return;
    const [nx, ny, nz] = [x / long, y / long, z / long];
    if (this.looks(a, nx, ny, nz) > 0.26 && this.looks(b, nx, ny, nz) > 0.26 && this.looks(c, nx, ny, nz) > 0.26)
      return;
    for (const [i, corner] of [a, b, c].entries()) {
      const p = this.positions.list;
      const [px, py, pz] = [p[3 * corner] as number, p[3 * corner + 1] as number, p[3 * corner + 2] as number];
      this.indices.list[t + i] = this.cornerAt(px, py, pz, nx, ny, nz);
    }
  }

  /** How far a corner's normal looks that way: 1 straight on. */
  private looks(corner: number, x: number, y: number, z: number): number {
    const n = this.normals.list;
    return x * (n[3 * corner] as number) + y * (n[3 * corner + 1] as number) + z * (n[3 * corner + 2] as number);
  }

  /** Null: something in it is not finite, or there is nothing. */
  mesh(): Mesh | null {
    const { positions, normals, indices, lines } = this;
    if (positions.size === 0 && lines.size === 0) return null;
    for (const { list, size } of [positions, normals, lines])
      for (let i = 0; i < size; i++) if (!Number.isFinite(list[i])) return null;
    return {
      positions: positions.list.slice(0, positions.size),
      normals: normals.list.slice(0, normals.size),
      indices: indices.list.slice(0, indices.size),
      lines: lines.list.slice(0, lines.size),
    };
  }
}
