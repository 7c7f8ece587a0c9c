/** `strap.spread`: the run's plan-view angle from the seat's centreline, either way. */
import { degrees } from '../../grammar/units';
import { moveForSpread } from './along-bar';
import type { Rule } from './rule';
import { figuresOf, strapReadings } from './strap-readings';

export const strapSpread: Rule = {
  code: 'strap.spread',
  unit: 'deg',
  slack: 1e-6,
  read: (_cage, shape) =>
    strapReadings(
      shape,
      'deg',
      (figures) => (figures.spread === null ? null : Math.abs(degrees(figures.spread))),
      (figures) => ({ way: (figures.spread ?? 0) < 0 ? 'inward' : 'outward' }),
    ),
  mend: (reading, target, cage, shape) => {
    const figures = figuresOf(shape, reading.subject);
    return figures === null ? { says: '', params: {} } : moveForSpread(cage, figures, target);
  },
};
