/** What a gusset will cover once it is in: its faces, as they stand in the way of a torch. Millimetres. */
import type { Gusset } from '../../cage/hardware';
import { addScaled, cross, norm, sub, unit } from '../../centreline/vector';
import type { Vec3 } from '../../centreline/vector';
import type { Corners } from '../../geometry/gusset-corners';
import { gussetCorners } from '../../geometry/gusset-corners';
import { outerRadius } from '../../geometry/axis';
import { partsOf } from '../../geometry/stretch';
import type { PacketInput } from '../packet/paper';
import type { Obstacle } from './torch';

/**
 * Bent sheet: its two sides and the edge that joins them. Tube: a rod from tube to tube, half as thick as the thinner of
 * them. Flat, or not told how it is made: one sheet in the middle, the least that it covers.
 */
function facesOf({ name, made }: Gusset, [apex, p, q]: Corners, radius: number): readonly Obstacle[] {
  const square = cross(sub(p, apex), sub(q, apex));
  if (!(norm(square) > 0)) return [];
  const face = (...corners: readonly [Vec3, Vec3, Vec3]): Obstacle => ({ kind: 'face', name, corners, moves: true });
  if (made === 'tube') return [{ kind: 'tube', name, a: p, b: q, radius: radius / 2, moves: true }];
  if (made !== 'sheet') return [face(apex, p, q)];
  const out = (point: Vec3, side: number): Vec3 => addScaled(point, unit(square), side * radius);
  return [
    face(out(apex, 1), out(p, 1), out(q, 1)),
    face(out(apex, -1), out(p, -1), out(q, -1)),
    face(out(p, 1), out(q, 1), out(q, -1)),
    face(out(p, 1), out(q, -1), out(p, -1)),
  ];
}

/** Of all gussets whose place is known. In which corner one sits the file does not tell: as the drawings have it. */
export function gussetObstacles({ cage, shape }: Pick<PacketInput, 'cage' | 'shape'>): readonly Obstacle[] {
  const corners = gussetCorners(shape);
  return [...cage.things.values()].flatMap((thing) => {
    const at = thing.kind === 'gusset' ? corners.get(thing.name) : undefined;
    if (thing.kind !== 'gusset' || at === undefined) return [];
    const radii = (thing.between ?? [])
      .flatMap((name) => (name === null ? [] : partsOf(shape.parts, name)))
      .map(outerRadius);
    return radii.length === 0 ? [] : facesOf(thing, at, Math.min(...radii));
  });
}
