/** What the rules about straps share: one reading for each strap that has the figure. */
import type { MeasureUnit, Params } from '../../grammar/finding';
import type { Cage, Strap } from '../cage/cage';
import type { StrapFigures } from '../geometry/shape';
import type { Car } from './car';
import { each } from './each';
import { reading } from './readings';
import type { Read, Reading } from './rule';

/** The strap as it is written; null where the name means something else. */
export const strapOf = (cage: Cage, name: string): Strap | null => {
  const thing = cage.things.get(name);
  return thing?.kind === 'strap' ? thing : null;
};

/** One reading for each strap for which `value` (in the JSON's units) is known; nothing else of the car is looked at. */
export const strapReadings = (
  unit: MeasureUnit,
  value: (figures: StrapFigures) => number | null,
  more: (
    figures: StrapFigures,
    car: Car,
  ) => { readonly params?: Params; readonly limit?: Reading['limit'] } = () => ({}),
): Read =>
  each(
    ({ shape }) => shape.straps,
    (figures, car) => {
      const known = value(figures);
      if (known === null || !Number.isFinite(known)) return [];
      const { params = {}, limit = null } = more(figures, car);
      return [
        reading(figures.name, known, unit, { strap: figures.name, tube: figures.tube ?? '', ...params }, { limit }),
      ];
    },
  );
