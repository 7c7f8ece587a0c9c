/** Shoulder straps as ribbons: from the shoulder through the slot to the bar, and round it. Millimetres. */
import type { Seat, Strap } from '../cage/cage';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, cross, distance, dot, norm, scale, sub, unit } from '../centreline/vector';
import type { Part, StrapFigures } from '../geometry/shape';
import { Builder } from './builder';
import type { Mesh } from './mesh';

/** How thick webbing is drawn, and how far it stands off what it lies on. */
const THICK = 1.5;
const CLEAR = 0.2;
/** How far wrapped webbing goes round its bar, and by how much from section to section, radians. */
const ROUND = (300 * Math.PI) / 180;
const STEP = Math.PI / 18;
/** Sections nearer than this are one. */
const NEAR = 0.5;

/** Across the ribbon at a point: to one edge of it, and out of its upper face. */
interface Section {
  readonly at: Vec3;
  readonly side: Vec3;
  readonly up: Vec3;
}

/** A closed ribbon through sections. */
function ribbon(sections: readonly Section[], width: number): Mesh | null {
  const [first, last] = [sections[0], sections[sections.length - 1]];
  if (first === undefined || last === undefined || sections.length < 2) return null;
  const build = new Builder();
  const corners = ({ at, side, up }: Section): readonly [Vec3, Vec3, Vec3, Vec3] => {
    const [a, b] = [addScaled(at, side, -width / 2), addScaled(at, side, width / 2)];
    return [
      addScaled(a, up, CLEAR),
      addScaled(b, up, CLEAR),
      addScaled(b, up, CLEAR + THICK),
      addScaled(a, up, CLEAR + THICK),
    ];
  };
  const rings = sections.map(corners);
  for (let i = 0; i < 4; i++) {
    const k = (i + 1) % 4;
    const mark = build.mark;
    const strip = rings.map(
      (ring) => [build.corner(ring[i] ?? [0, 0, 0], first.up), build.corner(ring[k] ?? [0, 0, 0], first.up)] as const,
    );
    for (let s = 0; s + 1 < strip.length; s++) {
      const [here, next] = [strip[s], strip[s + 1]];
      if (here === undefined || next === undefined) continue;
      build.triangle(here[0], next[1], here[1]);
      build.triangle(here[0], next[0], next[1]);
    }
    build.smoothed(mark);
    for (let s = 0; s + 1 < rings.length; s++) build.line(rings[s]?.[i] ?? [0, 0, 0], rings[s + 1]?.[i] ?? [0, 0, 0]);
  }
  build.face(corners(first));
  build.face([...corners(last)].reverse());
  return build.mesh();
}

/** The run alone as a line, where the webbing's width is not known. */
function lineOf(from: Vec3, to: Vec3): Mesh | null {
  const build = new Builder();
  build.line(from, to);
  return build.mesh();
}

/** The webbing of a strap; null where its run is not known. */
export function strapMesh(strap: Strap, figures: StrapFigures, seat: Seat | null, part: Part | null): Mesh | null {
  const { start, contact, barPoint, slot } = figures;
  if (start === null || contact === null) return null;
  const line = part?.centreline ?? null;
  if (strap.width === null || !(strap.width > 0) || line === null || barPoint === null) return lineOf(start, contact);
  const bar = nearestOn(line, barPoint).tangent;
  const radius = distance(contact, barPoint);
  const out = unit(sub(contact, barPoint));
  const run = unit(sub(contact, start));
  // Flat on the bar; at the seat it lies as level as the run lets it. Seen along the run the edge is to one side of it.
  const level = cross(run, [0, 0, 1]);
  const onBar = dot(cross(bar, out), run) > 0 ? scale(bar, -1) : bar;
  const own = norm(level) > 1e-6 ? unit(level) : onBar;
  const atSeat = dot(own, onBar) < 0 ? scale(own, -1) : own;
  const upper = (side: Vec3, way: Vec3): Vec3 => unit(cross(side, way));
  const from: Vec3[] = [];
  const shoulder = seat?.shoulder ?? null;
  if (shoulder !== null && slot !== null) from.push(add(slot, shoulder));
  if (slot !== null) from.push(slot);
  from.push(start);
  const points = from.filter((at, i) => i === from.length - 1 || distance(at, from[i + 1] ?? at) > NEAR);
  const sections: Section[] = points.map((at, i) => {
    const next = points[i + 1] ?? contact;
    return { at, side: atSeat, up: upper(atSeat, unit(sub(next, at))) };
  });
  if (distance(start, contact) > NEAR) sections.push({ at: contact, side: onBar, up: out });
  const steps = strap.fixing === 'wrap' ? Math.ceil(ROUND / STEP) : 0;
  const ahead = unit(addScaled(run, onBar, -dot(run, onBar)));
  for (let i = 1; i <= steps; i++) {
    const angle = (ROUND * i) / steps;
    const up = addScaled(scale(out, Math.cos(angle)), ahead, Math.sin(angle));
    sections.push({ at: addScaled(barPoint, up, radius), side: onBar, up });
  }
  return ribbon(sections, strap.width);
}
