/** `strap.locked`: whether a strap is led back through its slide once more. */
import { belts } from '../examples';
import { strapFact } from '../strap-facts';
import type { Rule } from '../rule';

export const strapLocked: Rule = {
  code: 'strap.locked',
  unit: '1',
  slack: 0,
  read: (car) =>
    strapFact(
      car,
      'locked',
      'whether a strap is led back through the slide once more is not written: locked yes',
      ({ locked }) => (locked === null ? null : locked ? 1 : 0),
      { unit: '1' },
    ),
  mend: () => ({ says: 'lead it back through once more', ask: ', {book} wants it to be', params: {} }),
  explanation: {
    what: 'A strap is not led back through its slide once more.',
    why: 'Without the last pass the webbing creeps out of the slide, a little with each drive.',
    measured: 'The fact `locked` of a wrapped strap.',
    mend: 'Lead it back through the slide, and write `locked yes`.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(240, 300, 740)', 'locked no; ')}`,
    good: `rules harness-makers\n${belts('(240, 300, 740)', 'locked yes; ')}`,
  },
};
