/** `strap.free-run`: the run between the seat's rear face and the bar, which must hold the strap's own hardware. */
import type { Rule } from './rule';
import { strapOf, strapReadings } from './strap-readings';

export const strapFreeRun: Rule = {
  code: 'strap.free-run',
  unit: 'mm',
  slack: 1e-6,
  read: (cage, shape) =>
    strapReadings(shape, 'mm', (figures) => figures.freeRun).map((reading) => ({
      ...reading,
      limit: { from: strapOf(cage, reading.subject)?.hardware ?? null, to: null },
    })),
  mend: (reading, target) => ({
    says: 'move the bar about {by} aft',
    params: { by: { value: target - reading.measured.value, unit: 'mm' } },
  }),
};
