/** `hoop.total-angle`: the bends of the main hoop together. */
import { degrees } from '../../../grammar/units';
import { FOUR_BENDS, TWO_BENDS } from '../hoop-examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const hoopTotalAngle: Rule = {
  code: 'hoop.total-angle',
  unit: 'deg',
  slack: 1e-6,
  read: (car) =>
    car
      .mainHoops()
      .map(({ name, figures }) => reading(name, degrees(figures.turned), 'deg', { tube: name }, { fact: 'path' })),
  mend: () => ({ says: 'let its legs run more nearly straight up', params: {} }),
  explanation: {
    what: 'The bends of the main hoop turn more, or less, together than the book allows.',
    why: 'A hoop that turns more than half a circle bulges; each degree more is a place where it gives.',
    measured: 'The sum of the angles of all bends, each counted as positive.',
    mend: 'Move the corners so that the legs lean less.',
    stage: 'parts',
    bad: `rules nasa-ccr\n${FOUR_BENDS('(0, 680, 500)')}`,
    good: `rules fia-253\n${TWO_BENDS()}`,
  },
};
