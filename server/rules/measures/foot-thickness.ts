/** `foot.thickness`: the thickness of a foot's plate; some books tell bolted plates from welded ones. */
import { figure } from '../../geometry/tell';
import type { Car } from '../car';
import { BOLTS, FOOT_GROUPS, footExample, footUses } from '../feet';
import { reading } from '../readings';
import type { Decision, Limit, Reading, Rule } from '../rule';

/** Of the plate on the shell, where the book means that one and it is written. A limit for bolted plates holds where bolts are written; without them it may be meant or not. */
function decide(limit: Limit, item: Reading, car: Car): Decision {
  const { from, to } = limit.allowed;
  const foot = car.cage.things.get(item.subject);
  const plate = limit.onShell === true && foot?.kind === 'foot' ? foot.counterPlate : null;
  const value = plate?.thick ?? item.measured.value;
  const broken = (low: boolean): Decision => ({ kind: 'broken', measured: figure(value, 'mm'), from, to, low });
  if (to !== null && value > to + SLACK) return broken(false);
  if (from === null || value >= from - SLACK) return { kind: 'met' };
  if (limit.of?.length === 1 && limit.of[0] === 'bolted' && item.word === 'not told')
    return { kind: 'unknown', fact: BOLTS };
  return broken(true);
}

/** Sheet is named in sixteenths and in rounded millimetres. */
const SLACK = 0.03;

export const footThickness: Rule = {
  code: 'foot.thickness',
  unit: 'mm',
  slack: SLACK,
  groups: FOOT_GROUPS,
  read: (car) =>
    footUses(car).flatMap(({ foot, group }) => {
      if (foot.plate === null) return [];
      const item = (as: string, word: string): Reading =>
        reading(foot.name, foot.plate?.thick ?? 0, 'mm', { foot: foot.name }, { fact: 'plate', group: as, word });
      return [item(group, ''), item('bolted', foot.bolts === null ? 'not told' : 'bolted')];
    }),
  mend: (item, target) => ({
    says: item.measured.value < target ? 'use thicker plate' : 'use thinner plate',
    params: {},
  }),
  decide,
  explanation: {
    what: "A foot's plate is thinner, or thicker, than the book allows.",
    why: 'Thin plate folds round the tube instead of spreading its load.',
    measured:
      'The thickness as it is written; where a book means the plate that is fixed to the shell and a `counter-plate` is written, of that one.',
    mend: 'Change the plate.',
    stage: 'hoop',
    bad: `rules fia-253\n${footExample('140 x 100 x 2')}`,
    good: `rules fia-253\n${footExample('140 x 100 x 3')}`,
  },
};
