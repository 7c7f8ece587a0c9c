/** Where a strap would have to lie on its bar: solved on the strap model between its place and straight behind its slot. */
import type { Measure } from '../../grammar/finding';
import type { Cage, Strap } from '../cage/cage';
import type { Shape, StrapFigures } from '../geometry/shape';
import type { Mend } from './rule';
import { laid, solveBetween, tidy } from './what-if';

const AXES = ['x', 'y', 'z'] as const;

const STRAIGHTER: Mend = { says: 'lead it straighter back from its slot', params: {} };

/**
 * The place on the bar at which `figure` (in the JSON's units) comes down to `target`, as a person would write it:
 * `at y = …`. Where no place between here and straight behind the slot does, the other words stand alone.
 */
export function moveAlong(
  cage: Cage,
  shape: Shape,
  name: string,
  figure: (figures: StrapFigures) => number | null,
  target: number,
  otherwise: Mend = STRAIGHTER,
): Mend {
  const strap = laid(cage, shape, name);
  const point = strap?.figures.barPoint ?? null;
  if (strap === null || point === null) return otherwise;
  const axis: (typeof AXES)[number] = strap.strap.at?.axis ?? 'y';
  const index = AXES.indexOf(axis);
  const behind = strap.at(null).barPoint;
  if (behind === null) return otherwise;
  const placed = (value: number): Strap['at'] => ({ axis, value: value as NonNullable<Strap['at']>['value'] });
  const value = solveBetween((x) => figure(strap.at(placed(x))), point[index] ?? 0, behind[index] ?? 0, target);
  if (value === null) return otherwise;
  const to: Measure = { value: tidy(value, point[index] ?? 0, cage.units), unit: 'mm' };
  return { says: 'move it along {tube} to {axis} = {to#}', params: { axis, to, tube: strap.figures.tube ?? '' } };
}
