/** `foot.area`: the area of a foot's plate. */
import { figure } from '../../geometry/tell';
import type { Car } from '../car';
import { FOOT_GROUPS, footExample, footUses } from '../feet';
import { reading } from '../readings';
import type { Decision, Limit, Reading, Rule } from '../rule';

/** Of the plate on the shell, where the book means that one and it is written. */
function decide(limit: Limit, item: Reading, car: Car): Decision {
  const foot = car.cage.things.get(item.subject);
  const plate = limit.onShell === true && foot?.kind === 'foot' ? foot.counterPlate : null;
  const measured = plate === null ? item.measured : figure(plate.long * plate.wide, 'mm2');
  const { from, to } = limit.allowed;
  if (from !== null && measured.value < from - SLACK) return { kind: 'broken', measured, from, to, low: true };
  if (to !== null && measured.value > to + SLACK) return { kind: 'broken', measured, from, to, low: false };
  return { kind: 'met' };
}

const SLACK = 0.5;

export const footArea: Rule = {
  code: 'foot.area',
  unit: 'mm2',
  slack: SLACK,
  groups: FOOT_GROUPS,
  read: (car) =>
    footUses(car).flatMap(({ foot, group }) =>
      foot.plate === null
        ? []
        : [reading(foot.name, foot.plate.long * foot.plate.wide, 'mm2', { foot: foot.name }, { fact: 'plate', group })],
    ),
  decide,
  mend: (item, target) => ({
    says: item.measured.value < target ? 'make it larger' : 'make it smaller',
    params: {},
  }),
  explanation: {
    what: "A foot's plate is smaller, or larger, than the book allows.",
    why: 'A small plate goes through the shell; very large ones are a way to stiffen the shell that some books forbid.',
    measured:
      'Length times width of the flat plate; where a book means the plate that is fixed to the shell and a `counter-plate` is written, of that one. Plates that are folded over several planes are not known to the tool.',
    mend: 'Change the plate.',
    stage: 'hoop',
    bad: `rules fia-253\n${footExample('110 x 100 x 3')}`,
    good: `rules fia-253\n${footExample('120 x 100 x 3')}`,
  },
};
