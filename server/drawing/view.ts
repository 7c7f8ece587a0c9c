/**
 * Where a drawing is looked at from: parallel projection onto a plane. Model coordinates are the car's (x forward, y left,
 * z up, mm); projected ones are mm to the right and up on the picture, and mm toward the viewer.
 */
import type { Vec3 } from '../centreline/vector';
import { cross, dot, norm, scale, unit } from '../centreline/vector';

export interface View {
  /** Unit vectors: to the right and upward on the picture, and from the car toward the viewer. */
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toward: Vec3;
}

export const VIEW_NAMES = ['plan', 'side', 'front'] as const;
export type ViewName = (typeof VIEW_NAMES)[number];

/**
 * The three flat views. Forward is to the left in side view and in plan, so that one stands above the other; the side
 * view is seen from the car's own left, the front view from ahead of the car.
 */
export const VIEWS: Readonly<Record<ViewName, View>> = {
  side: { right: [-1, 0, 0], up: [0, 0, 1], toward: [0, 1, 0] },
  plan: { right: [-1, 0, 0], up: [0, -1, 0], toward: [0, 0, 1] },
  front: { right: [0, 1, 0], up: [0, 0, 1], toward: [1, 0, 0] },
};

/** What stands under each view. */
export const VIEW_WORDS: Readonly<Record<DrawnView, string>> = {
  side: "Side view, from the car's left; forward is to the left",
  plan: "Plan, from above; forward is to the left, the car's left is below",
  front: "Front view, from ahead; the car's left is on the right",
  free: "From ahead, 40° round to the car's left and 25° above the level; nothing can be measured in it",
};

/**
 * A free view, radians: `azimuth` 0 looks from ahead, growing toward the car's left; `elevation` is above the horizon.
 * Straight from above forward is up.
 */
export function viewFrom(azimuth: number, elevation: number): View {
  const [ca, sa, ce, se] = [Math.cos(azimuth), Math.sin(azimuth), Math.cos(elevation), Math.sin(elevation)];
  const toward: Vec3 = [ca * ce, sa * ce, se];
  const level = cross([0, 0, 1], toward);
  const right = norm(level) > 1e-9 ? unit(level) : ([0, -1, 0] as const);
  return { right, up: cross(toward, right), toward };
}

/** The views that a drawing is asked for by name: the flat ones, and one from ahead, the car's left and above. */
export const DRAWN_VIEWS = [...VIEW_NAMES, 'free'] as const;
export type DrawnView = (typeof DRAWN_VIEWS)[number];

const DEGREE = Math.PI / 180;
/** Round from ahead toward the car's left, and up, degrees. */
const FREE = { azimuth: 40, elevation: 25 } as const;

export const viewNamed = (name: DrawnView): View =>
  name === 'free' ? viewFrom(FREE.azimuth * DEGREE, FREE.elevation * DEGREE) : VIEWS[name];

/** On the picture: mm to the right, up, and toward the viewer. */
export const project = (view: View, at: Vec3): Vec3 => [dot(at, view.right), dot(at, view.up), dot(at, view.toward)];

/**
 * The direction across a tube that runs along `tangent` in which its edge is seen: a unit vector in the plane of the
 * picture; null where the tube is seen end on and every direction is an edge.
 */
export function edgeNormal(view: View, tangent: Vec3): Vec3 | null {
  const across = cross(tangent, view.toward);
  const size = norm(across);
  return size < 1e-7 ? null : scale(across, 1 / size);
}
