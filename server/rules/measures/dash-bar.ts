/** `dash.bar`: a tube between the front legs near the dash. */
import { front } from '../examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const dashBar: Rule = {
  code: 'dash.bar',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    if (chief === null || car.kind() !== 'cage') return [];
    return [reading(chief.name, car.tubesOf('dash-bar').length, '1', {})];
  },
  mend: () => ({ says: 'a tube as dash-bar would be one', ask: ', {book} recommends one', params: {} }),
  explanation: {
    what: 'No tube ties the two front legs together near the dash.',
    why: 'The front legs spread in a frontal hit, and the doors do not open any more.',
    measured: 'Tubes `as dash-bar`.',
    mend: 'Add the tube, or write its role.',
    stage: 'hoop',
    bad: `rules scca-gcr\n${front()}`,
    good: `rules fia-253\n${front()}`,
  },
};
