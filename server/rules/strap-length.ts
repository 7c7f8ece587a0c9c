/** `strap.length`: from where the run starts at the slot to where it touches the bar. */
import type { Rule } from './rule';
import { strapReadings } from './strap-readings';

export const strapLength: Rule = {
  code: 'strap.length',
  unit: 'mm',
  slack: 1e-6,
  read: (_cage, shape) => strapReadings(shape, 'mm', (figures) => figures.length),
  mend: () => ({ says: 'move the bar nearer if it fits', params: {} }),
};
