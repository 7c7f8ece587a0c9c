/** Points round a joint at which a torch has to stand, and the middle of the groove there. Millimetres. */
import type { Cage, Foot } from '../../cage/cage';
import { nearestOn } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import { add, addScaled, cross, distance, dot, norm, scale, sub, unit } from '../../centreline/vector';
import { plateFrame } from '../../geometry/feet';
import type { End, Part } from '../../geometry/shape';

export interface Groove {
  readonly point: Vec3;
  /** Unit, halfway between the two surfaces' outward normals. */
  readonly middle: Vec3;
  /** Between the two surfaces, radians: a right angle on a tee, less at the heel of a tube that leans. */
  readonly open: number;
}

/** `own`, `other`: unit outward normals of the two surfaces. Surfaces that run into each other: along the tube's own. */
function between(point: Vec3, own: Vec3, other: Vec3): Groove {
  const sum = add(own, other);
  const flat = norm(sum) < 1e-6;
  return { point, middle: flat ? own : unit(sum), open: flat ? 0 : 2 * Math.asin(Math.min(1, norm(sum) / 2)) };
}

/** Every third of the edge's points: 15 degrees. */
const EVERY = 3;
const ROUND = 24;

/** Points round a coped end with the middle of the groove there: halfway between the two surfaces' outward normals. */
export function grooveOf(end: End, hosts: readonly Part[]): readonly Groove[] {
  const { origin, away } = end;
  if (origin === null || away === null) return [];
  const round =
    end.edge.length > 1 && distance(end.edge[0] ?? origin, end.edge.at(-1) ?? origin) < 1e-6 ? -1 : undefined;
  return end.edge.slice(0, round).flatMap((point, i) => {
    if (i % EVERY !== 0) return [];
    const off = sub(point, origin);
    const own = unit(addScaled(off, away, -dot(off, away)));
    let least = Infinity;
    let normal: Vec3 | null = null;
    for (const { centreline, tube } of hosts) {
      if (centreline === null || tube.section === null) continue;
      const on = nearestOn(centreline, point);
      const far = Math.abs(on.distance - tube.section.od / 2);
      if (far < least) [least, normal] = [far, sub(point, on.point)];
    }
    if (normal === null || norm(normal) < 1e-9) return [];
    return [between(point, own, unit(normal))];
  });
}

/** A foot's plate: a point of it, and its normal on the side of the tube. */
export interface Seat {
  readonly at: Vec3;
  readonly normal: Vec3;
}

/** Null where the foot, its node or how it lies is not known, or the tube runs along the plate. */
export function seatOf(name: string, end: End, cage: Cage): Seat | null {
  const thing = cage.things.get(name);
  const foot: Foot | null = thing?.kind === 'foot' ? thing : null;
  const node = foot?.node === null || foot === null ? undefined : cage.things.get(foot.node);
  const at = node?.kind === 'node' ? node.at : null;
  const frame = foot === null ? null : plateFrame(foot, end.away);
  if (at === null || frame === null || end.away === null) return null;
  const steep = dot(end.away, frame.normal);
  if (Math.abs(steep) < ALONG) return null;
  return { at, normal: steep < 0 ? scale(frame.normal, -1) : frame.normal };
}

/** As a sine: a plate this nearly along the tube. */
const ALONG = 0.05;
/** A panel so near to a plate, mm, and so nearly level with it, as a cosine, is what it lies on. */
const UNDER = 15;
const LEVEL = Math.cos((25 * Math.PI) / 180);

export function liesOn({ at, normal }: Seat, [a, b, c]: readonly [Vec3, Vec3, Vec3]): boolean {
  const across = cross(sub(b, a), sub(c, a));
  if (norm(across) < 1e-9) return false;
  const face = unit(across);
  return Math.abs(dot(face, normal)) > LEVEL && Math.abs(dot(sub(at, a), face)) < UNDER;
}

/** Points round an end that is sawn for a plate. Empty where plate or tube is not known. */
export function plateGroove(end: End, part: Part, cage: Cage): readonly Groove[] {
  const { origin, away } = end;
  const od = part.tube.section?.od ?? null;
  const [seat] = end.hosts.flatMap((name) => seatOf(name, end, cage) ?? []);
  if (origin === null || away === null || od === null || seat === undefined) return [];
  const side = unit(cross(away, Math.abs(away[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const other = cross(away, side);
  return Array.from({ length: ROUND }, (_, i): Groove => {
    const turn = (2 * Math.PI * i) / ROUND;
    const own = add(scale(side, Math.cos(turn)), scale(other, Math.sin(turn)));
    const on = addScaled(origin, own, od / 2);
    const along = dot(sub(seat.at, on), seat.normal) / dot(away, seat.normal);
    return between(addScaled(on, away, along), own, seat.normal);
  });
}
