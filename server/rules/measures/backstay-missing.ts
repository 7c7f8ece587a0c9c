/** `backstay.missing`: a backstay on each side. */
import { pointAt } from '../../centreline/query';
import type { Car } from '../car';
import { stays } from '../examples';
import { legsOf } from '../hoop';
import { mirrored, pointWords } from '../points';
import { reading } from '../readings';
import type { Mend, Rule } from '../rule';

/** The image of the one that is there; else from the two upper corners of the hoop. */
function placesFor(car: Car): Mend {
  const stay = car.of('backstay')[0];
  if (stay !== undefined) {
    const [up, down] = car.upDown(stay);
    const from = pointWords('from', mirrored(up.at));
    const to = pointWords('to', mirrored(down.at));
    return {
      says: `add a tube as backstay, the image of {stay}: from near ${from.says} to near ${to.says}`,
      params: { ...from.params, ...to.params, stay: stay.name },
    };
  }
  const hoop = car.mainHoops()[0];
  if (hoop === undefined)
    return { says: 'add a tube as backstay on each side, from near its top straight to the rear', params: {} };
  const [first, last] = legsOf(hoop.line, hoop.figures);
  const from = pointWords('from', pointAt(hoop.line, first[1]).point);
  const to = pointWords('to', pointAt(hoop.line, last[0]).point);
  return {
    says: `add a tube as backstay on each side, from its top corners, near ${from.says} and ${to.says}, straight to the rear`,
    params: { ...from.params, ...to.params },
  };
}

export const backstayMissing: Rule = {
  code: 'backstay.missing',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    if (chief === null || car.kind() === 'none') return [];
    const all = car.of('backstay');
    const left = all.filter(({ ends }) => ends[0].at[1] + ends[1].at[1] > 0).length;
    const [here, gone] = left > all.length - left ? ['left', 'right'] : ['right', 'left'];
    // A pair stands for itself however it lies; one side without any is what a book asks about.
    const lesser = Math.min(left, all.length - left);
    const paired = lesser > 0 ? 2 : all.length > 0 ? 1 : 0;
    const hoop = car.tubesOf('main-rollbar').length > 0 ? 'The main hoop has' : 'The cage has';
    const which =
      all.length === 0 ? `${hoop} no backstays` : `${hoop} a backstay on the ${here} only, none on the ${gone}`;
    return [reading(chief.name, paired, '1', { which })];
  },
  mend: (_item, _target, car) => ({ ...placesFor(car), ask: ', {book} wants two' }),
  explanation: {
    what: 'The main hoop has no backstay on one side or both.',
    why: 'Without them nothing but its feet keeps the hoop from falling over backward or forward.',
    measured: 'Tubes `as backstay` on the left and on the right of the centreline.',
    mend: 'Add the tube, or write its role.',
    stage: 'hoop',
    bad: 'rules fia-253',
    good: `rules fia-253\n${stays()}`,
  },
};
