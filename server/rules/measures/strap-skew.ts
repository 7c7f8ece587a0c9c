/** `strap.skew`: the angle between the run and the plane across the bar where the webbing lies. */
import { degrees } from '../../../grammar/units';
import type { StrapFigures } from '../../geometry/shape';
import { moveAlong } from '../along-bar';
import type { Rule } from '../rule';
import { strapLine } from '../strap-example';
import { strapReadings } from '../strap-readings';

const skewOf = (figures: StrapFigures): number | null =>
  figures.skew === null ? null : Math.abs(degrees(figures.skew));

export const strapSkew: Rule = {
  code: 'strap.skew',
  unit: 'deg',
  slack: 1e-6,
  read: strapReadings('deg', skewOf),
  mend: (reading, target, { cage, shape }) =>
    moveAlong(cage, shape, reading.subject, skewOf, target, {
      says: 'let the bar run across the strap there',
      params: {},
    }),
  explanation: {
    what: 'A strap does not meet the bar square.',
    why: 'Webbing walks along the bar until it bunches up at the collar, and then its edge carries the load.',
    measured: 'Between the run and the plane across the bar where the strap lies.',
    mend: 'Move the strap along the bar, or turn the bar there so that it runs across the strap.',
    stage: 'harness',
    bad: strapLine('slot inner; to bar; at y = 90; width 75; hardware 110; collars 20 gap 1.5'),
    good: strapLine('slot inner; to bar; at y = 150; width 75; hardware 110; collars 20 gap 1.5'),
  },
};
