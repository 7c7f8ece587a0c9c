/** Which stretches of a line are seen, and which lie behind something. */
import type { Vec3 } from '../centreline/vector';
import { addScaled } from '../centreline/vector';
import type { Curve, OnSurface } from './outline';
import type { Hiding } from './solids';
import type { View } from './view';
import { project } from './view';

/** A stretch of a line on the picture: mm to the right and up. */
export interface Run {
  readonly seen: boolean;
  readonly points: readonly (readonly [number, number])[];
}

/** Looked at this far beyond the surface, sideways, so that a tube's own edge is not hidden by the tube, mm. */
const ASIDE = 0.25;
/** Nearer to the viewer by no more than this hides nothing: two surfaces that meet, mm. */
const MEETING = 1;
/** A change from seen to hidden is found to about a hundredth of a step. */
const HALVINGS = 7;

const mix = (a: Vec3, b: Vec3, share: number): Vec3 => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
  a[2] + (b[2] - a[2]) * share,
];

const between = (a: OnSurface, b: OnSurface, share: number): OnSurface => ({
  at: mix(a.at, b.at, share),
  facing: mix(a.facing, b.facing, share),
});

/** True where nothing lies before the point. */
export function isSeen(view: View, crowd: Hiding, { at, facing }: OnSurface): boolean {
  const [u, v] = project(view, addScaled(at, facing, ASIDE));
  const depth = project(view, at)[2];
  return !crowd.hides(u, v, depth + MEETING);
}

/** Cuts a line into stretches that are seen and stretches that are not. `step`: mm between two looks. */
export function runsOf(view: View, crowd: Hiding, curve: Curve, step: number): readonly Run[] {
  const runs: Run[] = [];
  let points: (readonly [number, number])[] = [];
  let seen: boolean | null = null;
  const flat = (on: OnSurface): readonly [number, number] => {
    const [u, v] = project(view, on.at);
    return [u, v];
  };
  const close = (): void => {
    if (seen !== null && points.length > 1) runs.push({ seen, points });
  };
  let before: OnSurface | null = null;
  const add = (on: OnSurface): void => {
    const here = isSeen(view, crowd, on);
    if (seen !== null && before !== null && here !== seen) {
      let [from, to] = [0, 1];
      for (let i = 0; i < HALVINGS; i++) {
        const mid = (from + to) / 2;
        if (isSeen(view, crowd, between(before, on, mid)) === seen) from = mid;
        else to = mid;
      }
      const border = flat(between(before, on, (from + to) / 2));
      points.push(border);
      close();
      points = [border];
    }
    seen = here;
    points.push(flat(on));
    before = on;
  };
  for (const [i, on] of curve.points.entries()) {
    const last = curve.points[i - 1];
    if (last !== undefined) {
      const far = Math.hypot(on.at[0] - last.at[0], on.at[1] - last.at[1], on.at[2] - last.at[2]);
      const steps = Math.min(10_000, Math.ceil(far / step));
      for (let j = 1; j < steps; j++) add(between(last, on, j / steps));
    }
    add(on);
  }
  close();
  return runs.map((run) => ({ ...run, points: thinned(run.points) }));
}

/** Without points that lie on the line between their neighbours, to a hundredth of a millimetre. */
export function thinned(points: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] {
  const kept: (readonly [number, number])[] = [];
  for (const [i, p] of points.entries()) {
    const a = kept[kept.length - 1];
    const b = points[i + 1];
    if (a !== undefined && b !== undefined) {
      const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
      const size = Math.hypot(dx, dy);
      const off = size === 0 ? 0 : Math.abs((p[0] - a[0]) * dy - (p[1] - a[1]) * dx) / size;
      const ahead = (p[0] - a[0]) * dx + (p[1] - a[1]) * dy;
      if (off < 0.01 && ahead >= 0 && ahead <= size * size) continue;
    }
    kept.push(p);
  }
  return kept;
}
