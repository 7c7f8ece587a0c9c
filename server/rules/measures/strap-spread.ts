/** `strap.spread`: the run's plan-view angle from the seat's centreline, either way. */
import { degrees } from '../../../grammar/units';
import type { StrapFigures } from '../../geometry/shape';
import { moveAlong } from '../along-bar';
import type { Rule } from '../rule';
import { strapLine } from '../strap-example';
import { strapReadings } from '../strap-readings';

const spreadOf = (figures: StrapFigures): number | null =>
  figures.spread === null ? null : Math.abs(degrees(figures.spread));

export const strapSpread: Rule = {
  code: 'strap.spread',
  unit: 'deg',
  slack: 1e-6,
  read: strapReadings('deg', spreadOf, ({ spread }) => ({ params: { way: (spread ?? 0) < 0 ? 'inward' : 'outward' } })),
  mend: (reading, target, { cage, shape }) => moveAlong(cage, shape, reading.subject, spreadOf, target),
  explanation: {
    what: "A strap runs too far off the seat's centreline in plan view.",
    why: 'A strap that runs wide slips off the shoulder; one that runs in presses on the neck.',
    measured: "In plan view, between the run and the seat's own centreline; positive away from the seat's middle.",
    mend: 'Move the strap along the bar with `at y = …`, toward straight behind its slot.',
    stage: 'harness',
    bad: strapLine('slot inner; to bar; at y = 90; width 75; hardware 110; collars 20 gap 1.5'),
    good: strapLine('slot inner; to bar; at y = 150; width 75; hardware 110; collars 20 gap 1.5'),
  },
};
