/** What is written of straps that are wrapped on a bar: slide, free end, adjuster. */
import type { MeasureUnit } from '../../grammar/finding';
import type { Strap } from '../cage/cage';
import type { StrapFigures } from '../geometry/shape';
import type { Car } from './car';
import { missing, reading } from './readings';
import type { Item } from './rule';
import { shouldered } from './shoulders';
import { strapOf } from './strap-readings';

/** One item for each wrapped strap: the figure, or the fact that is missing. Groups tell straps of a yoke apart. */
export function strapFact(
  car: Car,
  fact: keyof Strap & string,
  says: string,
  value: (strap: Strap, figures: StrapFigures) => number | null,
  unit: MeasureUnit = 'mm',
): readonly Item[] {
  return shouldered(car).flatMap(({ figures, seat }): readonly Item[] => {
    const strap = strapOf(car.cage, figures.name);
    if (strap === null || strap.fixing !== 'wrap') return [];
    const group = seat.yoke === null ? 'without yoke' : 'with yoke';
    if (strap[fact] === null) return [missing(figures.name, says, { group })];
    const figure = value(strap, figures);
    if (figure === null) return [];
    const params = { strap: figures.name, tube: figures.tube ?? '' };
    return [reading(figures.name, figure, unit, params, { fact, group })];
  });
}
