/**
 * The outline of a window: its edge is followed from cell to cell of a grid ("marching squares"; Lorensen and Cline 1987
 * in the plane), each crossing is solved, and then every side is halved until it lies on the edge.
 */
import { solveBetween } from '../what-if';
import type { Choice, Field, Point } from './field';
import type { Polygon } from './polygon';
import { contains, tidied } from './polygon';
import type { Way } from './search';

/** An edge is known to this, mm: on the kept side. */
const CLOSE = 0.005;
/** A side of the outline may be off the edge by this, mm: less than anybody can measure. */
export const OFF = 0.1;
/** The same where an outline is only wanted for a line of words, mm. */
export const ROUGH = 0.5;
/** Where the edge is hollow, a side may cut into what is not kept by this, mm. */
const INTO = 0.02;
/** So near to a side its edge is looked for first, mm. */
const NEAR = 0.6;
const GRIDS = [32, 16, 8, 4, 2, 1, 0.5] as const;
/** So many of them for a rough outline. */
const ROUGH_GRIDS = 5;
/** Places without an outline round them from which one is looked for at a time. */
const MOST_MISSED = 8;
/** An outline with more sides than this is none, but noise. */
const MOST_SIDES = 20_000;

const between = (a: Point, b: Point, share: number): Point => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
];

const apart = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Where the way from a place outside to one inside comes in. */
function entry(field: Field, choice: Choice, outside: Point, inside: Point): Point {
  const far = apart(outside, inside);
  const near = Math.min(1, CLOSE / far);
  const share = solveBetween((t) => field.room(between(outside, inside, t), choice), 0, 1, 0, near);
  return share === null ? inside : between(outside, inside, share);
}

/** The grid of one cell size over the searched box, with what is inside. */
class Grid {
  private readonly inside = new Map<string, boolean>();
  private readonly crossings = new Map<string, Point>();

  constructor(
    private readonly field: Field,
    private readonly choice: Choice,
    private readonly cell: number,
  ) {}

  point(i: number, k: number): Point {
    return [this.field.box.x[0] + i * this.cell, this.field.box.z[0] + k * this.cell];
  }

  /** The node at or before a point. */
  node([x, z]: Point): readonly [number, number] {
    return [
      Math.floor((x - this.field.box.x[0]) / this.cell + 1e-9),
      Math.floor((z - this.field.box.z[0]) / this.cell + 1e-9),
    ];
  }

  isIn(i: number, k: number): boolean {
    const key = `${String(i)} ${String(k)}`;
    const known = this.inside.get(key);
    if (known !== undefined) return known;
    const point = this.point(i, k);
    const inside = this.field.within(point) >= 0 && this.field.room(point, this.choice) >= 0;
    this.inside.set(key, inside);
    return inside;
  }

  /** True where some corners of the cell are inside, and others are not. */
  isCrossed(i: number, k: number): boolean {
    const inside = CORNERS.filter(([a, b]) => this.isIn(i + a, k + b)).length;
    return inside > 0 && inside < CORNERS.length;
  }

  middleIsIn(i: number, k: number): boolean {
    const point = between(this.point(i, k), this.point(i + 1, k + 1), 0.5);
    return this.field.room(point, this.choice) >= 0;
  }

  /** Where the window's edge crosses the grid line between two nodes. */
  crossing(edge: string, inside: readonly [number, number], outside: readonly [number, number]): Point {
    const known = this.crossings.get(edge);
    if (known !== undefined) return known;
    const point = entry(this.field, this.choice, this.point(...outside), this.point(...inside));
    this.crossings.set(edge, point);
    return point;
  }
}

/** A cell's corners, counter-clockwise (x to the right, z up), as steps from its first. */
const CORNERS = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
] as const;

interface Side {
  readonly from: string;
  readonly to: string;
  readonly start: Point;
  /** The cells beyond its two ends, as steps from this one. */
  readonly beyond: readonly (readonly [number, number])[];
}

/** What lies beyond a cell's sides: below, to the right, above, to the left. */
const BEYOND = [
  [0, -1],
  [1, 0],
  [0, 1],
  [-1, 0],
] as const;

const edgeKey = (a: readonly [number, number], b: readonly [number, number]): string =>
  a[0] < b[0] || a[1] < b[1] ? `${String(a)} ${String(b)}` : `${String(b)} ${String(a)}`;

/** The sides that the outline has in one cell, with what is inside on their left. */
function sidesIn(grid: Grid, i: number, k: number): readonly Side[] {
  const corners = CORNERS.map(([a, b]) => [i + a, k + b] as const);
  const inside = corners.map(([a, b]) => grid.isIn(a, b));
  const crossed: { readonly leaves: boolean; readonly key: string; readonly point: Point; readonly n: number }[] = [];
  for (let n = 0; n < 4; n++) {
    const a = corners[n];
    const b = corners[(n + 1) % 4];
    if (a === undefined || b === undefined || inside[n] === inside[(n + 1) % 4]) continue;
    const key = edgeKey(a, b);
    const leaves = inside[n] === true;
    crossed.push({ leaves, key, point: leaves ? grid.crossing(key, a, b) : grid.crossing(key, b, a), n });
  }
  // With what is inside on its left, the outline goes from where a walk round the cell leaves what is inside back to where
  // the walk entered it: round one corner. Where two corners are inside and the middle too, it goes on to the next entry.
  const step = crossed.length === 4 && grid.middleIsIn(i, k) ? 1 : crossed.length - 1;
  return crossed.flatMap((from, n): readonly Side[] => {
    const to = crossed[(n + step) % crossed.length];
    if (!from.leaves || to === undefined) return [];
    const beyond = [from.n, to.n].flatMap((side) => (BEYOND[side] === undefined ? [] : [BEYOND[side]]));
    return [{ from: from.key, to: to.key, start: from.point, beyond }];
  });
}

/** The first cell on a way that the outline passes; null: none does. */
function crossedOn(grid: Grid, [a, b]: Way, cell: number): readonly [number, number] | null {
  const steps = Math.ceil((2 * apart(a, b)) / cell) + 1;
  let last = '';
  for (let n = 0; n <= steps; n++) {
    const [i, k] = grid.node(between(a, b, n / steps));
    const key = `${String(i)} ${String(k)}`;
    if (key === last) continue;
    last = key;
    if (grid.isCrossed(i, k)) return [i, k];
  }
  return null;
}

/** All outlines that cross these ways. */
function loops(grid: Grid, ways: readonly Way[], cell: number): readonly Polygon[] {
  const seen = new Set<string>();
  const open: (readonly [number, number])[] = [];
  const visit = (i: number, k: number): void => {
    const key = `${String(i)} ${String(k)}`;
    if (seen.has(key)) return;
    seen.add(key);
    open.push([i, k]);
  };
  for (const way of ways) {
    // What was found already from another way is not looked for again.
    const first = crossedOn(grid, way, cell);
    if (first !== null) visit(first[0], first[1]);
  }
  const sides = new Map<string, Side>();
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    const [i, k] = at;
    for (const side of sidesIn(grid, i, k)) {
      sides.set(side.from, side);
      for (const [a, b] of side.beyond) visit(i + a, k + b);
    }
    if (sides.size > MOST_SIDES) return [];
  }
  const polygons: Polygon[] = [];
  while (sides.size > 0) {
    const points: Point[] = [];
    let side = sides.values().next().value;
    while (side !== undefined) {
      sides.delete(side.from);
      points.push(side.start);
      side = sides.get(side.to);
    }
    if (points.length > 2) polygons.push(points);
  }
  return polygons;
}

/** What an outline is drawn in: `loose` says that some side of it has what is kept on both sides, so that it was drawn too coarsely. */
interface Tracing {
  readonly field: Field;
  readonly choice: Choice;
  readonly most: number;
  loose: boolean;
}

/** Points between two of an outline, so that none of its sides is off the window's edge. Inside is on the left of a to b. */
function halved(tracing: Tracing, a: Point, b: Point, into: Point[]): void {
  const { field, choice, most } = tracing;
  const long = apart(a, b);
  if (long < 2 * most) return;
  const middle = between(a, b, 0.5);
  // Outward is on the right.
  const out: Point = [(b[1] - a[1]) / long, (a[0] - b[0]) / long];
  const off = (by: number): Point => [middle[0] + out[0] * by, middle[1] + out[1] * by];
  const isIn = (by: number): boolean => field.room(off(by), choice) >= 0;
  let point: Point;
  if (isIn(0)) {
    if (!isIn(most)) return;
    const far = [NEAR, long / 4, long].find((by) => by > most && !isIn(by));
    // Nothing ends out there.
    if (far === undefined) {
      tracing.loose = true;
      return;
    }
    point = entry(field, choice, off(far), off(most));
  } else {
    if (isIn(-INTO)) return;
    const far = [NEAR, long / 4, long].find((by) => isIn(-by));
    if (far === undefined) {
      tracing.loose = true;
      return;
    }
    point = entry(field, choice, middle, off(-far));
  }
  halved(tracing, a, point, into);
  into.push(point);
  halved(tracing, point, b, into);
}

/** Four points that are this near to one line: nothing happens between them, mm. */
const LINE = 0.02;
/** How far a corner is drawn in from where two edges meet on paper, mm. */
const CORNER = 0.02;

const offLine = (point: Point, a: Point, b: Point): number =>
  Math.abs((b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])) / Math.max(apart(a, b), 1e-9);

/** Where the line from `p` through `a` meets the one from `q` through `b`, beyond both; null: they do not. */
function meeting(p: Point, a: Point, b: Point, q: Point): Point | null {
  const [u, v] = [[a[0] - p[0], a[1] - p[1]] as const, [b[0] - q[0], b[1] - q[1]] as const];
  const area = u[0] * v[1] - u[1] * v[0];
  const [dx, dz] = [b[0] - a[0], b[1] - a[1]];
  const s = (dx * v[1] - dz * v[0]) / area;
  const t = (dx * u[1] - dz * u[0]) / area;
  return s > 0 && t > 0 && Number.isFinite(s) ? [a[0] + s * u[0], a[1] + s * u[1]] : null;
}

/** The corner between a and b, where the edges before and behind run on straight to it; null: they do not. */
function cornerOf(field: Field, choice: Choice, p: Point, a: Point, b: Point, q: Point): Point | null {
  const corner = meeting(p, a, b, q);
  const long = apart(a, b);
  if (corner === null || apart(corner, a) > 2 * long || apart(corner, b) > 2 * long) return null;
  const middle = between(a, b, 0.5);
  const far = apart(middle, corner);
  if (far < OFF) return null;
  const isIn = (share: number): boolean => field.room(between(middle, corner, share), choice) >= 0;
  const turns = (b[0] - a[0]) * (corner[1] - a[1]) - (b[1] - a[1]) * (corner[0] - a[0]);
  // A corner that points outward lies on the right of a to b; there the window ends, else it begins.
  const outward = turns < 0;
  const [near, beyond] = [(far - CORNER) / far, (far + CORNER) / far];
  if (outward ? isIn(near) && !isIn(beyond) : !isIn(near) && isIn(beyond))
    return between(middle, corner, outward ? near : beyond);
  return null;
}

/** Without points that stand close behind another: what runs through two near points points anywhere. */
function thinned(polygon: Polygon, least: number): Polygon {
  const points: Point[] = [];
  for (const point of polygon) {
    const before = points[points.length - 1];
    if (before === undefined || apart(before, point) >= least) points.push(point);
  }
  return points.length > 4 ? points : polygon;
}

function refined(tracing: Tracing, outline: Polygon, cell: number): Polygon {
  const { field, choice } = tracing;
  const points: Point[] = [];
  const polygon = thinned(outline, cell / 3);
  const count = polygon.length;
  polygon.forEach((a, i) => {
    const [p, b, q] = [
      polygon[(i + count - 1) % count] ?? a,
      polygon[(i + 1) % count] ?? a,
      polygon[(i + 2) % count] ?? a,
    ];
    points.push(a);
    if (count > 4 && offLine(a, p, q) < LINE && offLine(b, p, q) < LINE) return;
    const corner = count > 4 ? cornerOf(field, choice, p, a, b, q) : null;
    if (corner === null) halved(tracing, a, b, points);
    else {
      halved(tracing, a, corner, points);
      points.push(corner);
      halved(tracing, corner, b, points);
    }
  });
  return tidied(points);
}

/**
 * The outlines of the window: counter-clockwise round what is inside, clockwise round holes. No point of a side is farther
 * from the true edge than `most`; points are on the kept side.
 * @param inside at least one place in every part of it
 * @param edges ways across every part of its edge, as far as they are known
 */
export function outlines(
  field: Field,
  choice: Choice,
  inside: readonly Point[],
  edges: readonly Way[],
  most: number,
): readonly Polygon[] {
  const down = (point: Point): Way => [point, [point[0], field.box.z[0] - 1]];
  let polygons: readonly Polygon[] = [];
  let missed = edges.length === 0 ? inside : [];
  for (const cell of most > OFF ? GRIDS.slice(0, ROUGH_GRIDS) : GRIDS) {
    const tracing: Tracing = { field, choice, most, loose: false };
    const ways = [...edges, ...missed.slice(0, MOST_MISSED).map(down)];
    polygons = loops(new Grid(field, choice, cell), ways, cell).map((polygon) => refined(tracing, polygon, cell));
    missed = inside.filter((point) => !contains(polygons, point, 1));
    // A part that fell through the grid is looked for with a finer one.
    if (!tracing.loose && missed.length === 0) break;
  }
  return polygons;
}
