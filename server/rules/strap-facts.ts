/** What is written of straps that are wrapped on a bar: slide, free end, adjuster. */
import type { MeasureUnit } from '../../grammar/finding';
import type { Strap } from '../cage/cage';
import type { StrapFigures } from '../geometry/shape';
import type { Car } from './car';
import { missing, missingOfCar, reading } from './readings';
import type { Item } from './rule';
import { shouldered } from './shoulders';
import { strapOf } from './strap-readings';

type Fact = 'slider' | 'locked' | 'tail' | 'adjuster';

export const YOKE_GROUPS = ['with yoke', 'without yoke'] as const;

/** One item for each wrapped strap: the figure, or the fact that is missing; told apart by the yoke where `yokes` is true. */
export function strapFact(
  car: Car,
  fact: Fact,
  says: string,
  value: (strap: Strap, figures: StrapFigures) => number | null,
  { unit = 'mm', yokes = false }: { readonly unit?: MeasureUnit; readonly yokes?: boolean } = {},
): readonly Item[] {
  const wrapped = shouldered(car).flatMap(({ figures, seat }) => {
    const strap = strapOf(car.cage, figures.name);
    if (strap === null || strap.fixing !== 'wrap') return [];
    const group: { readonly group?: string } = yokes ? { group: YOKE_GROUPS[seat.yoke === null ? 1 : 0] } : {};
    return [{ strap, figures, group }];
  });
  // Where none of them tells it, it is asked for once for the whole car.
  if (wrapped.every(({ strap }) => strap[fact] === null))
    return wrapped.slice(0, 1).flatMap(({ group }) => missingOfCar(car, says, group));
  return wrapped.flatMap(({ strap, figures, group }): readonly Item[] => {
    if (strap[fact] === null) return [missing(figures.name, says, group)];
    const figure = value(strap, figures);
    if (figure === null) return [];
    const params = { strap: figures.name, tube: figures.tube ?? '' };
    return [reading(figures.name, figure, unit, params, { fact, ...group })];
  });
}
