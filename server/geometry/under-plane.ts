/**
 * The flat cut that follows a stretch of a cope most closely from its safe side: a small linear program, solved exactly.
 * Millimetres; slopes without unit.
 */

/** Points of an end: across the tube (x, y), and how far from the joint the true cut keeps material from on (height). */
export interface Rim {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly height: Float64Array;
}

/** A plane height = base + slopeX x + slopeY y that touches the rim from below. */
export interface UnderPlane {
  readonly slopeX: number;
  readonly slopeY: number;
  readonly base: number;
  /** The most by which the wanted points stand above it. */
  readonly left: number;
}

/** Proven this near to the best, mm. */
const NEAR = 1e-7;
/** A plane this little over the steepest counts as within it, as a part of it. */
const STEEP = 1e-9;
/** Far more than a rim of some hundred points needs: an end for rounding that would go round in circles. */
const MOST_PIVOTS = 200;

/** n · (slopeX, slopeY, left) >= d. */
interface Row {
  readonly n: readonly [number, number, number];
  readonly d: number;
}

/**
 * Of all planes that no point of the rim lies below, no steeper than `steepest` (tangent of the angle off square), the
 * one that the wanted points (those not 0 in `wanted`, one at least) stand above by the least at most.
 * With slopes b, what is left is max over the wanted of (h - b·p) less min over all of (h - b·p): convex, piecewise
 * linear. Its pieces are found as they are needed, by the dual simplex method in three unknowns.
 * Whoever has something better than `enough` already is given any plane that leaves so much, once none leaves less.
 */
export function planeUnder(rim: Rim, wanted: Uint8Array, steepest: number, enough = Infinity): UnderPlane {
  const at = (slopeX: number, slopeY: number): Touch => touch(rim, wanted, slopeX, slopeY);
  const start = at(0, 0);
  let best = start;
  const row = rowOf(rim, start);
  // The corner of the box about all slopes to which that piece falls: the program's first vertex.
  const sideX = row.n[0] < 0 ? -1 : 1;
  const sideY = row.n[1] < 0 ? -1 : 1;
  let rows: [Row, Row, Row] = [row, { n: [-sideX, 0, 0], d: -steepest }, { n: [0, -sideY, 0], d: -steepest }];
  for (let i = 0; i < MOST_PIVOTS; i++) {
    const vertex = solve(rows);
    if (vertex === null) break;
    const [slopeX, slopeY, left] = vertex;
    // What the pieces found so far say is the least that any plane leaves.
    if (left >= enough) break;
    let next: Row;
    if (Math.hypot(slopeX, slopeY) > steepest * (1 + STEEP)) {
      const [x, y] = bestOnRound(rows, slopeX, slopeY, steepest);
      const within = at(x * steepest, y * steepest);
      if (within.left < best.left) best = within;
      next = beyond(rowOf(rim, within), [x, y], vertex, steepest);
    } else {
      const here = at(slopeX, slopeY);
      if (here.left < best.left) best = here;
      next = rowOf(rim, here);
    }
    if (best.left - left < NEAR) break;
    const changed = pivot(rows, next);
    if (changed === null) break;
    rows = changed;
  }
  return { slopeX: best.slopeX, slopeY: best.slopeY, base: best.base, left: best.left };
}

/**
 * Where on the round of the steepest slopes a vertex beyond it has its like, as a unit vector: where its pieces would be
 * best, were the whole round known. One piece falls fastest along its own direction; two are level on a straight line.
 * Else the place before the vertex, which serves always, but closes in on the round by halving only.
 */
function bestOnRound(
  rows: readonly [Row, Row, Row],
  slopeX: number,
  slopeY: number,
  steepest: number,
): readonly [number, number] {
  const [one, two, three] = rows.filter(({ n }) => n[2] !== 0);
  const slope = Math.hypot(slopeX, slopeY);
  const before = [slopeX / slope, slopeY / slope] as const;
  if (one === undefined || three !== undefined) return before;
  const [nx, ny] = two === undefined ? one.n : [one.n[0] - two.n[0], one.n[1] - two.n[1]];
  const size = Math.hypot(nx, ny);
  const off = two === undefined ? 1 : (one.d - two.d) / (size * steepest);
  if (!(Math.abs(off) <= 1)) return before;
  // Of two places the one on the vertex's side.
  const along = Math.sqrt(1 - off * off) * (slopeY * nx >= slopeX * ny ? 1 : -1);
  return [(off * nx - along * ny) / size, (off * ny + along * nx) / size];
}

const tangent = (x: number, y: number, steepest: number): Row => ({ n: [-x, -y, 0], d: -steepest });

/** What cuts off a vertex beyond the round: the tangent at a place of it, or a new piece from there, or the tangent before the vertex. */
function beyond(piece: Row, [x, y]: readonly [number, number], vertex: Triple, steepest: number): Row {
  const [slopeX, slopeY, left] = vertex;
  if (x * slopeX + y * slopeY > steepest * (1 + STEEP / 2)) return tangent(x, y, steepest);
  if (piece.n[0] * slopeX + piece.n[1] * slopeY + left < piece.d - NEAR) return piece;
  const slope = Math.hypot(slopeX, slopeY);
  return tangent(slopeX / slope, slopeY / slope, steepest);
}

interface Touch extends UnderPlane {
  /** Where the rim touches the plane, and where the wanted points stand farthest above it. */
  readonly low: number;
  readonly high: number;
}

/** The plane with given slopes, as high as it goes. */
function touch(rim: Rim, wanted: Uint8Array, slopeX: number, slopeY: number): Touch {
  const { x, y, height } = rim;
  const count = height.length;
  let low = 0;
  let base = Infinity;
  let high = 0;
  let most = -Infinity;
  for (let k = 0; k < count; k++) {
    const level = (height[k] as number) - slopeX * (x[k] as number) - slopeY * (y[k] as number);
    if (level < base) {
      base = level;
      low = k;
    }
    if (wanted[k] !== 0 && level > most) {
      most = level;
      high = k;
    }
  }
  return { slopeX, slopeY, base, left: most - base, low, high };
}

/** What is left is at least what these two points say. */
function rowOf(rim: Rim, { low, high }: Touch): Row {
  const of = (values: Float64Array): number => (values[high] as number) - (values[low] as number);
  return { n: [of(rim.x), of(rim.y), 1], d: of(rim.height) };
}

type Triple = Row['n'];

const det = (a: Triple, b: Triple, c: Triple): number =>
  a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);

/** Where three rows meet, by Cramer's rule; null where they do not in one point. */
function solve([a, b, c]: readonly [Row, Row, Row]): Triple | null {
  const [ax, ay, az] = a.n;
  const [bx, by, bz] = b.n;
  const [cx, cy, cz] = c.n;
  const yz = by * cz - bz * cy;
  const xz = bx * cz - bz * cx;
  const xy = bx * cy - by * cx;
  const whole = ax * yz - ay * xz + az * xy;
  if (!(Math.abs(whole) > 1e-14)) return null;
  const dz = b.d * cz - bz * c.d;
  const dy = b.d * cy - by * c.d;
  const dx = bx * c.d - b.d * cx;
  return [
    (a.d * yz - ay * dz + az * dy) / whole,
    (ax * dz - a.d * xz + az * dx) / whole,
    (a.d * xy - ax * dy - ay * dx) / whole,
  ];
}

/** Takes a broken row in and the one out that gives way first; null where rounding leaves none. */
function pivot(rows: readonly [Row, Row, Row], next: Row): [Row, Row, Row] | null {
  const price = weights(rows, [0, 0, 1]);
  const share = weights(rows, next.n);
  if (price === null || share === null) return null;
  let leaving = -1;
  let least = Infinity;
  for (let k = 0; k < 3; k++) {
    const by = share[k] as number;
    if (!(by > 1e-12)) continue;
    const ratio = (price[k] as number) / by;
    if (ratio < least) {
      least = ratio;
      leaving = k;
    }
  }
  if (leaving < 0) return null;
  return [leaving === 0 ? next : rows[0], leaving === 1 ? next : rows[1], leaving === 2 ? next : rows[2]];
}

/** The weights with which the rows' directions add up to a vector. */
function weights(
  [a, b, c]: readonly [Row, Row, Row],
  vector: readonly [number, number, number],
): readonly [number, number, number] | null {
  const whole = det(a.n, b.n, c.n);
  if (!(Math.abs(whole) > 1e-14)) return null;
  return [det(vector, b.n, c.n) / whole, det(a.n, vector, c.n) / whole, det(a.n, b.n, vector) / whole];
}
