/** `backstay.missing`: a backstay on each side. */
import { stays } from '../examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const backstayMissing: Rule = {
  code: 'backstay.missing',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    if (chief === null || car.kind() === 'none') return [];
    const stays = car.of('backstay');
    const left = stays.filter(({ ends }) => ends[0].at[1] + ends[1].at[1] > 0).length;
    const [here, gone] = left > stays.length - left ? ['left', 'right'] : ['right', 'left'];
    // A pair stands for itself however it lies; one side without any is what a book asks about.
    const paired =
      Math.min(left, stays.length - left, 1) * 2 +
      (Math.min(left, stays.length - left) === 0 && stays.length > 0 ? 1 : 0);
    const which =
      stays.length === 0
        ? 'The main hoop has no backstays'
        : `The main hoop has a backstay on the ${here} only, none on the ${gone}`;
    return [reading(chief.name, paired, '1', { which })];
  },
  mend: () => ({
    says: 'add a tube as backstay on each side, from near the top of the hoop straight to the rear',
    ask: ', {book} wants two',
    params: {},
  }),
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
