/** What lies round tubes, and where they are drilled. Millimetres. */
import type { Cage, Hole, Padding, Vent } from '../cage/cage';
import { nearestOn, pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, sub, unit } from '../centreline/vector';
import { nodeAt } from '../geometry/gusset-corners';
import { entryPoint, outerRadius } from '../geometry/axis';
import { clockFrame, vectorAt } from '../geometry/clock';
import type { Part, Shape, Stretch } from '../geometry/shape';
import { bodyStretch, partsOf, stationFrom } from '../geometry/stretch';
import { ventSite } from '../geometry/vents';
import { disc } from './flat';
import type { Mesh } from './mesh';
import { merged } from './mesh';
import type { Fineness } from './pipe';
import { sleeveMesh } from './tube';

/** A sleeve stands clear of its tube by this, so that the two are told apart where they are cut open, mm. */
const CLEAR = 0.2;
/** How thick the wall of a collar is drawn: no fact says it. */
const COLLAR_WALL = 3;
/** How far the mark of a hole stands out of the tube, and how far it reaches into its wall. */
const PROUD = 0.3;
const SUNK = 0.3;

/** Collars on a part. */
export function collarMesh(part: Part, stretches: readonly Stretch[], fineness: Fineness): Mesh | null {
  const line = part.centreline;
  const radius = outerRadius(part);
  if (line === null || !(radius > 0)) return null;
  return merged(
    stretches.map(({ from, to }) => sleeveMesh(line, from, to, radius + CLEAR, radius + CLEAR + COLLAR_WALL, fineness)),
  );
}

/** Padding on the parts of its tube, where there is tube; null where how thick it is, or how far it reaches, is not known. */
export function paddingMesh(padding: Padding, parts: readonly Part[], fineness: Fineness): Mesh | null {
  const { thickness } = padding;
  if (thickness === null || !(thickness > CLEAR) || padding.unread) return null;
  return merged(
    parts.map((part) => {
      const line = part.centreline;
      const whole = part.tube.centreline;
      const body = bodyStretch(part);
      const radius = outerRadius(part);
      if (line === null || whole === null || body === null || !(radius > 0)) return null;
      // Stations count along the tube from its node; the part may be a piece of it.
      const own = (station: number): number => nearestOn(line, pointAt(whole, station).point).station;
      const from = padding.from === null ? body.from : Math.max(body.from, own(padding.from));
      const to = padding.to === null ? body.to : Math.min(body.to, own(padding.to));
      return to > from ? sleeveMesh(line, from, to, radius + CLEAR, radius + thickness, fineness) : null;
    }),
  );
}

/** A hole as a round mark on the outside of a tube of that radius: in its middle on the axis, facing `out`. */
function mark(on: Vec3, out: Vec3, radius: number, dia: number): Mesh | null {
  if (!(dia > 0 && dia < 2 * radius)) return null;
  // Down to where its rim meets the round of the tube.
  const rim = Math.sqrt(radius * radius - (dia * dia) / 4) - SUNK;
  return disc(addScaled(on, out, rim), out, dia / 2, radius + PROUD - rim);
}

/** The mark of a vent: in its host where the tube's axis goes through the host's wall, or on the tube itself. */
export function ventMesh(vent: Vent, cage: Cage, shape: Shape): Mesh | null {
  const site = ventSite(vent, cage, shape.parts);
  if (site === null || vent.dia === null) return null;
  const { child, end, host } = site;
  if (host !== null) {
    const at = entryPoint(end, child, host);
    if (at === null || host.centreline === null) return null;
    const on = nearestOn(host.centreline, at).point;
    return mark(on, unit(sub(at, on)), outerRadius(host), vent.dia);
  }
  const station = vent.from === null ? null : stationFrom(child, end.which, nodeAt(cage, vent.node), vent.from);
  if (station === null || child.centreline === null) return null;
  const { point, tangent } = pointAt(child.centreline, station);
  return mark(point, vectorAt(clockFrame(tangent), vent.clock ?? 0), outerRadius(child), vent.dia);
}

/** The mark of a hole that is drilled from outside. */
export function holeMesh(hole: Hole, shape: Shape): Mesh | null {
  const part = hole.tube === null ? undefined : partsOf(shape.parts, hole.tube)[0];
  const line = part?.tube.centreline ?? null;
  if (part === undefined || line === null || hole.station === null || hole.clock === null || hole.dia === null)
    return null;
  const { point, tangent } = pointAt(line, hole.station);
  return mark(point, vectorAt(clockFrame(tangent), hole.clock), outerRadius(part), hole.dia);
}
