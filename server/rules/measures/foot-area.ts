/** `foot.area`: the area of a foot's plate. */
import { FOOT_GROUPS, footExample, footUses } from '../feet';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const footArea: Rule = {
  code: 'foot.area',
  unit: 'mm2',
  slack: 0.5,
  groups: FOOT_GROUPS,
  read: (car) =>
    footUses(car).flatMap(({ foot, group }) =>
      foot.plate === null
        ? []
        : [reading(foot.name, foot.plate.long * foot.plate.wide, 'mm2', { foot: foot.name }, { fact: 'plate', group })],
    ),
  mend: (item, target) => ({
    says: item.measured.value < target ? 'make it larger' : 'make it smaller',
    params: {},
  }),
  explanation: {
    what: "A foot's plate is smaller, or larger, than the book allows.",
    why: 'A small plate goes through the shell; very large ones are a way to stiffen the shell that some books forbid.',
    measured:
      'Length times width of the flat plate. Plates that are folded over several planes are not known to the tool.',
    mend: 'Change the plate.',
    stage: 'hoop',
    bad: `rules fia-253\n${footExample('110 x 100 x 3')}`,
    good: `rules fia-253\n${footExample('120 x 100 x 3')}`,
  },
};
