/** `galvanized.weld`: from the edge of a hole to the open air to the weld beside it. */
import { figure } from '../../geometry/tell';
import { airHoles } from '../holes';
import { isGalvanized } from '../galvanized';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

const dipped = (from: string): string =>
  `node high = on hoop nearest (0, 0, 1000)\nnode low = (-500, 0, 1000)\ntube strut as brace { section t38; path high, low; last open; finish galvanized }\nvent strut -> air { at high; from ${from}; clock 180 deg; dia 10 }`;

export const galvanizedWeld: Rule = {
  code: 'galvanized.weld',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    airHoles(car).flatMap(({ hole, member, cut, dia, from }): readonly Reading[] =>
      cut === null || !isGalvanized(car, member.tube)
        ? []
        : [reading(hole, from - cut - dia / 2, 'mm', { tube: member.name }, { fact: 'from' })],
    ),
  mend: (item, target) => ({
    says: 'drill it {by~} nearer to the weld',
    params: { by: figure(item.measured.value - target, 'mm') },
  }),
  explanation: {
    what: 'The vent of a tube that is to be galvanized is far from the weld.',
    why: 'In the corner behind it air stays shut in: no zinc gets there, and the flux that stays burns through.',
    measured:
      "Along the tube from the cut at the hole's own clock to the edge of the hole: at most 12 mm (1/2 in). Of vents to the air whose end is welded to a tube or a plate.",
    mend: 'Drill it beside the weld, where it can be seen.',
    stage: 'hoop',
    bad: dipped('80'),
    good: dipped('31'),
  },
};
