/** Feet with what is under them, and gussets. What no fact says is drawn at a size of its own, which is told here. */
import type { Foot } from '../cage/cage';
import type { Gusset } from '../cage/hardware';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, norm, scale, sub, unit } from '../centreline/vector';
import type { Plate } from '../drawing/things';
import { Builder } from './builder';
import { box, circle, prism } from './flat';
import type { Mesh } from './mesh';
import { merged } from './mesh';

/** The panel between a foot and its counter-plate, as it is drawn, mm. */
const PANEL = 1;
const ROUND = 24;

/** Bolts and hole of a foot, as circles on both faces of its plate. */
function holesOf(foot: Foot, { centre, halves: [long, wide, thick] }: Plate): Mesh | null {
  const build = new Builder();
  const [forward, left, up] = [unit(long), unit(wide), unit(thick)];
  const ring = (at: Vec3, dia: number): void => {
    for (const side of [1, -1]) build.loop(circle(addScaled(at, thick, side), up, dia / 2, ROUND));
  };
  if (foot.hole !== null && foot.hole > 0) ring(centre, foot.hole);
  const bolt = foot.bolts?.diameter ?? null;
  for (const { forward: f, left: l } of foot.boltsAt ?? [])
    if (bolt !== null && bolt > 0) ring(addScaled(addScaled(centre, forward, f), left, l), bolt);
  return build.mesh();
}

/** A foot's plate, and on the far side of the panel its counter-plate. */
export function footMesh(plate: Plate): Mesh | null {
  const { foot, centre, halves, under } = plate;
  const counter = foot.counterPlate;
  const [long, wide, thick] = halves;
  const below = counter === null ? null : addScaled(centre, under, norm(thick) + PANEL + counter.thick / 2);
  return merged([
    box(centre, halves),
    holesOf(foot, plate),
    below === null || counter === null
      ? null
      : box(below, [
          scale(unit(long), counter.long / 2),
          scale(unit(wide), counter.wide / 2),
          scale(unit(thick), counter.thick / 2),
        ]),
  ]);
}

/** A sheet whose thickness is not written is drawn so thick, mm. */
const THIN = 1.5;

/** A gusset: its corner at the node, and the two along its tubes. `width`: over the smaller tube, mm. */
export interface GussetShape {
  readonly gusset: Gusset;
  readonly corners: readonly [Vec3, Vec3, Vec3];
  readonly width: number;
}

/**
 * Sheet bent to a U: two sides flat on the tubes, joined along the edge that faces away from the node. A flat one is a
 * triangle of plate in the middle; one of tube a rod from tube to tube, half as thick as the smaller.
 */
export function gussetMesh({ gusset, corners, width }: GussetShape): Mesh | null {
  const [apex, p, q] = corners;
  const square = cross(sub(p, apex), sub(q, apex));
  if (!(norm(square) > 0)) return null;
  const normal = unit(square);
  const thick = gusset.thickness ?? THIN;
  if (gusset.made === 'flat')
    return prism(
      corners.map((at) => addScaled(at, normal, -thick / 2)),
      scale(normal, thick),
    );
  if (gusset.made === 'tube') {
    const way = sub(q, p);
    return prism(circle(p, unit(way), width / 4, ROUND), way, true);
  }
  return bentSheet(corners, normal, width, thick);
}

function bentSheet([apex, p, q]: GussetShape['corners'], normal: Vec3, width: number, thick: number): Mesh | null {
  // From the outer edge toward the node, by the sheet's thickness.
  const edge = unit(sub(q, p));
  const rel = sub(apex, p);
  const high = norm(addScaled(rel, edge, -(rel[0] * edge[0] + rel[1] * edge[1] + rel[2] * edge[2])));
  if (!(thick > 0 && thick < high && 2 * thick < width)) return null;
  const share = thick / high;
  const toward = (at: Vec3): Vec3 => addScaled(at, sub(apex, at), share);
  const [innerP, innerQ] = [toward(p), toward(q)];
  const [out, inn] = [width / 2, width / 2 - thick];
  const at = (point: Vec3, by: number): Vec3 => addScaled(point, normal, by);
  const build = new Builder();
  build.face([at(apex, out), at(p, out), at(q, out)]);
  build.face([at(apex, -out), at(q, -out), at(p, -out)]);
  build.face([at(p, -out), at(q, -out), at(q, out), at(p, out)]);
  build.face([at(apex, inn), at(innerQ, inn), at(innerP, inn)]);
  build.face([at(apex, -inn), at(innerP, -inn), at(innerQ, -inn)]);
  build.face([at(innerP, inn), at(innerQ, inn), at(innerQ, -inn), at(innerP, -inn)]);
  // The U that lies on each tube, as three strips.
  build.face([at(apex, inn), at(innerP, inn), at(p, out), at(apex, out)]);
  build.face([at(innerP, inn), at(innerP, -inn), at(p, -out), at(p, out)]);
  build.face([at(innerP, -inn), at(apex, -inn), at(apex, -out), at(p, -out)]);
  build.face([at(apex, out), at(q, out), at(innerQ, inn), at(apex, inn)]);
  build.face([at(q, out), at(q, -out), at(innerQ, -inn), at(innerQ, inn)]);
  build.face([at(q, -out), at(apex, -out), at(apex, -inn), at(innerQ, -inn)]);
  for (const side of [out, -out]) build.loop([at(apex, side), at(p, side), at(q, side)]);
  build.line(at(p, out), at(p, -out));
  build.line(at(q, out), at(q, -out));
  return build.mesh();
}
