/** What stands round the cage: doors and panels by their edges, anchorages as marks. Millimetres. */
import type { Anchor, Door, Panel } from '../cage/hardware';
import { normalOf } from '../centreline/outline';
import type { Vec3 } from '../centreline/vector';
import { addScaled, scale } from '../centreline/vector';
import { Builder } from './builder';
import { prism } from './flat';
import type { Mesh } from './mesh';

/** How thick a surface of the car is drawn, and how large the mark of an anchorage, mm. */
const SHEET = 1;
const MARK = 14;

/** A surface as a thin plate; a line, or an edge that crosses itself, as a line. Null where a corner is not known. */
export function panelMesh({ outline }: Door | Panel): Mesh | null {
  if (outline === null || outline.length < 2) return null;
  const normal = normalOf(outline);
  const sheet = prism(
    outline.map((at) => addScaled(at, normal, -SHEET / 2)),
    scale(normal, SHEET),
  );
  if (sheet !== null) return sheet;
  const build = new Builder();
  if (outline.length > 2) build.loop(outline);
  else build.line(outline[0] ?? [0, 0, 0], outline[1] ?? [0, 0, 0]);
  return build.mesh();
}

/** A mark with eight faces. */
export function anchorMesh({ at }: Anchor): Mesh | null {
  if (at === null) return null;
  const build = new Builder();
  const axes: readonly Vec3[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const tip = (axis: number, side: number): Vec3 => addScaled(at, axes[axis] ?? [0, 0, 0], side * MARK);
  for (const x of [1, -1])
    for (const y of [1, -1])
      for (const z of [1, -1]) {
        const face = [tip(0, x), tip(1, y), tip(2, z)];
        build.face(x * y * z > 0 ? face : face.reverse());
      }
  for (const side of [1, -1]) {
    build.loop([tip(0, 1), tip(1, side), tip(0, -1), tip(1, -side)]);
    build.line(tip(2, side), tip(0, 1));
    build.line(tip(2, side), tip(0, -1));
    build.line(tip(2, side), tip(1, 1));
    build.line(tip(2, side), tip(1, -1));
  }
  return build.mesh();
}
