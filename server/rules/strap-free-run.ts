/** `strap.free-run`: the run between the seat's rear face and the bar, which must hold the strap's own hardware. */
import type { Rule } from './rule';
import { strapOf, strapReadings } from './strap-readings';
import { laid, solveBetween, tidy } from './what-if';

/** A bar that is moved farther than this is another car, mm. */
const FARTHEST = 600;

export const strapFreeRun: Rule = {
  code: 'strap.free-run',
  unit: 'mm',
  slack: 1e-6,
  read: (cage, shape) =>
    strapReadings(shape, 'mm', (figures) => figures.freeRun).map((reading) => ({
      ...reading,
      limit: { from: strapOf(cage, reading.subject)?.hardware ?? null, to: null },
    })),
  mend: (reading, target, cage, shape) => {
    const strap = laid(cage, shape, reading.subject);
    const aft = strap === null ? null : solveBetween((x) => strap.withBar([-x, 0, 0]).freeRun, 0, FARTHEST, target);
    return aft === null
      ? { says: 'move the bar aft', params: {} }
      : { says: 'move the bar aft by {aft}', params: { aft: { value: tidy(aft, 0, cage.units), unit: 'mm' } } };
  },
};
