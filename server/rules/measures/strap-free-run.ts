/** `strap.free-run`: the run between the seat's rear face and the bar, which must hold the strap's own hardware. */
import type { Rule } from '../rule';
import { GOOD, strapLine } from '../strap-example';
import { strapOf, strapReadings } from '../strap-readings';
import { laid, solveBetween, tidy } from '../what-if';

/** A bar that is moved farther than this is another car, mm. */
const FARTHEST = 600;

export const strapFreeRun: Rule = {
  code: 'strap.free-run',
  unit: 'mm',
  slack: 1e-6,
  read: strapReadings(
    'mm',
    (figures) => figures.freeRun,
    ({ name }, { cage }) => ({ limit: { from: strapOf(cage, name)?.hardware ?? null, to: null } }),
  ),
  mend: (reading, target, { cage, shape }) => {
    const strap = laid(cage, shape, reading.subject);
    const aft = strap === null ? null : solveBetween((x) => strap.withBar([-x, 0, 0]).freeRun, 0, FARTHEST, target);
    return aft === null
      ? { says: 'move the bar aft', params: {} }
      : { says: 'move the bar aft by {aft}', params: { aft: { value: tidy(aft, 0, cage.units), unit: 'mm' } } };
  },
  explanation: {
    what: 'There is too little straight run between the seat and the bar for the adjuster and the slider.',
    why: 'An adjuster that touches the bar or the shell bends, jams, or cannot be pulled tight.',
    measured:
      "Along the run, from the rear face of the shell to the vertical plane that touches the bar's front, or to the contact if that comes sooner.",
    mend: 'Move the bar aft, or the seat forward; or use shorter hardware.',
    stage: 'harness',
    bad: strapLine('slot outer; to bar; width 75; hardware 200; collars 20 gap 1.5'),
    good: GOOD,
  },
};
