/** `strap.length`: from where the run starts at the slot to where it touches the bar. */
import { figure } from '../../geometry/tell';
import type { Rule } from '../rule';
import { strapReadings } from '../strap-readings';

/** Polyester webbing gives by 3 to 5 percent of its free length under load (a dealer in harnesses). */
const STRETCH = [0.03, 0.05] as const;

export const strapLength: Rule = {
  code: 'strap.length',
  unit: 'mm',
  slack: 1e-6,
  read: strapReadings(
    'mm',
    (figures) => figures.length,
    ({ length }) => ({
      params: { least: figure(STRETCH[0] * (length ?? 0), 'mm'), most: figure(STRETCH[1] * (length ?? 0), 'mm') },
    }),
  ),
  mend: () => ({ says: 'move the bar nearer if it fits', params: {} }),
  explanation: {
    what: 'A strap is long between the slot and the bar.',
    why: 'Webbing stretches in proportion to its length: the driver moves farther before it holds.',
    measured:
      "From the slot's edge to where the webbing touches the bar. Polyester webbing gives by 3 to 5 percent of it under load; what lies in front of the seat comes on top.",
    mend: 'Move the bar nearer to the seat, as far as the hardware allows.',
    stage: 'harness',
    bad: 'seat far { slots (400, -300, 760); recline 10 deg; slot-spacing 220; back 45 }\nstrap long { seat far; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
    good: 'seat near { slots (240, -300, 740); recline 10 deg; slot-spacing 220; back 45 }\nstrap short { seat near; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
  },
};
