/** `strap.skew`: the angle between the run and the plane across the bar where the webbing lies. */
import { degrees } from '../../grammar/units';
import { moveForSkew } from './along-bar';
import type { Rule } from './rule';
import { figuresOf, strapReadings } from './strap-readings';

export const strapSkew: Rule = {
  code: 'strap.skew',
  unit: 'deg',
  slack: 1e-6,
  read: (_cage, shape) =>
    strapReadings(shape, 'deg', (figures) => (figures.skew === null ? null : Math.abs(degrees(figures.skew)))),
  mend: (reading, target, cage, shape) => {
    const figures = figuresOf(shape, reading.subject);
    return figures === null ? { says: '', params: {} } : moveForSkew(cage, figures, target);
  },
};
