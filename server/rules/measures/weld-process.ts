/** `weld.process`: by which process the cage is welded. */
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

const WORDS = { tig: 'tig', mig: 'mig', mma: 'stick electrode', gas: 'gas flame' } as const;

export const weldProcess: Rule = {
  code: 'weld.process',
  unit: '1',
  slack: 0,
  read: (car) => {
    const process = car.cage.welding?.process ?? null;
    const chief = car.chief();
    if (chief === null) return [];
    if (process === null) return missingOfCar(car, 'the welding process is not written: welding { process tig }');
    return [reading(chief.name, 1, '1', { word: WORDS[process] }, { word: process })];
  },
  mend: () => ({ says: 'weld under shielding gas', params: {} }),
  explanation: {
    what: 'The cage is welded by a process that the book does not prefer.',
    why: 'Stick and gas put more heat and slag into thin tube than a welder under shielding gas has to.',
    measured: 'The word of `process`. Penetration is seen on a cut test piece, not in a text.',
    mend: 'Weld under shielding gas: tig or mig.',
    stage: 'hoop',
    bad: 'rules fia-253\nwelding { process gas; weld round }',
    good: 'rules fia-253\nwelding { process tig; weld round }',
  },
};
