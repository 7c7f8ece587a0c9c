/** Where a hand drags a node to: pure arithmetic. Millimetres in the car's frame. */
import { type Ray, Vector3 } from 'three';
import type { Point3 } from '../../server/view/model';

export type Axis = 'x' | 'y' | 'z';
export const AXES: readonly Axis[] = ['x', 'y', 'z'];
const INDEX: Readonly<Record<Axis, 0 | 1 | 2>> = { x: 0, y: 1, z: 2 };

export const unitOf = (axis: Axis): Vector3 => {
  const unit = new Vector3();
  unit.setComponent(INDEX[axis], 1);
  return unit;
};

export const along = (at: Point3, axis: Axis): number => at[INDEX[axis]];

/** A place with one coordinate another. */
export const withAxis = (at: Point3, axis: Axis, value: number): Point3 => {
  const place: [number, number, number] = [...at];
  place[INDEX[axis]] = value;
  return place;
};

/** What a dragged figure is rounded to, mm: whole millimetres, or sixteenths of an inch; ten times as much when coarse. */
export const stepOf = (units: 'mm' | 'in', coarse: boolean): number =>
  (units === 'mm' ? 1 : 25.4 / 16) * (coarse ? 10 : 1);

const rounded = (value: number, step: number) => Math.round(value / step) * step;

/**
 * The axes that a free drag moves: of those that the text lets move, the two that lie flattest in the picture. One axis
 * only is that one.
 * @param toward from the car to the viewer
 */
export function planeAxes(axes: readonly Axis[], toward: Vector3): readonly Axis[] {
  if (axes.length < 3) return axes;
  const facing = [...axes].sort(
    (a, b) => Math.abs(toward.getComponent(INDEX[b])) - Math.abs(toward.getComponent(INDEX[a])),
  )[0];
  return axes.filter((axis) => axis !== facing);
}

/** How far along a line through a place the ray passes nearest; null: they run side by side. */
function alongLine(ray: Ray, at: Vector3, direction: Vector3): number | null {
  const across = ray.direction.dot(direction);
  const bottom = 1 - across * across;
  if (bottom < 1e-4) return null;
  const between = at.clone().sub(ray.origin);
  return (across * between.dot(ray.direction) - between.dot(direction)) / bottom;
}

/**
 * Where the node goes when the hand's ray went from one to another.
 * @param start where it stood; `axes` which coordinates may change, one or two; `step` mm to round to
 * @returns null where the picture is looked at along the way it could go
 */
export function draggedTo(start: Point3, axes: readonly Axis[], from: Ray, to: Ray, step: number): Point3 | null {
  const at = new Vector3(...start);
  const [first, second] = axes;
  if (first === undefined) return null;
  if (second === undefined) {
    const [began, ends] = [alongLine(from, at, unitOf(first)), alongLine(to, at, unitOf(first))];
    if (began === null || ends === null) return null;
    return withAxis(start, first, rounded(along(start, first) + ends - began, step));
  }
  const normal = unitOf(AXES.find((axis) => axis !== first && axis !== second) ?? 'z');
  const meet = (ray: Ray): Vector3 | null => {
    const slope = ray.direction.dot(normal);
    if (Math.abs(slope) < 0.02) return null;
    const far = at.clone().sub(ray.origin).dot(normal) / slope;
    return ray.origin.clone().addScaledVector(ray.direction, far);
  };
  const [began, ends] = [meet(from), meet(to)];
  if (!began || !ends) {
    // Edge on, the plane is a line: what is left of it can still be followed.
    return draggedTo(start, [first], from, to, step);
  }
  return axes.reduce<Point3>(
    (place, axis) =>
      withAxis(
        place,
        axis,
        rounded(along(start, axis) + ends.getComponent(INDEX[axis]) - began.getComponent(INDEX[axis]), step),
      ),
    start,
  );
}

/** The axis, of those that may move, that runs most nearly along a direction, and which way; null: none does. */
export function nearestAxis(axes: readonly Axis[], direction: Vector3): { axis: Axis; sign: 1 | -1 } | null {
  const best = [...axes].sort(
    (a, b) => Math.abs(direction.getComponent(INDEX[b])) - Math.abs(direction.getComponent(INDEX[a])),
  )[0];
  if (best === undefined) return null;
  const part = direction.getComponent(INDEX[best]);
  return Math.abs(part) < 0.3 ? null : { axis: best, sign: part > 0 ? 1 : -1 };
}
