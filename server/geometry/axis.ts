/** Where the axis of a coped end runs through its hosts. Millimetres. */
import type { Vec3 } from '../centreline/vector';
import { nearestOn } from '../centreline/query';
import { addScaled, cross, dot, norm, sub } from '../centreline/vector';
import type { End, Part } from './shape';

const STEPS = 64;
const BISECTIONS = 60;

export const outerRadius = (part: Part): number => (part.tube.section?.od ?? 0) / 2;
export const boreRadius = (part: Part): number =>
  part.tube.section === null ? 0 : part.tube.section.od / 2 - part.tube.section.wall;

const along = (end: End, s: number): Vec3 | null =>
  end.origin === null || end.away === null ? null : addScaled(end.origin, end.away, s);

/** Where the end's axis last leaves the host's outside within `reach`, mm along it from E; null: it is never inside. */
export function axisExit(end: End, host: Part, reach: number): number | null {
  const line = host.centreline;
  if (line === null || end.origin === null || end.away === null) return null;
  const radius = outerRadius(host);
  const outside = (s: number): boolean => nearestOn(line, along(end, s) ?? [0, 0, 0]).distance >= radius;
  for (let i = STEPS; i > -STEPS; i--) {
    let inner = ((i - 1) / STEPS) * reach;
    let outer = (i / STEPS) * reach;
    if (outside(inner) || !outside(outer)) continue;
    for (let k = 0; k < BISECTIONS; k++) {
      const middle = (inner + outer) / 2;
      if (outside(middle)) outer = middle;
      else inner = middle;
    }
    return outer;
  }
  return null;
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
