/** Curves of many points with the fewest that show them. */
import type { Point } from './scene';

/** Squared distance of `p` from the stretch between `a` and `b`. */
function offSquared(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const size = dx * dx + dy * dy;
  const along = size === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / size));
  const [ex, ey] = [p.x - a.x - along * dx, p.y - a.y - along * dy];
  return ex * ex + ey * ey;
}

/**
 * Some of the points, first and last among them, such that each that was left out lies within `tolerance` (the points'
 * unit) of the line drawn through those kept. D. H. Douglas and T. K. Peucker, Algorithms for the reduction of the number
 * of points required to represent a digitized line, The Canadian Cartographer 10 (1973).
 */
export function simplified<P extends Point>(points: readonly P[], tolerance: number): readonly P[] {
  const kept = new Uint8Array(points.length);
  const stretches: [number, number][] = points.length === 0 ? [] : [[0, points.length - 1]];
  kept[0] = 1;
  kept[points.length - 1] = 1;
  for (let stretch = stretches.pop(); stretch !== undefined; stretch = stretches.pop()) {
    const [from, to] = stretch;
    const [a, b] = [points[from], points[to]];
    if (a === undefined || b === undefined) continue;
    let far = from;
    let most = tolerance * tolerance;
    for (let i = from + 1; i < to; i++) {
      const p = points[i];
      const off = p === undefined ? 0 : offSquared(p, a, b);
      if (off > most) [far, most] = [i, off];
    }
    if (far === from) continue;
    kept[far] = 1;
    stretches.push([from, far], [far, to]);
  }
  return points.filter((_, i) => kept[i] === 1);
}
