/** How things look where nobody's theme says it: in a picture file, and in other programs. */
import type { MeshKind } from './meshes';

export interface MeshLook {
  /** Red, green, blue, 0 to 1, as on a screen (sRGB). */
  readonly colour: readonly [number, number, number];
  readonly metal: boolean;
  /** Only its edges are drawn in a picture: it would hide the car. */
  readonly outlineOnly: boolean;
}

const look = (colour: MeshLook['colour'], metal: boolean, outlineOnly = false): MeshLook => ({
  colour,
  metal,
  outlineOnly,
});

export const MESH_LOOKS: Readonly<Record<MeshKind, MeshLook>> = {
  tube: look([0.66, 0.7, 0.74], true),
  'existing-tube': look([0.42, 0.43, 0.45], true),
  foot: look([0.5, 0.55, 0.6], true),
  gusset: look([0.58, 0.62, 0.64], true),
  collar: look([0.8, 0.76, 0.66], true),
  fitting: look([0.78, 0.72, 0.55], true),
  vent: look([0.12, 0.12, 0.13], false),
  hole: look([0.12, 0.12, 0.13], false),
  padding: look([0.25, 0.26, 0.28], false),
  seat: look([0.3, 0.36, 0.44], false),
  helmet: look([0.87, 0.86, 0.82], false),
  strap: look([0.62, 0.2, 0.18], false),
  panel: look([0.55, 0.57, 0.55], false, true),
  anchor: look([0.75, 0.6, 0.2], true),
  space: look([0.8, 0.35, 0.55], false),
};
