/** `foot.bolts`: the number of bolts of a foot. */
import { BOLTS, FOOT_GROUPS, footExample, footUses } from '../feet';
import { fittingOnFoot } from '../fittings';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const footBolts: Rule = {
  code: 'foot.bolts',
  unit: '1',
  slack: 0,
  groups: FOOT_GROUPS,
  read: (car) =>
    // A backstay on one bolt in double shear is asked for its bush instead.
    footUses(car)
      .filter(({ foot, group }) => group !== 'backstay foot' || fittingOnFoot(car, foot.name)?.shear !== 'double')
      .map(({ foot, group }) =>
        foot.bolts === null
          ? missing(foot.name, BOLTS, { group })
          : reading(foot.name, foot.bolts.count, '1', { foot: foot.name }, { fact: 'bolts', group }),
      ),
  mend: () => ({ says: 'add bolts', params: {} }),
  explanation: {
    what: 'A foot has fewer bolts than the book wants.',
    why: 'With two bolts a plate turns about the line between them.',
    measured:
      'The count of the fact `bolts`. A plate without bolts is welded, or they are not written: the tool does not guess.',
    mend: 'Add bolts, and write them.',
    stage: 'hoop',
    bad: `rules fia-253\n${footExample('140 x 100 x 3', '; bolts 2 x M8')}`,
    good: `rules fia-253\n${footExample('140 x 100 x 3')}`,
  },
};
