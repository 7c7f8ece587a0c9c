/**
 * What stands in the way of a look: straight round pieces and flat-sided boxes, in projected coordinates (mm to the right,
 * up, toward the viewer). Each says how near to the viewer its surface comes over a point of the picture.
 */
import type { Vec3 } from '../centreline/vector';
import { cross, dot, norm, scale, sub, unit } from '../centreline/vector';

export interface Solid {
  /** To whom it belongs: an edge is not hidden by the piece that it is the edge of. */
  readonly owner: number;
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
  /** The surface's nearest depth over the point; -Infinity where the solid is not. */
  depth(u: number, v: number): number;
}

/** Directions this nearly along the look are end on (sine squared). */
const END_ON = 1e-12;

/** A cylinder from `a` to `b` with flat ends. `round`: its ends are half balls, as where two pieces of a bend meet. */
export function rod(owner: number, a: Vec3, b: Vec3, radius: number, round: boolean): Solid {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
  const [du, dv, dw] =
    length > 0 ? [(b[0] - a[0]) / length, (b[1] - a[1]) / length, (b[2] - a[2]) / length] : [0, 0, 1];
  const square = radius * radius;
  const across = 1 - dw * dw;
  const ball = (centre: Vec3, u: number, v: number): number => {
    const rest = square - (u - centre[0]) ** 2 - (v - centre[1]) ** 2;
    return rest < 0 ? -Infinity : centre[2] + Math.sqrt(rest);
  };
  return {
    owner,
    left: Math.min(a[0], b[0]) - radius,
    right: Math.max(a[0], b[0]) + radius,
    low: Math.min(a[1], b[1]) - radius,
    high: Math.max(a[1], b[1]) + radius,
    depth: (u, v) => {
      const [x, y] = [u - a[0], v - a[1]];
      let best = round ? Math.max(ball(a, u, v), ball(b, u, v)) : -Infinity;
      const side = x * x + y * y;
      if (across < END_ON) return side > square ? best : Math.max(best, a[2], b[2]);
      // |q|² - (q·d)² = r² for q = (x, y, t): a quadratic in t; its larger root is the near side.
      const s = x * du + y * dv;
      const inner = dw * dw * s * s - across * (side - s * s - square);
      if (inner < 0) return best;
      const t = (dw * s + Math.sqrt(inner)) / across;
      const along = s + t * dw;
      if (along >= 0 && along <= length) return Math.max(best, a[2] + t);
      if (round || Math.abs(dw) < 1e-9) return best;
      for (const stop of [0, length]) {
        const cap = (stop - s) / dw;
        if (side + cap * cap - stop * stop <= square) best = Math.max(best, a[2] + cap);
      }
      return best;
    },
  };
}

/** A box by its centre and its three half edges, all projected. */
export function block(owner: number, centre: Vec3, halves: readonly [Vec3, Vec3, Vec3]): Solid {
  const reach = (i: 0 | 1): number => Math.abs(halves[0][i]) + Math.abs(halves[1][i]) + Math.abs(halves[2][i]);
  const sizes = halves.map((h) => Math.hypot(h[0], h[1], h[2]));
  return {
    owner,
    left: centre[0] - reach(0),
    right: centre[0] + reach(0),
    low: centre[1] - reach(1),
    high: centre[1] + reach(1),
    depth: (u, v) => {
      // The look is the line (x, y, t): each pair of faces leaves an interval of t.
      let [from, to] = [-Infinity, Infinity];
      for (const [i, h] of halves.entries()) {
        const size = sizes[i] ?? 0;
        if (size === 0) return -Infinity;
        const n = [h[0] / size, h[1] / size, h[2] / size] as const;
        const off = (u - centre[0]) * n[0] + (v - centre[1]) * n[1];
        if (Math.abs(n[2]) < 1e-9) {
          if (Math.abs(off) > size) return -Infinity;
          continue;
        }
        const [p, q] = [(-size - off) / n[2], (size - off) / n[2]];
        from = Math.max(from, Math.min(p, q));
        to = Math.min(to, Math.max(p, q));
      }
      return from <= to && Number.isFinite(to) ? centre[2] + to : -Infinity;
    },
  };
}

/** A prism over a triangle, by its corners and by how far it reaches to either side of it, all projected. */
export function prism(owner: number, corners: readonly [Vec3, Vec3, Vec3], half: Vec3): Solid {
  const [a, b, c] = corners;
  const over = (i: 0 | 1): readonly number[] => corners.flatMap((at) => [at[i] - half[i], at[i] + half[i]]);
  const size = norm(half);
  const lid = scale(half, 1 / size);
  /** Outward normals, each with how far along it the prism reaches. */
  const faces: readonly (readonly [Vec3, number])[] = [
    [lid, dot(lid, a) + size],
    [scale(lid, -1), size - dot(lid, a)],
    ...(
      [
        [a, b, c],
        [b, c, a],
        [c, a, b],
      ] as const
    ).map(([from, to, across]): readonly [Vec3, number] => {
      const square = unit(cross(sub(to, from), lid));
      const out = dot(square, sub(across, from)) > 0 ? scale(square, -1) : square;
      return [out, dot(out, from)];
    }),
  ];
  return {
    owner,
    left: Math.min(...over(0)),
    right: Math.max(...over(0)),
    low: Math.min(...over(1)),
    high: Math.max(...over(1)),
    depth: (u, v) => {
      // The look is the line (u, v, t): each face bounds t from above or from below.
      let [from, to] = [-Infinity, Infinity];
      for (const [n, reach] of faces) {
        const rest = reach - n[0] * u - n[1] * v;
        if (Math.abs(n[2]) < 1e-9) {
          if (rest < 0) return -Infinity;
        } else if (n[2] > 0) to = Math.min(to, rest / n[2]);
        else from = Math.max(from, rest / n[2]);
      }
      return from <= to && Number.isFinite(to) ? to : -Infinity;
    },
  };
}

/** What may lie before a point of the picture. */
export interface Hiding {
  /** True where something lies nearer to the viewer than `depth` over that point of the picture. */
  hides(u: number, v: number, depth: number): boolean;
}

/** Cells of the broad phase, mm: a tube's width or two. */
const CELL = 80;
/** A piece over more cells than this (nothing that is built) is looked at from everywhere. */
const MOST_CELLS = 20_000;

/** All solids of a picture, found by where they are on it. */
export class Crowd implements Hiding {
  private readonly cells = new Map<number, Solid[]>();
  private readonly everywhere: Solid[] = [];

  constructor(solids: readonly Solid[]) {
    for (const solid of solids) {
      const [i0, i1] = [Math.floor(solid.left / CELL), Math.floor(solid.right / CELL)];
      const [j0, j1] = [Math.floor(solid.low / CELL), Math.floor(solid.high / CELL)];
      if (!((i1 - i0 + 1) * (j1 - j0 + 1) <= MOST_CELLS)) {
        this.everywhere.push(solid);
        continue;
      }
      for (let i = i0; i <= i1; i++) {
        for (let j = j0; j <= j1; j++) {
          const key = i * 1_000_003 + j;
          const list = this.cells.get(key);
          if (list === undefined) this.cells.set(key, [solid]);
          else list.push(solid);
        }
      }
    }
  }

  hides(u: number, v: number, depth: number): boolean {
    return this.isHidden(u, v, depth, null);
  }

  /** The same crowd, as it hides where some do not count. */
  without(owners: ReadonlySet<number>): Hiding {
    return { hides: (u, v, depth) => this.isHidden(u, v, depth, owners) };
  }

  private isHidden(u: number, v: number, depth: number, but: ReadonlySet<number> | null): boolean {
    const key = Math.floor(u / CELL) * 1_000_003 + Math.floor(v / CELL);
    const before = (solid: Solid): boolean =>
      u >= solid.left &&
      u <= solid.right &&
      v >= solid.low &&
      v <= solid.high &&
      but?.has(solid.owner) !== true &&
      solid.depth(u, v) > depth;
    return (this.cells.get(key)?.some(before) ?? false) || this.everywhere.some(before);
  }
}
