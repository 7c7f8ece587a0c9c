/** `strap.drop`: the run's angle below horizontal in side view, from where the webbing leaves the seat. */
import { degrees } from '../../grammar/units';
import type { Rule } from './rule';
import { strapReadings } from './strap-readings';

export const strapDrop: Rule = {
  code: 'strap.drop',
  unit: 'deg',
  slack: 1e-6,
  read: (_cage, shape) =>
    strapReadings(shape, 'deg', (figures) => (figures.drop === null ? null : degrees(figures.drop))),
  mend: (reading, target) => ({
    says: reading.measured.value > target ? 'raise the bar' : 'lower the bar',
    params: {},
  }),
};
