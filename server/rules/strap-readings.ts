/** What the rules about straps share: one reading for each strap that has the figure. */
import type { MeasureUnit, Params } from '../../grammar/finding';
import type { Cage, Strap } from '../cage/cage';
import type { Shape, StrapFigures } from '../geometry/shape';
import type { Reading } from './rule';

/** The strap as it is written; null where the name means something else. */
export const strapOf = (cage: Cage, name: string): Strap | null => {
  const thing = cage.things.get(name);
  return thing?.kind === 'strap' ? thing : null;
};

/** One reading for each strap for which `value` (in the JSON's units) is known. */
export function strapReadings(
  shape: Shape,
  unit: MeasureUnit,
  value: (figures: StrapFigures) => number | null,
  more: (figures: StrapFigures) => Params = () => ({}),
): readonly Reading[] {
  const readings: Reading[] = [];
  for (const figures of shape.straps) {
    const known = value(figures);
    if (known === null || !Number.isFinite(known)) continue;
    readings.push({
      subject: figures.name,
      at: { kind: 'thing', thing: figures.name },
      measured: { value: known, unit },
      params: { strap: figures.name, tube: figures.tube ?? '', ...more(figures) },
      notes: [],
      fixes: [],
      group: null,
      limit: null,
      figures,
    });
  }
  return readings;
}
