/** `tube.finish`: how the tubes are coated. */
import type { Tube } from '../../cage/cage';
import type { Car } from '../car';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

/** Tubes that say their own. */
const finished = (car: Car): readonly Tube[] => car.tubes().filter(({ finish }) => finish !== null);

export const tubeFinish: Rule = {
  code: 'tube.finish',
  unit: '1',
  slack: 0,
  read: (car) => {
    const whole = car.cage.vehicle?.finish ?? null;
    const found = (whole === null ? car.keep(finished) : car.tubes()).flatMap(({ name, finish }) => {
      const word = finish ?? whole;
      return word === null ? [] : [reading(name, 1, '1', { tube: name, word }, { fact: 'finish', word })];
    });
    const wrong = found.filter(({ word }) => word === 'chrome');
    if (wrong.length > 0) return whole === 'chrome' ? wrong.slice(0, 1) : wrong;
    return found.length > 0
      ? found.slice(0, 1)
      : missingOfCar(car, 'how the cage is coated is not written: vehicle { finish paint }');
  },
  mend: () => ({ says: 'paint it', params: {} }),
  explanation: {
    what: 'A tube is coated in a way that the book does not allow.',
    why: 'Chromium plating lets hydrogen into the steel, and a brittle tube breaks where a soft one folds.',
    measured: 'The fact `finish` of the vehicle, or of the tube.',
    mend: 'Leave the tubes bare, or paint them.',
    stage: 'hoop',
    bad: 'rules fia-253\nvehicle { finish chrome }',
    good: 'rules fia-253\nvehicle { finish paint }',
  },
};
