/** `tube.carries`: what is led through a tube. */
import { stays } from '../examples';
import type { Tube } from '../../cage/cage';
import type { Car } from '../car';
import { reading } from '../readings';
import type { Rule } from '../rule';

const carrying = (car: Car): readonly Tube[] => car.tubes().filter(({ carries }) => carries !== null);

export const tubeCarries: Rule = {
  code: 'tube.carries',
  unit: '1',
  slack: 0,
  read: (car) =>
    car
      .keep(carrying)
      .map(({ name, carries }) => reading(name, 1, '1', { tube: name, what: carries ?? '' }, { fact: 'carries' })),
  mend: () => ({ says: 'lead it elsewhere', ask: ', {book} allows nothing in a tube', params: {} }),
  explanation: {
    what: 'Something is led through a tube of the cage.',
    why: 'A line in a tube is cut when the tube folds; a fluid burns.',
    measured: 'The fact `carries` of the tube.',
    mend: 'Lead it elsewhere.',
    stage: 'hoop',
    bad: `rules fia-253\n${stays().replace('path stay-top, stay-foot', 'path stay-top, stay-foot; carries "fuel line"')}`,
    good: `rules fia-253\n${stays()}`,
  },
};
