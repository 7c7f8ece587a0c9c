/**
 * Real bodies of tubes for a general-purpose solid-modelling library (manifold-3d), and the edge that a cut leaves.
 * Bodies stand in the child's own coordinates, its end point at the origin and its leg along z: that spares the
 * library's 32-bit coordinates digits, and its boxes round the child's long facets stay thin.
 */
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import Module from 'manifold-3d';
import type { Centreline } from '../../server/centreline/centreline';
import { pointAt } from '../../server/centreline/query';
import type { Vec3 } from '../../server/centreline/vector';
import { addScaled, cross, distance, dot, sub, unit } from '../../server/centreline/vector';
import type { ChildEnd } from '../../server/geometry/setback';

/** Facets round a host and round a child; a bend is divided so that its rings stand this far apart at most, radians. */
export const HOST_FACETS = 160;
export const CHILD_FACETS = 120;
export const RING_ANGLE = (0.9 * Math.PI) / 180;

/** Rings along a leg: long facets make the library slow. */
const LEG_STEP = 20;

/** How far facets lie inside the round tube, and how far chords along a bend lie inside or outside of it, mm. */
export const facetError = (radius: number): number => radius * (1 - Math.cos(Math.PI / HOST_FACETS));
export const ringError = (radius: number, bendRadius: number): number =>
  (radius + bendRadius) * (1 - Math.cos(RING_ANGLE / 2));

export async function solids(): Promise<ManifoldToplevel> {
  const wasm = await Module();
  wasm.setup();
  return wasm;
}

/** A closed body from rings of `count` points each, in the order of travel. */
function loft(wasm: ManifoldToplevel, rings: readonly (readonly Vec3[])[]): Manifold {
  const count = rings[0]?.length ?? 0;
  const points: number[] = rings.flatMap((ring) => ring.flatMap((p) => [...p]));
  const triangles: number[] = [];
  for (let k = 0; k + 1 < rings.length; k++) {
    for (let i = 0; i < count; i++) {
      const j = (i + 1) % count;
      const a = k * count;
      const b = a + count;
      triangles.push(a + i, a + j, b + j, a + i, b + j, b + i);
    }
  }
  const last = (rings.length - 1) * count;
  for (let i = 1; i + 1 < count; i++) {
    triangles.push(0, i + 1, i);
    triangles.push(last, last + i, last + i + 1);
  }
  const mesh = new wasm.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(points),
    triVerts: Uint32Array.from(triangles),
  });
  return new wasm.Manifold(mesh);
}

function ring(centre: Vec3, one: Vec3, two: Vec3, radius: number, facets: number): Vec3[] {
  return Array.from({ length: facets }, (_, i) => {
    const turn = (2 * Math.PI * i) / facets;
    return addScaled(addScaled(centre, one, radius * Math.cos(turn)), two, radius * Math.sin(turn));
  });
}

/** A point in the child's coordinates: along clock 0, across it, and along the leg. */
const seenBy = (child: ChildEnd, p: Vec3): Vec3 => {
  const rel = sub(p, child.origin);
  return [dot(rel, child.zero), dot(rel, cross(child.away, child.zero)), dot(rel, child.away)];
};

/** The solid of a bent tube between two stations. */
export function tubeSolid(
  wasm: ManifoldToplevel,
  child: ChildEnd,
  c: Centreline,
  radius: number,
  from: number,
  to: number,
): Manifold {
  const stations = new Set<number>([from, to]);
  for (const piece of c.pieces) {
    const count = Math.ceil(piece.kind === 'leg' ? piece.length / LEG_STEP : piece.angle / RING_ANGLE);
    for (let i = 0; i <= count; i++) stations.add(piece.start + (piece.length * i) / count);
  }
  const inside = [...stations].filter((s) => s >= from && s <= to).sort((a, b) => a - b);
  const kept = inside.filter((s, i) => i === 0 || s - (inside[i - 1] ?? 0) > 1e-6);
  let one: Vec3 | null = null;
  const rings = kept.map((station) => {
    const { point, tangent } = pointAt(c, station);
    const before: Vec3 = one ?? (Math.abs(tangent[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0]);
    one = unit(addScaled(before, tangent, -dot(before, tangent)));
    return ring(point, one, cross(tangent, one), radius, HOST_FACETS).map((p) => seenBy(child, p));
  });
  return loft(wasm, rings);
}

/** The child's tube, bored, from `back` behind its end point to `ahead` before it. */
export function childSolid(wasm: ManifoldToplevel, child: ChildEnd, back: number, ahead: number): Manifold {
  const cylinder = (radius: number, more: number): Manifold => {
    const rings = [-back - more, ahead + more].map((s) => ring([0, 0, s], [1, 0, 0], [0, 1, 0], radius, CHILD_FACETS));
    return loft(wasm, rings);
  };
  const outer = cylinder(child.outerRadius, 0);
  const bore = cylinder(child.innerRadius, 1);
  const tube = outer.subtract(bore).asOriginal();
  outer.delete();
  bore.delete();
  return tube;
}

/** A point that the cut made, as the child sees it. */
export interface CutPoint {
  readonly point: Vec3;
  readonly rho: number;
  readonly clock: number;
  readonly setback: number;
}

export interface CutEdge {
  /** Every point of the cut's surface: on both faces of the wall, and within it. */
  readonly points: readonly CutPoint[];
  /** Length of the edge on the outer face, mm. */
  readonly saddle: number;
}

/** Cuts a child by a host's body and reads the edge that is left on the part that reaches to `ahead`. */
export function cutEdge(child: ChildEnd, tube: Manifold, host: Manifold, ahead: number): CutEdge | null {
  const cut = tube.subtract(host);
  const parts = cut.decompose();
  cut.delete();
  let edge: CutEdge | null = null;
  for (const part of parts) {
    const far = part.boundingBox().max[2];
    if (far > ahead - 1) edge = edge ?? readEdge(child, part, tube.originalID(), ahead);
    part.delete();
  }
  return edge;
}

function readEdge(child: ChildEnd, part: Manifold, childId: number, ahead: number): CutEdge | null {
  const mesh = part.getMesh();
  const at = (v: number): Vec3 => [
    mesh.vertProperties[v * mesh.numProp] ?? NaN,
    mesh.vertProperties[v * mesh.numProp + 1] ?? NaN,
    mesh.vertProperties[v * mesh.numProp + 2] ?? NaN,
  ];
  const merged = new Map<number, number>();
  mesh.mergeFromVert.forEach((from, i) => merged.set(from, mesh.mergeToVert[i] ?? from));
  const own = (v: number): number => merged.get(v) ?? v;
  const cutVertices = new Set<number>();
  const childEdges = new Set<string>();
  const cutEdges: [number, number][] = [];
  let reaches = false;
  for (let run = 0; run < mesh.runOriginalID.length; run++) {
    const isChild = mesh.runOriginalID[run] === childId;
    const first = mesh.runIndex[run] ?? 0;
    const end = mesh.runIndex[run + 1] ?? mesh.triVerts.length;
    for (let t = first; t < end; t += 3) {
      const corners = [0, 1, 2].map((k) => own(mesh.triVerts[t + k] ?? 0));
      corners.forEach((v, k) => {
        const w = corners[(k + 1) % 3] ?? 0;
        if (isChild) childEdges.add(`${v} ${w}`);
        else cutEdges.push([v, w]);
        if (!isChild) cutVertices.add(v);
        if (isChild && at(v)[2] > ahead - 1e-2) reaches = true;
      });
    }
  }
  if (!reaches) return null;
  // Clocks run from zero toward quarter, which is on the other side of the leg at a tube's last end.
  const sense = Math.sign(dot(child.quarter, cross(child.away, child.zero)));
  const seen = (v: number): CutPoint => {
    const point = at(v);
    return {
      point,
      rho: Math.hypot(point[0], point[1]),
      clock: Math.atan2(sense * point[1], point[0]),
      setback: point[2],
    };
  };
  const middle = (child.outerRadius + child.innerRadius) / 2;
  let saddle = 0;
  for (const [v, w] of cutEdges) {
    if (!childEdges.has(`${w} ${v}`)) continue;
    const p = seen(v);
    if (p.rho > middle && seen(w).rho > middle) saddle += distance(p.point, at(w));
  }
  return { points: [...cutVertices].map(seen), saddle };
}

/** Distance of the child's point at a radius, clock and set-back to a body, by a tiny cube put there. */
export function gapTo(
  wasm: ManifoldToplevel,
  child: ChildEnd,
  at: Omit<CutPoint, 'point'>,
  host: Manifold,
  within: number,
): number {
  const sense = Math.sign(dot(child.quarter, cross(child.away, child.zero)));
  const size = 1e-3;
  const cube = wasm.Manifold.cube([size, size, size], true);
  const there = cube.translate(at.rho * Math.cos(at.clock), sense * at.rho * Math.sin(at.clock), at.setback);
  const gap = there.minGap(host, within);
  cube.delete();
  there.delete();
  return gap;
}
