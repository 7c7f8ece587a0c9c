/** Feet with what is under them, and gussets. What no fact says is drawn at a size of its own, which is told here. */
import type { Foot } from '../cage/cage';
import type { Gusset } from '../cage/hardware';
import type { Triangle } from '../centreline/outline';
import { ears } from '../centreline/outline';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, cross, distance, dot, norm, scale, sub, unit } from '../centreline/vector';
import type { Plate } from '../drawing/things';
import { Builder } from './builder';
import { box, circle, mirrored, prism } from './flat';
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

/** Steps of the arc of a cut-out. */
const ARC = 8;

/**
 * The outline of a side, right-handed about `normal`: from the node's corner, or where the cut-out leaves the first tube,
 * to both outer corners, and back along the cut-out. One that would take away an outer corner is left away.
 */
function sideOf([apex, p, q]: GussetShape['corners'], normal: Vec3, cutOut: number | null): readonly Vec3[] {
  const [a, b] = [sub(p, apex), sub(q, apex)];
  const radius = cutOut ?? 0;
  if (!(radius > 0 && radius < Math.min(norm(a), norm(b)))) return [apex, p, q];
  const first = unit(a);
  const beside = cross(normal, first);
  const angle = Math.atan2(dot(b, beside), dot(b, first));
  const arc = Array.from({ length: ARC + 1 }, (_, i) => {
    const turn = angle * (1 - i / ARC);
    return addScaled(addScaled(apex, first, radius * Math.cos(turn)), beside, radius * Math.sin(turn));
  });
  const start = arc[ARC] ?? apex;
  return [start, p, q, ...arc.slice(0, ARC)];
}

/** The hole in a side, as a circle in the middle of its triangle. */
function ringOn([apex, p, q]: GussetShape['corners'], normal: Vec3, dia: number, by: readonly number[]): Mesh | null {
  const sides = [distance(p, q), distance(apex, q), distance(apex, p)] as const;
  const whole = sides[0] + sides[1] + sides[2];
  const middle = scale(add(add(scale(apex, sides[0]), scale(p, sides[1])), scale(q, sides[2])), 1 / whole);
  const build = new Builder();
  for (const far of by) build.loop(circle(addScaled(middle, normal, far), normal, dia / 2, ROUND));
  return build.mesh();
}

/**
 * Sheet bent to a U: two sides flat on the tubes, joined along the edge that faces away from the node. A flat one is a
 * triangle of plate in the middle; one of tube a rod from tube to tube, half as thick as the smaller.
 */
export function gussetMesh({ gusset, corners, width }: GussetShape): Mesh | null {
  const [apex, p, q] = corners;
  const square = cross(sub(p, apex), sub(q, apex));
  if (!(norm(square) > 0)) return null;
  if (gusset.made === 'tube') {
    const way = sub(q, p);
    return prism(circle(p, unit(way), width / 4, ROUND), way, true);
  }
  const normal = unit(square);
  const thick = gusset.thickness ?? THIN;
  const side = sideOf(corners, normal, gusset.cutOut);
  const flat = gusset.made === 'flat';
  const body = flat
    ? prism(
        side.map((at) => addScaled(at, normal, -thick / 2)),
        scale(normal, thick),
      )
    : bentSheet(corners, side, normal, width, thick);
  const half = flat ? thick / 2 : width / 2;
  const hole = gusset.hole === null || !(gusset.hole > 0) ? null : ringOn(corners, normal, gusset.hole, [half, -half]);
  return body === null ? null : merged([body, hole]);
}

/** `side`: the outline of a side, its second and third point the outer corners. */
function bentSheet(
  [apex, p, q]: GussetShape['corners'],
  side: readonly Vec3[],
  normal: Vec3,
  width: number,
  thick: number,
): Mesh | null {
  const [begin, , , ...arc] = side;
  const end = arc[0] ?? begin;
  const edge = unit(sub(q, p));
  const rel = sub(apex, p);
  const high = norm(addScaled(rel, edge, -dot(rel, edge)));
  if (!(thick > 0 && thick < high && 2 * thick < width) || begin === undefined || end === undefined) return null;
  // From the outer edge toward the node, by the sheet's thickness: also where the cut-out begins.
  const toward = (at: Vec3): Vec3 => addScaled(at, sub(apex, at), thick / high);
  const [innerP, innerQ] = [toward(p), toward(q)];
  const reaches = (from: Vec3, corner: Vec3, inner: Vec3): boolean => distance(from, corner) > distance(inner, corner);
  if (!reaches(begin, p, innerP) || !reaches(end, q, innerQ)) return null;
  const [out, inn] = [width / 2, width / 2 - thick];
  const at = (point: Vec3, by: number): Vec3 => addScaled(point, normal, by);
  const inner = [begin, innerP, innerQ, ...arc];
  const [outerFacets, innerFacets] = [ears(side), ears(inner)];
  if (outerFacets === null || innerFacets === null) return null;
  const build = new Builder();
  const plate = (points: readonly Vec3[], by: number, facets: readonly Triangle[], up: boolean): void => {
    const placed = points.map((point) => at(point, by));
    if (up) build.facets(placed, facets);
    else build.facets([...placed].reverse(), mirrored(facets, placed.length));
  };
  plate(side, out, outerFacets, true);
  plate(side, -out, outerFacets, false);
  plate(inner, inn, innerFacets, false);
  plate(inner, -inn, innerFacets, true);
  build.face([at(p, -out), at(q, -out), at(q, out), at(p, out)]);
  build.face([at(innerP, inn), at(innerQ, inn), at(innerQ, -inn), at(innerP, -inn)]);
  // The U that lies on each tube, as three strips.
  build.face([at(begin, inn), at(innerP, inn), at(p, out), at(begin, out)]);
  build.face([at(innerP, inn), at(innerP, -inn), at(p, -out), at(p, out)]);
  build.face([at(innerP, -inn), at(begin, -inn), at(begin, -out), at(p, -out)]);
  build.face([at(end, out), at(q, out), at(innerQ, inn), at(end, inn)]);
  build.face([at(q, out), at(q, -out), at(innerQ, -inn), at(innerQ, inn)]);
  build.face([at(q, -out), at(end, -out), at(end, -inn), at(innerQ, -inn)]);
  // Along the cut-out.
  for (const [i, from] of arc.entries()) {
    const to = arc[i + 1] ?? begin;
    build.face([at(from, inn), at(from, out), at(to, out), at(to, inn)].reverse());
    build.face([at(from, -inn), at(from, -out), at(to, -out), at(to, -inn)]);
  }
  for (const by of [out, -out]) build.loop(side.map((point) => at(point, by)));
  build.line(at(p, out), at(p, -out));
  build.line(at(q, out), at(q, -out));
  return build.mesh();
}
