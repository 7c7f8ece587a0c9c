/** What lies under a point of the picture. */
import type { Mesh, Plane, Vector3 } from 'three';
import type { WireThing } from '../../server/lsp/view-wire';
import type { Point3 } from '../../server/view/model';
import type { Stage } from './stage';
import type { Things } from './things';

export interface Hit {
  readonly id: string;
  readonly at: Point3;
}

/** Seen through: picked only when nothing solid lies behind them. */
const THIN = new Set<WireThing['kind']>(['space', 'panel', 'seat', 'helmet']);

const idOf = (mesh: { userData: Record<string, unknown> }): string => String(mesh.userData['id']);

/**
 * The nearest body under a point of the picture, CSS pixels; what the section plane took away is not hit.
 * @param plane what lies on its negative side is cut off
 */
export function pickAt(stage: Stage, things: Things, plane: Plane | null, x: number, y: number): Hit | null {
  const caster = stage.ray(x, y);
  const hits = caster
    .intersectObjects<Mesh>(things.bodies(), false)
    .filter(({ point }) => !plane || plane.distanceToPoint(point) >= 0);
  const solid = hits.find(({ object }) => !THIN.has(things.thing(idOf(object))?.kind ?? 'tube'));
  const first = hits.find(({ object }) => things.thing(idOf(object))?.kind !== 'space');
  const hit = solid ?? first ?? hits[0];
  if (!hit) return null;
  const point: Vector3 = hit.point;
  return { id: idOf(hit.object), at: [point.x, point.y, point.z] };
}
