/** Where the axis of a coped end runs through its hosts. Millimetres. */
import type { Vec3 } from '../centreline/vector';
import { nearestOn } from '../centreline/query';
import { addScaled, cross, dot, norm, sub } from '../centreline/vector';
import type { End, Part } from './shape';

const STEPS = 64;
const MOST_STEPS = 60;
/** What a crossing is found to, mm: far below what anything is made to, and a few digits above rounding. */
const CLOSE = 1e-11;
/** A step is not passed over where rounding alone may keep it out of reach. */
const AT_LEAST = 1e-6;

export const outerRadius = (part: Part): number => (part.tube.section?.od ?? 0) / 2;
export const boreRadius = (part: Part): number =>
  part.tube.section === null ? 0 : part.tube.section.od / 2 - part.tube.section.wall;

const along = (end: End, s: number): Vec3 | null =>
  end.origin === null || end.away === null ? null : addScaled(end.origin, end.away, s);

/** Where the end's axis last leaves the host's outside within `reach`, mm along it from E; null: it is never inside. */
export function axisExit(end: End, host: Part, reach: number): number | null {
  const line = host.centreline;
  const { origin, away } = end;
  if (line === null || origin === null || away === null) return null;
  const radius = outerRadius(host);
  const far = (s: number): number => nearestOn(line, addScaled(origin, away, s)).distance;
  const at = (i: number): number => (i / STEPS) * reach;
  let before = far(at(STEPS));
  for (let i = STEPS; i > -STEPS;) {
    // One step along the axis comes at most as much nearer to the host: what is far is passed over.
    const skipped = Math.floor(((before - radius) * STEPS) / reach - AT_LEAST);
    if (skipped > 0) {
      i -= skipped;
      if (i > -STEPS) before = far(at(i));
      continue;
    }
    const next = far(at(i - 1));
    if (before >= radius && next < radius) return crossing(far, radius, at(i - 1), at(i));
    before = next;
    i -= 1;
  }
  return null;
}

/** Where a distance grows to `radius` between two stations: regula falsi, as the Illinois method has it (Dowell and Jarratt 1971). */
function crossing(far: (s: number) => number, radius: number, inside: number, outside: number): number {
  let [a, b] = [inside, outside];
  let [below, above] = [far(a) - radius, far(b) - radius];
  let last = 0;
  for (let k = 0; k < MOST_STEPS && b - a > CLOSE; k++) {
    const chord = a + ((b - a) * below) / (below - above);
    const s = chord > a && chord < b ? chord : (a + b) / 2;
    const over = far(s) - radius;
    // An end that stays twice counts for half, so that both close in.
    if (over >= 0) {
      if (last > 0) below /= 2;
      [b, above, last] = [s, over, 1];
      if (over < CLOSE) break;
    } else {
      if (last < 0) above /= 2;
      [a, below, last] = [s, over, -1];
    }
  }
  return b;
}

/** Where the axis of an end goes through the outside of its host. */
export function entryPoint(end: End, child: Part, host: Part): Vec3 | null {
  const reach = 4 * (outerRadius(host) + outerRadius(child));
  const exit = axisExit(end, host, reach);
  return exit === null || end.origin === null || end.away === null ? null : addScaled(end.origin, end.away, exit);
}

/** Shortest distance between the end's axis and the host's, as straight as the host is where they are nearest. */
export function axisOffset(end: End, host: Part): number | null {
  if (host.centreline === null || end.origin === null || end.away === null) return null;
  let on = nearestOn(host.centreline, end.origin);
  for (let i = 0; i < 8; i++) {
    const foot = along(end, dot(sub(on.point, end.origin), end.away));
    if (foot !== null) on = nearestOn(host.centreline, foot);
  }
  const between = sub(on.point, end.origin);
  const square = cross(end.away, on.tangent);
  return norm(square) < 1e-9 ? norm(cross(between, end.away)) : Math.abs(dot(between, square)) / norm(square);
}
