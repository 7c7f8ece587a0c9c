/** `strap.skew`: the angle between the run and the plane across the bar where the webbing lies. */
import { degrees } from '../../grammar/units';
import type { StrapFigures } from '../geometry/shape';
import { moveAlong } from './along-bar';
import type { Rule } from './rule';
import { strapReadings } from './strap-readings';

const skewOf = (figures: StrapFigures): number | null =>
  figures.skew === null ? null : Math.abs(degrees(figures.skew));

export const strapSkew: Rule = {
  code: 'strap.skew',
  unit: 'deg',
  slack: 1e-6,
  read: (_cage, shape) => strapReadings(shape, 'deg', skewOf),
  mend: (reading, target, cage, shape) =>
    moveAlong(cage, shape, reading.subject, skewOf, target, {
      says: 'let the bar run across the strap there',
      params: {},
    }),
};
