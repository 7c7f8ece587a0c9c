/** `weld.round`: whether every joint is welded all round. */
import { stays } from '../examples';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

export const weldRound: Rule = {
  code: 'weld.round',
  unit: '1',
  slack: 0,
  read: (car) => {
    const part = car.ofKind('joint').filter(({ weld }) => weld === 'part');
    const whole = car.cage.welding?.weld ?? null;
    const found = part.map(({ name }) =>
      reading(name, 1, '1', { where: `joint ${name}`, word: 'part' }, { fact: 'weld', word: 'part' }),
    );
    if (found.length > 0 && whole !== 'part') return found;
    if (whole === null)
      return missingOfCar(car, 'how far round the joints are welded is not written: welding { weld round }');
    const chief = car.chief();
    return chief === null ? [] : [reading(chief.name, 1, '1', { where: 'the cage', word: whole }, { word: whole })];
  },
  mend: () => ({ says: 'weld all round', ask: ', {book} wants the whole perimeter', params: {} }),
  explanation: {
    what: 'A joint is welded only part of the way round.',
    why: 'Where the weld ends the tube tears.',
    measured: 'The fact `weld` of `welding` for the whole cage, and of each `joint`.',
    mend: 'Weld all round; tubes that hide each other are tacked, dropped and welded before they are closed.',
    stage: 'hoop',
    bad: `rules fia-253\nwelding { process tig; weld round }\n${stays()}\njoint stay-top.left { weld part }`,
    good: `rules fia-253\nwelding { process tig; weld round }\n${stays()}\njoint stay-top.left { weld round }`,
  },
};
