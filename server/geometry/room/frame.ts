/** A bar's own axes, and where it is while it is moved. Millimetres, radians. */
import type { Vec3 } from '../../centreline/vector';
import { add, addScaled, cross, dot, scale, sub, unit } from '../../centreline/vector';

/** Origin in the middle between the bar's ends, z from END 1 to END 2. */
export interface Frame {
  readonly origin: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

export function frameOf(first: Vec3, last: Vec3): Frame {
  const z = unit(sub(last, first));
  const x = unit(cross(Math.abs(z[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0], z));
  return { origin: scale(add(first, last), 0.5), x, y: cross(z, x), z };
}

export const directionIn = ({ x, y, z }: Frame, v: Vec3): Vec3 => [dot(v, x), dot(v, y), dot(v, z)];
export const pointIn = (frame: Frame, p: Vec3): Vec3 => directionIn(frame, sub(p, frame.origin));
/** Back into the car's directions. */
export const directionOf = ({ x, y, z }: Frame, v: Vec3): Vec3 =>
  addScaled(addScaled(scale(x, v[0]), y, v[1]), z, v[2]);

/** Right-handed about the unit vector `axis`. */
export const turned = (v: Vec3, axis: Vec3, angle: number): Vec3 => turnedBy(turnOf(axis, angle), v);

/** The bar turned about an axis through `pivot`, then moved: in its own axes as they lie in place. */
export interface Pose {
  readonly axis: Vec3;
  readonly angle: number;
  readonly pivot: Vec3;
  readonly move: Vec3;
}

export const IN_PLACE: Pose = { axis: [1, 0, 0], angle: 0, pivot: [0, 0, 0], move: [0, 0, 0] };

export const moved = (pose: Pose, by: Vec3): Pose => ({ ...pose, move: add(pose.move, by) });

/** A turn as the rows of its matrix: for many points at once. */
export type Turn = readonly [Vec3, Vec3, Vec3];

/** Rodrigues' formula, written out. */
export function turnOf(axis: Vec3, angle: number): Turn {
  const x = axis[0];
  const y = axis[1];
  const z = axis[2];
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const d = 1 - c;
  return [
    [c + x * x * d, x * y * d - z * s, x * z * d + y * s],
    [y * x * d + z * s, c + y * y * d, y * z * d - x * s],
    [z * x * d - y * s, z * y * d + x * s, c + z * z * d],
  ];
}

export function turnedBy(turn: Turn, v: Vec3): Vec3 {
  const a = turn[0];
  const b = turn[1];
  const c = turn[2];
  return [
    a[0] * v[0] + a[1] * v[1] + a[2] * v[2],
    b[0] * v[0] + b[1] * v[1] + b[2] * v[2],
    c[0] * v[0] + c[1] * v[1] + c[2] * v[2],
  ];
}

/** Where a point of the bar comes to, its turn given. */
export function posedBy(turn: Turn, { pivot, move }: Pose, p: Vec3): Vec3 {
  const x = p[0] - pivot[0];
  const y = p[1] - pivot[1];
  const z = p[2] - pivot[2];
  const a = turn[0];
  const b = turn[1];
  const c = turn[2];
  return [
    a[0] * x + a[1] * y + a[2] * z + pivot[0] + move[0],
    b[0] * x + b[1] * y + b[2] * z + pivot[1] + move[1],
    c[0] * x + c[1] * y + c[2] * z + pivot[2] + move[2],
  ];
}

/** Where a point of the bar comes to. */
export const posed = (pose: Pose, p: Vec3): Vec3 => posedBy(turnOf(pose.axis, pose.angle), pose, p);

/** Where a point of the car lies, seen from the bar; `back`: the turn about the same axis the other way. */
export const seenBy = (back: Turn, { pivot, move }: Pose, p: Vec3): Vec3 =>
  add(pivot, turnedBy(back, sub(sub(p, pivot), move)));

/** A way, or a part of one: out of the place, by `s` mm that the farthest point moves, up to `length`. */
export interface Path {
  readonly length: number;
  pose(s: number): Pose;
}

export const shifting = (from: Pose, direction: Vec3, length: number): Path => ({
  length,
  pose: (s) => moved(from, scale(direction, s)),
});

/** About an axis through a pivot; `reach`: how far the farthest point is from it. */
export const turning = (axis: Vec3, pivot: Vec3, reach: number, most: number): Path => ({
  length: most * reach,
  pose: (s) => ({ axis, angle: s / reach, pivot, move: [0, 0, 0] }),
});
