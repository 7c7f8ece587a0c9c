/** `strap.spread`: the run's plan-view angle from the seat's centreline, either way. */
import { degrees } from '../../grammar/units';
import type { StrapFigures } from '../geometry/shape';
import { moveAlong } from './along-bar';
import type { Rule } from './rule';
import { strapReadings } from './strap-readings';

const spreadOf = (figures: StrapFigures): number | null =>
  figures.spread === null ? null : Math.abs(degrees(figures.spread));

export const strapSpread: Rule = {
  code: 'strap.spread',
  unit: 'deg',
  slack: 1e-6,
  read: (_cage, shape) =>
    strapReadings(shape, 'deg', spreadOf, (figures) => ({ way: (figures.spread ?? 0) < 0 ? 'inward' : 'outward' })),
  mend: (reading, target, cage, shape) => moveAlong(cage, shape, reading.subject, spreadOf, target),
};
