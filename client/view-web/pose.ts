/**
 * Where the picture is looked at from, as plain data and pure arithmetic. Millimetres and radians in the car's frame
 * (x forward, y left, z up). Azimuth 0 looks from ahead of the car and grows toward its left; elevation is above the horizon.
 */
import { Vector3 } from 'three';
import type { Point3 } from '../../server/view/model';

export interface Pose {
  /** What the camera turns about. */
  readonly target: Point3;
  readonly azimuth: number;
  readonly elevation: number;
  /** From the target to the eye. */
  readonly distance: number;
  readonly parallel: boolean;
}

/** Unit vectors: to the right and upward in the picture, and from the car toward the viewer. */
export interface Basis {
  readonly right: Vector3;
  readonly up: Vector3;
  readonly toward: Vector3;
}

export type Box = readonly [Point3, Point3];

/** Of the perspective camera, from the lower to the upper edge. */
export const FIELD = (35 * Math.PI) / 180;
const HALF = Math.tan(FIELD / 2);
const NEAREST = 20;
const FARTHEST = 100_000;
/** A picture of a small thing still shows what it is on, mm. */
const NEAR = 1100;

const clamp = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

/** The standard views: forward is to the left in side view and in plan; the front view is seen from ahead of the car. */
export const STANDARD = {
  plan: { azimuth: Math.PI / 2, elevation: Math.PI / 2 },
  side: { azimuth: Math.PI / 2, elevation: 0 },
  front: { azimuth: 0, elevation: 0 },
  free: { azimuth: (48 * Math.PI) / 180, elevation: (22 * Math.PI) / 180 },
} as const;
export type StandardView = keyof typeof STANDARD;

/** The picture's own directions; they are defined straight from above as well. */
export function basisOf(pose: Pose): Basis {
  const [ca, sa] = [Math.cos(pose.azimuth), Math.sin(pose.azimuth)];
  const [ce, se] = [Math.cos(pose.elevation), Math.sin(pose.elevation)];
  return {
    right: new Vector3(-sa, ca, 0),
    up: new Vector3(-ca * se, -sa * se, ce),
    toward: new Vector3(ca * ce, sa * ce, se),
  };
}

/** Half the height, in mm, of what is seen in the plane through the target. */
export const halfHeight = (pose: Pose): number => pose.distance * HALF;

const moved = (pose: Pose, by: Vector3): Point3 => [
  pose.target[0] + by.x,
  pose.target[1] + by.y,
  pose.target[2] + by.z,
];

/** Turned about its target by angles; never over the top. */
export function turned(pose: Pose, azimuth: number, elevation: number): Pose {
  const full = 2 * Math.PI;
  return {
    ...pose,
    azimuth: (((pose.azimuth + azimuth) % full) + full) % full,
    elevation: clamp(pose.elevation + elevation, -Math.PI / 2, Math.PI / 2),
  };
}

/** Shifted so that the car follows a hand by that many pixels to the right and downward, in a picture of that height. */
export function panned(pose: Pose, right: number, down: number, height: number): Pose {
  const each = (2 * halfHeight(pose)) / Math.max(1, height);
  const { right: r, up } = basisOf(pose);
  return { ...pose, target: moved(pose, r.multiplyScalar(-right * each).addScaledVector(up, down * each)) };
}

/**
 * Nearer (factor below 1) or farther, so that what lies in the target's plane under a point of the picture stays there.
 * @param x from -1 at the left to 1 at the right; `y` from -1 at the bottom to 1 at the top
 */
export function zoomed(pose: Pose, factor: number, x: number, y: number, aspect: number): Pose {
  const distance = clamp(pose.distance * factor, NEAREST, FARTHEST);
  const kept = 1 - distance / pose.distance;
  const { right, up } = basisOf(pose);
  const half = halfHeight(pose);
  const by = right.multiplyScalar(x * half * aspect * kept).addScaledVector(up, y * half * kept);
  return { ...pose, distance, target: moved(pose, by) };
}

const cornersOf = ([low, high]: Box): Vector3[] =>
  [0, 1, 2, 3, 4, 5, 6, 7].map(
    (n) => new Vector3(n & 1 ? high[0] : low[0], n & 2 ? high[1] : low[1], n & 4 ? high[2] : low[2]),
  );

/** Looking the same way, with all of some boxes filling the picture but for a margin. */
export function framed(pose: Pose, boxes: readonly Box[], aspect: number, nearest = NEAR): Pose {
  const { right, up, toward } = basisOf(pose);
  const corners = boxes.flatMap(cornersOf);
  if (corners.length === 0) return pose;
  const room = 1.08;
  const [wide, high] = [(HALF * Math.max(0.1, aspect)) / room, HALF / room];
  // In perspective a corner nearer to the eye by a millimetre needs as much more room as the field widens over it.
  const ends = (along: Vector3, slope: number) => {
    const nearer = pose.parallel ? 0 : slope;
    const most = Math.max(...corners.map((at) => at.dot(along) + at.dot(toward) * nearer));
    const least = Math.max(...corners.map((at) => -at.dot(along) + at.dot(toward) * nearer));
    return { far: (most + least) / 2 / slope, middle: (most - least) / 2 };
  };
  const [x, y] = [ends(right, wide), ends(up, high)];
  const depths = corners.map((at) => at.dot(toward));
  const depth = (Math.min(...depths) + Math.max(...depths)) / 2;
  // From the middle of the depth, which the camera then turns about.
  const distance = Math.max(x.far, y.far) - (pose.parallel ? 0 : depth);
  const target = right.multiplyScalar(x.middle).addScaledVector(up, y.middle).addScaledVector(toward, depth);
  return { ...pose, target: [target.x, target.y, target.z], distance: clamp(distance, nearest, FARTHEST) };
}

/** The way a standard view looks; the flat ones are drawn in parallel, as on a drawing. */
export function standard(pose: Pose, name: StandardView): Pose {
  return { ...pose, ...STANDARD[name], parallel: name !== 'free' };
}

/** Looking from along a direction, from the car toward the viewer. */
export function lookingFrom(pose: Pose, toward: Vector3): Pose {
  const unit = toward.clone().normalize();
  const elevation = Math.asin(clamp(unit.z, -1, 1));
  // Straight from above any azimuth would do: the one that is stays.
  const azimuth = Math.hypot(unit.x, unit.y) < 1e-3 ? pose.azimuth : Math.atan2(unit.y, unit.x);
  return turned({ ...pose, azimuth, elevation }, 0, 0);
}

/** The standard view that a pose looks like, within a thousandth of a radian. */
export function viewOf(pose: Pose): StandardView {
  for (const name of ['plan', 'side', 'front'] as const) {
    const { azimuth, elevation } = STANDARD[name];
    const off = Math.abs(Math.sin((pose.azimuth - azimuth) / 2));
    if (off < 5e-4 && Math.abs(pose.elevation - elevation) < 1e-3) return name;
  }
  return 'free';
}

/** Part of the way from one pose to another, the short way round. */
export function between(from: Pose, to: Pose, share: number): Pose {
  const mix = (a: number, b: number) => a + (b - a) * share;
  const around = Math.atan2(Math.sin(to.azimuth - from.azimuth), Math.cos(to.azimuth - from.azimuth));
  return {
    target: [mix(from.target[0], to.target[0]), mix(from.target[1], to.target[1]), mix(from.target[2], to.target[2])],
    azimuth: from.azimuth + around * share,
    elevation: mix(from.elevation, to.elevation),
    distance: Math.exp(mix(Math.log(from.distance), Math.log(to.distance))),
    parallel: to.parallel,
  };
}

/** Before anything is known of the car. */
export const FIRST_POSE: Pose = { target: [0, 0, 600], ...STANDARD.free, distance: 4500, parallel: false };

const finite = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);

/** A pose read back from where it was kept; null when it is none. */
export function readPose(value: unknown): Pose | null {
  if (typeof value !== 'object' || value === null) return null;
  const { target, azimuth, elevation, distance, parallel } = value as Record<string, unknown>;
  if (!Array.isArray(target) || target.length !== 3 || !finite(azimuth) || !finite(elevation)) return null;
  const [x, y, z]: readonly unknown[] = target;
  if (!finite(x) || !finite(y) || !finite(z) || !finite(distance) || typeof parallel !== 'boolean') return null;
  if (distance < NEAREST || distance > FARTHEST || Math.abs(elevation) > Math.PI / 2) return null;
  if (Math.max(Math.abs(x), Math.abs(y), Math.abs(z)) > FARTHEST) return null;
  return { target: [x, y, z], azimuth, elevation, distance, parallel };
}
