/** Where a hand drags a node to: pure arithmetic. Millimetres in the car's frame. */
import { type Ray, Vector3 } from 'three';
import type { Point3, ViewNode } from '../../server/view/model';

export type Axis = 'x' | 'y' | 'z';
export const AXES: readonly Axis[] = ['x', 'y', 'z'];
const NAMES: Readonly<Record<Axis, string>> = { x: 'x forward', y: 'y left', z: 'z up' };

/** A direction in which the text lets a node move. */
export interface Way {
  readonly axis: Axis | 'along';
  /** Unit vector. */
  readonly unit: Vector3;
  readonly words: string;
}

/** A unit vector of the car's frame. */
export const unitOf = (axis: Axis): Vector3 => {
  const unit = new Vector3();
  unit.setComponent(AXES.indexOf(axis), 1);
  return unit;
};

/** All ways that a node can be dragged; none where it hangs on something altogether. */
export function waysOf({ axes, along }: Pick<ViewNode, 'axes' | 'along'>): readonly Way[] {
  const ways: Way[] = axes.map((axis) => ({ axis, unit: unitOf(axis), words: NAMES[axis] }));
  const slide = along === null ? null : new Vector3(...along);
  if (slide && slide.length() > 1e-6) ways.push({ axis: 'along', unit: slide.normalize(), words: 'along its line' });
  return ways;
}

/** What a dragged figure is rounded to, mm: whole millimetres, or sixteenths of an inch; ten times as much when coarse. */
export const stepOf = (units: 'mm' | 'in', coarse: boolean): number =>
  (units === 'mm' ? 1 : 25.4 / 16) * (coarse ? 10 : 1);

/** A place, moved along a way by so much. */
export const movedBy = (at: Point3, way: Way, by: number): Point3 => {
  const place = new Vector3(...at).addScaledVector(way.unit, by);
  return [place.x, place.y, place.z];
};

/** The figure of a place along a way, and the place where it is another. */
export const figureOf = (at: Point3, way: Way): number => new Vector3(...at).dot(way.unit);

/** A whole number of steps from zero along an axis of the car; from where it stands along a line. */
function settled(start: Point3, way: Way, by: number, step: number): number {
  if (way.axis === 'along') return Math.round(by / step) * step;
  const from = figureOf(start, way);
  return Math.round((from + by) / step) * step - from;
}

/**
 * The ways that a free drag goes: of three the two that lie flattest in the picture.
 * @param toward from the car to the viewer
 */
export function flattest(ways: readonly Way[], toward: Vector3): readonly Way[] {
  if (ways.length < 3) return ways;
  return [...ways].sort((a, b) => Math.abs(a.unit.dot(toward)) - Math.abs(b.unit.dot(toward))).slice(0, 2);
}

/** How far along a line through a place the ray passes nearest; null: they run side by side. */
function alongLine(ray: Ray, at: Vector3, unit: Vector3): number | null {
  const across = ray.direction.dot(unit);
  const bottom = 1 - across * across;
  if (bottom < 1e-4) return null;
  const between = at.clone().sub(ray.origin);
  return (across * between.dot(ray.direction) - between.dot(unit)) / bottom;
}

/** Where a ray meets the plane of two ways through a place; null: it runs along it. */
function inPlane(ray: Ray, at: Vector3, normal: Vector3): Vector3 | null {
  const slope = ray.direction.dot(normal);
  if (Math.abs(slope) < 0.02) return null;
  const far = at.clone().sub(ray.origin).dot(normal) / slope;
  return ray.origin.clone().addScaledVector(ray.direction, far);
}

/**
 * Where the node goes when the hand's ray went from one to another.
 * @param start where it stood; `ways` one or two that it may go; `step` mm to round to
 * @returns null where the picture is looked at along the way it could go
 */
export function draggedTo(start: Point3, ways: readonly Way[], from: Ray, to: Ray, step: number): Point3 | null {
  const at = new Vector3(...start);
  const [first, second] = ways;
  if (!first) return null;
  if (second) {
    const normal = first.unit.clone().cross(second.unit).normalize();
    const [began, ends] = [inPlane(from, at, normal), inPlane(to, at, normal)];
    if (began && ends) {
      const by = ends.sub(began);
      return ways.reduce<Point3>(
        (place, way) => movedBy(place, way, settled(start, way, by.dot(way.unit), step)),
        start,
      );
    }
    // Edge on, the plane is a line: what is left of it can still be followed.
  }
  const [began, ends] = [alongLine(from, at, first.unit), alongLine(to, at, first.unit)];
  if (began === null || ends === null) return null;
  return movedBy(start, first, settled(start, first, ends - began, step));
}

/** A place one step on along a way. */
export function stepped(at: Point3, way: Way, sign: 1 | -1, step: number): Point3 {
  return movedBy(at, way, settled(at, way, sign * step, step));
}

/** The way that runs most nearly along a direction, and in which sense; null: none does. */
export function nearestWay(ways: readonly Way[], direction: Vector3): { way: Way; sign: 1 | -1 } | null {
  const best = [...ways].sort((a, b) => Math.abs(b.unit.dot(direction)) - Math.abs(a.unit.dot(direction)))[0];
  if (!best) return null;
  const part = best.unit.dot(direction);
  return Math.abs(part) < 0.25 ? null : { way: best, sign: part > 0 ? 1 : -1 };
}
