/** Polygons in side view: what they hold, and the upright rectangles that they hold. Millimetres. */
import type { Box, Point } from './field';

/** Counter-clockwise round what it holds (x to the right, z up); clockwise: a hole. */
export type Polygon = readonly Point[];

/** Three points that are this near to one line are a line, mm. */
const STRAIGHT = 0.01;

/** Twice the area on the left of the outline, mm². */
const doubleArea = (polygon: Polygon): number => {
  let sum = 0;
  polygon.forEach(([x, z], i) => {
    const [u, w] = polygon[(i + 1) % polygon.length] ?? [x, z];
    sum += x * w - u * z;
  });
  return sum;
};

/** mm²; holes count less. */
export const areaOf = (polygons: readonly Polygon[]): number =>
  polygons.reduce((sum, polygon) => sum + doubleArea(polygon) / 2, 0);

/** From a point to the side from `a` to `b`, and where on it. */
function toSide([x, z]: Point, a: Point, b: Point): { readonly far: number; readonly at: Point } {
  const [dx, dz] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dz * dz;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - a[0]) * dx + (z - a[1]) * dz) / square));
  const at: Point = [a[0] + share * dx, a[1] + share * dz];
  return { far: Math.hypot(x - at[0], z - at[1]), at };
}

/** The point of the outlines that is nearest to a place; null: there are none. */
export function nearestOn(
  polygons: readonly Polygon[],
  point: Point,
): { readonly far: number; readonly at: Point } | null {
  let best: { readonly far: number; readonly at: Point } | null = null;
  for (const polygon of polygons) {
    polygon.forEach((a, i) => {
      const side = toSide(point, a, polygon[(i + 1) % polygon.length] ?? a);
      if (best === null || side.far < best.far) best = side;
    });
  }
  return best;
}

/** True where the outlines hold the place, or pass it within `near`. */
export function contains(polygons: readonly Polygon[], point: Point, near = 0): boolean {
  const [x, z] = point;
  let inside = false;
  for (const polygon of polygons) {
    polygon.forEach((a, i) => {
      const b = polygon[(i + 1) % polygon.length] ?? a;
      if (a[1] > z !== b[1] > z && x < a[0] + ((b[0] - a[0]) * (z - a[1])) / (b[1] - a[1])) inside = !inside;
    });
  }
  return inside || (near > 0 && (nearestOn(polygons, point)?.far ?? Infinity) <= near);
}

/** Without points that stand between two others on one line. */
export function tidied(polygon: Polygon): Polygon {
  const points: Point[] = [];
  polygon.forEach((point, i) => {
    const before = points[points.length - 1] ?? polygon[polygon.length - 1] ?? point;
    const after = polygon[(i + 1) % polygon.length] ?? point;
    if (points.length === 0 || toSide(point, before, after).far > STRAIGHT) points.push(point);
  });
  return points.length > 2 ? points : polygon;
}

/** The upright rectangle round everything; null: there is nothing. */
export function boxOf(polygons: readonly Polygon[]): Box | null {
  const points = polygons.flat();
  if (points.length === 0) return null;
  const xs = points.map(([x]) => x);
  const zs = points.map(([, z]) => z);
  return { x: [Math.min(...xs), Math.max(...xs)], z: [Math.min(...zs), Math.max(...zs)] };
}

type Span = readonly [number, number];

/** What of an upright line just beside x (`side` -1: behind, 1: before) lies inside. */
function column(polygons: readonly Polygon[], x: number, side: -1 | 1): readonly Span[] {
  const crossings: number[] = [];
  for (const polygon of polygons) {
    polygon.forEach((a, i) => {
      const b = polygon[(i + 1) % polygon.length] ?? a;
      const [low, high] = a[0] < b[0] ? [a, b] : [b, a];
      if (low[0] === high[0]) return;
      const reaches = side === 1 ? low[0] <= x && x < high[0] : low[0] < x && x <= high[0];
      if (reaches) crossings.push(low[1] + ((high[1] - low[1]) * (x - low[0])) / (high[0] - low[0]));
    });
  }
  crossings.sort((a, b) => a - b);
  const spans: Span[] = [];
  for (let i = 0; i + 1 < crossings.length; i += 2) spans.push([crossings[i] ?? 0, crossings[i + 1] ?? 0]);
  return spans;
}

const common = (a: readonly Span[], b: readonly Span[]): readonly Span[] =>
  a.flatMap(([from, to]) =>
    b.flatMap(([low, high]): readonly Span[] => {
      const span: Span = [Math.max(from, low), Math.min(to, high)];
      return span[1] > span[0] ? [span] : [];
    }),
  );

/** Places along x where a rectangle may begin and end. */
const MOST_COLUMNS = 160;

/**
 * The largest upright rectangle inside, of those that hold `holding` if that is given; null: there is none. Between two
 * neighbouring columns the outline is straight, so that what both hold the strip between them holds.
 */
export function rectangleIn(polygons: readonly Polygon[], holding: Box | null = null): Box | null {
  const box = boxOf(polygons);
  if (box === null) return null;
  const step = (box.x[1] - box.x[0]) / MOST_COLUMNS;
  const even = Array.from({ length: MOST_COLUMNS + 1 }, (_, i) => box.x[0] + i * step);
  const corners = polygons.flat().map(([x]) => x);
  const all = [...new Set([...even, ...corners, ...(holding?.x ?? [])])].sort((a, b) => a - b);
  // What a strip holds all over, from one column to the next.
  const strips = all.slice(1).map((to, i) => common(column(polygons, all[i] ?? to, 1), column(polygons, to, -1)));
  let best: Box | null = null;
  let bestArea = 0;
  for (let i = 0; i < strips.length; i++) {
    let spans = strips[i] ?? [];
    const from = all[i] ?? 0;
    if (holding !== null && from > holding.x[0]) break;
    for (let k = i; k < strips.length && spans.length > 0; k++) {
      if (k > i) spans = common(spans, strips[k] ?? []);
      const to = all[k + 1] ?? from;
      const highest = Math.max(0, ...spans.map(([low, high]) => high - low));
      if ((box.x[1] - from) * highest <= bestArea) break;
      if (holding !== null && to < holding.x[1]) continue;
      for (const [low, high] of spans) {
        if (holding !== null && (holding.z[0] < low || holding.z[1] > high)) continue;
        const area = (to - from) * (high - low);
        if (area > bestArea) {
          bestArea = area;
          best = { x: [from, to], z: [low, high] };
        }
      }
    }
  }
  return best;
}
