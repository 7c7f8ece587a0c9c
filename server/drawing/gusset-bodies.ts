/** Gussets as they are drawn: the edges of their bodies, and what they hide. Millimetres. */
import type { Gusset } from '../cage/hardware';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, cross, dot, norm, scale, sub, unit } from '../centreline/vector';
import { outerRadius } from '../geometry/axis';
import type { Part, Shape } from '../geometry/shape';
import { partsOf } from '../geometry/stretch';
import type { Corners } from '../geometry/gusset-corners';
import { gussetCorners } from '../geometry/gusset-corners';
import type { Curve, OnSurface } from './outline';
import type { Solid } from './solids';
import { prism, rod } from './solids';
import type { View } from './view';
import { edgeNormal, project } from './view';

/** Thickness of a flat one where it is not written. */
const THIN = 1.5;

export interface GussetBody {
  readonly gusset: Gusset;
  readonly corners: Corners;
  /** Unit, square to its triangle. */
  readonly normal: Vec3;
  /** A sheet or a plate reaches so far to either side of its triangle; the radius of one made of tube. */
  readonly half: number;
  /** The parts that it lies on. */
  readonly on: readonly string[];
}

/** How wide a gusset of sheet is: as the smaller of its tubes; Infinity where none is known. */
export const gussetWidth = (tubes: readonly Part[]): number => 2 * Math.min(...tubes.map(outerRadius));

export const gussetTubes = ({ between }: Gusset, shape: Shape): readonly Part[] =>
  (between ?? []).flatMap((name) => (name === null ? [] : partsOf(shape.parts, name)));

/** Those whose corner and width are known. */
export function gussetBodies(shape: Shape): readonly GussetBody[] {
  const bodies: GussetBody[] = [];
  const corners = gussetCorners(shape);
  for (const gusset of shape.cage.things.values()) {
    const own = gusset.kind === 'gusset' ? corners.get(gusset.name) : undefined;
    if (gusset.kind !== 'gusset' || own === undefined) continue;
    const tubes = gussetTubes(gusset, shape);
    const square = cross(sub(own[1], own[0]), sub(own[2], own[0]));
    const width = gussetWidth(tubes);
    const half =
      gusset.made === 'tube' ? width / 4 : gusset.made === 'flat' ? (gusset.thickness ?? THIN) / 2 : width / 2;
    if (!(norm(square) > 0) || !Number.isFinite(half) || !own.flat().every(Number.isFinite)) continue;
    bodies.push({ gusset, corners: own, normal: unit(square), half, on: tubes.map(({ name }) => name) });
  }
  return bodies;
}

const straight = (from: Vec3, to: Vec3, facing: Vec3): Curve => ({
  kind: 'edge',
  points: [from, to].map((at): OnSurface => ({ at, facing })),
});

/** The edges of a gusset; each faces away from its middle. One of tube has those that are seen from there. */
export function gussetEdges({ gusset, corners, normal, half }: GussetBody, view: View): readonly Curve[] {
  const [apex, p, q] = corners;
  if (gusset.made === 'tube') {
    const across = edgeNormal(view, unit(sub(q, p)));
    return across === null
      ? []
      : [1, -1].map((side) => {
          const facing = scale(across, side);
          return straight(addScaled(p, facing, half), addScaled(q, facing, half), facing);
        });
  }
  const middle = scale(add(add(apex, p), q), 1 / 3);
  const at = (corner: Vec3, side: number): Vec3 => addScaled(corner, normal, side * half);
  const sides = [
    [apex, p, q],
    [p, q, apex],
    [q, apex, p],
  ] as const;
  return [
    ...sides.flatMap(([from, to, across]) => {
      const along = unit(sub(to, from));
      const inward = sub(across, from);
      const out = unit(addScaled(scale(inward, -1), along, dot(inward, along)));
      return [1, -1].map((side) => straight(at(from, side), at(to, side), addScaled(out, normal, side)));
    }),
    // Over the sheet's edges on both tubes; at the node it lies inside of them.
    ...[p, q].map((corner) => straight(at(corner, -1), at(corner, 1), unit(sub(corner, middle)))),
  ];
}

/** What a gusset hides; null: nothing. */
export function gussetSolid({ gusset, corners, normal, half }: GussetBody, view: View, owner: number): Solid | null {
  const [apex, p, q] = corners.map((corner) => project(view, corner)) as [Vec3, Vec3, Vec3];
  return gusset.made === 'tube'
    ? rod(owner, p, q, half, false)
    : prism(owner, [apex, p, q], project(view, scale(normal, half)));
}
