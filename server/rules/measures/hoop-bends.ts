/** `hoop.bends`: the number of bends in the main hoop. */
import { FOUR_BENDS, SIX_BENDS } from '../hoop-examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const hoopBends: Rule = {
  code: 'hoop.bends',
  unit: '1',
  slack: 0,
  read: (car) => car.mainHoops().map(({ name, bends }) => reading(name, bends, '1', { tube: name }, { fact: 'path' })),
  mend: () => ({ says: 'take corners out of its path', params: {} }),
  explanation: {
    what: 'The main hoop has more bends than the book allows.',
    why: 'Every bend is a place where the hoop can fold.',
    measured: 'The bends in the path, whatever their angle.',
    mend: 'Bring the hoop to the shell with fewer corners.',
    stage: 'parts',
    bad: `rules nasa-ccr\n${SIX_BENDS}`,
    good: `rules fia-253\n${FOUR_BENDS()}`,
  },
};
