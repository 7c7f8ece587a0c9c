/** `foot.bolt-size`: the diameter of a foot's bolts. */
import { BOLTS, FOOT_GROUPS, footExample, footUses } from '../feet';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const footBoltSize: Rule = {
  code: 'foot.bolt-size',
  unit: 'mm',
  // 3/8 in and 9.5 mm are the same bolt.
  slack: 0.03,
  groups: FOOT_GROUPS,
  read: (car) =>
    footUses(car).map(({ foot, group }) =>
      foot.bolts === null
        ? missing(foot.name, BOLTS, { group })
        : reading(foot.name, foot.bolts.diameter, 'mm', { foot: foot.name }, { fact: 'bolts', group }),
    ),
  mend: () => ({ says: 'use larger ones', params: {} }),
  explanation: {
    what: 'The bolts of a foot are smaller than the book wants.',
    why: 'A small bolt shears, or pulls through the shell.',
    measured: 'The diameter of the fact `bolts`: a metric thread by its name, or a diameter.',
    mend: 'Use larger bolts, of the grade that the book names.',
    stage: 'hoop',
    bad: `rules fia-253\n${footExample('140 x 100 x 3', '; bolts 3 x M6')}`,
    good: `rules fia-253\n${footExample('140 x 100 x 3')}`,
  },
};
