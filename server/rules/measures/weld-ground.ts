/** `weld.ground`: whether welds are ground. */
import { missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';

export const weldGround: Rule = {
  code: 'weld.ground',
  unit: '1',
  slack: 0,
  read: (car): readonly Item[] => {
    const chief = car.chief();
    if (chief === null) return [];
    const ground = car.cage.welding?.ground ?? null;
    if (ground === null) return missingOfCar(car, 'whether the welds are ground is not written: welding { ground no }');
    return [reading(chief.name, ground ? 1 : 0, '1', {})];
  },
  mend: () => ({ says: 'leave them as they were welded', ask: ', {book} allows no grinding', params: {} }),
  explanation: {
    what: 'Welds of the cage are ground.',
    why: 'Grinding takes away throat, and hides what an inspector wants to see.',
    measured: 'The fact `ground` of `welding`.',
    mend: 'Leave the welds as they are.',
    stage: 'hoop',
    bad: 'rules nhra\nwelding { process tig; ground yes }',
    good: 'rules nhra\nwelding { process tig; ground no }',
  },
};
