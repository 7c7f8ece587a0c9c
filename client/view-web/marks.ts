/** What was measured, drawn where it was measured: an arc with its legs, a dimension line with ticks, a spot. */
import { Vector3 } from 'three';
import type { Point3, ViewMark } from '../../server/view/model';
import type { Overlay, Pen } from './overlay';

const STEPS = 24;
/** From this close to square on an angle is read well enough. */
const SEEN = 0.85;

/**
 * The arc between two directions about a point, the short way, as wide as the shorter leg allows; null where a leg has no
 * length. Of legs that point against each other the arc stands in the plane that is most upright.
 */
export function arcOf(at: Point3, from: Point3, to: Point3): readonly Vector3[] | null {
  const middle = new Vector3(...at);
  const a = new Vector3(...from).sub(middle);
  const b = new Vector3(...to).sub(middle);
  const radius = Math.min(a.length(), b.length()) * 0.75;
  if (!(radius > 1e-6)) return null;
  a.normalize();
  b.normalize();
  const angle = Math.acos(Math.min(1, Math.max(-1, a.dot(b))));
  const across = b.clone().addScaledVector(a, -a.dot(b));
  if (across.length() < 1e-6) {
    const upright = Math.abs(a.z) > 0.9 ? new Vector3(1, 0, 0) : new Vector3(0, 0, 1);
    across.copy(upright).addScaledVector(a, -a.dot(upright));
  }
  across.normalize();
  return Array.from({ length: STEPS + 1 }, (_, step) => {
    const turn = (angle * step) / STEPS;
    return middle
      .clone()
      .addScaledVector(a, Math.cos(turn) * radius)
      .addScaledVector(across, Math.sin(turn) * radius);
  });
}

/** Where the words of a mark stand. */
export function wordsAt(mark: ViewMark): Point3 {
  if (mark.kind === 'spot') return mark.at;
  if (mark.kind === 'path') return mark.points[Math.floor((mark.points.length - 1) / 2)] ?? [0, 0, 0];
  if (mark.kind === 'distance') {
    const [f, t] = [mark.from, mark.to];
    return [(f[0] + t[0]) / 2, (f[1] + t[1]) / 2, (f[2] + t[2]) / 2];
  }
  const middle = arcOf(mark.at, mark.from, mark.to)?.[STEPS / 2];
  return middle ? [middle.x, middle.y, middle.z] : mark.at;
}

/**
 * Where an angle is seen as it is: square on, from the side that is nearer to where it is looked at from now; null where
 * that is so already, or for anything but an angle.
 */
export function squareOn(mark: ViewMark, toward: Vector3): Vector3 | null {
  if (mark.kind !== 'angle') return null;
  const [at, from, to] = [new Vector3(...mark.at), new Vector3(...mark.from), new Vector3(...mark.to)];
  const normal = from.sub(at).cross(to.sub(at));
  if (normal.length() < 1e-6) return null;
  normal.normalize();
  const share = normal.dot(toward);
  return Math.abs(share) > SEEN ? null : normal.multiplyScalar(share < 0 ? -1 : 1);
}

/** What has to be seen of a mark. */
export const pointsOf = (mark: ViewMark): readonly Point3[] =>
  mark.kind === 'path'
    ? mark.points
    : mark.kind === 'angle'
      ? [mark.at, mark.from, mark.to]
      : mark.kind === 'distance'
        ? [mark.from, mark.to]
        : [mark.at];

const BETWEEN = [0, 1, 2, 3, 4, 5, 6, 7, 8].map((step) => step / 8);

/** Places along what is drawn of a mark. */
export function strokesOf(mark: ViewMark): readonly Vector3[] {
  const line = (a: Point3, b: Point3) => BETWEEN.map((share) => new Vector3(...a).lerp(new Vector3(...b), share));
  if (mark.kind === 'spot') return [];
  if (mark.kind === 'path')
    return mark.points.flatMap((to, nth) => (nth === 0 ? [] : line(mark.points[nth - 1] ?? to, to)));
  if (mark.kind === 'distance') return line(mark.from, mark.to);
  return [...(arcOf(mark.at, mark.from, mark.to) ?? []), ...line(mark.at, mark.from), ...line(mark.at, mark.to)];
}

export function drawMark(overlay: Overlay, mark: ViewMark, pen: Pen): void {
  const thin: Pen = { ...pen, width: Math.max(1, pen.width * 0.6), dash: [5, 4] };
  if (mark.kind === 'angle') {
    const arc = arcOf(mark.at, mark.from, mark.to);
    overlay.line([mark.at, mark.from], thin);
    overlay.line([mark.at, mark.to], thin);
    if (!arc) return;
    overlay.line(arc, pen);
    const seen = arc.map((point) => overlay.project(point));
    const [first, second, last, before] = [seen[0], seen[3], seen.at(-1), seen.at(-4)];
    const long = seen.reduce((sum, point, index) => {
      const prior = seen[index - 1];
      return prior ? sum + Math.hypot(point.x - prior.x, point.y - prior.y) : sum;
    }, 0);
    if (first && second && last && before && long > 24) {
      overlay.head(first, second, 8, pen.ink);
      overlay.head(last, before, 8, pen.ink);
    }
  } else if (mark.kind === 'distance') {
    const [from, to] = [overlay.project(mark.from), overlay.project(mark.to)];
    if (!from.ahead || !to.ahead) return;
    overlay.stroke([from, to], pen);
    overlay.tick(from, to, 6, pen);
    overlay.tick(to, from, 6, pen);
  } else if (mark.kind === 'path') overlay.line(mark.points, { ...pen, dash: [9, 6] });
  else {
    const at = overlay.project(mark.at);
    overlay.dot(at, 6, pen.ink, false);
    overlay.dot(at, 2.5, pen.ink, true);
  }
}
