/** `diagonal.missing`: the number of diagonals of the main hoop. */
import { diagonal } from '../examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const diagonalMissing: Rule = {
  code: 'diagonal.missing',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    if (chief === null || car.kind() === 'none') return [];
    return [reading(chief.name, car.tubesOf('diagonal').length, '1', {})];
  },
  mend: () => ({
    says: 'add a straight tube as diagonal, from an upper corner of the hoop to the opposite foot',
    params: {},
  }),
  explanation: {
    what: 'The main hoop has fewer diagonals than the book wants.',
    why: 'Without one the hoop folds sideways into a parallelogram.',
    measured: 'Tubes `as diagonal`; the second leg of an X counts as one, split or not.',
    mend: 'Add the tube, or write its role.',
    stage: 'hoop',
    bad: 'rules fia-253',
    good: `rules fia-253\n${diagonal()}`,
  },
};
