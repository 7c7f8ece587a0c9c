/** `fitting.welded`: whether a removable joint is welded up once it is together. */
import { fittingExample, fittingUses } from '../fittings';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const fittingWelded: Rule = {
  code: 'fitting.welded',
  unit: '1',
  slack: 0,
  read: (car) =>
    fittingUses(car).map(({ fitting }) =>
      reading(fitting.name, fitting.welded === true ? 1 : 0, '1', { fitting: fitting.name }, { fact: 'welded' }),
    ),
  mend: () => ({
    says: 'weld the tube in without a joint, or leave the joint unwelded',
    ask: ', {book} wants it unwelded',
    params: {},
  }),
  explanation: {
    what: 'A removable joint is welded up.',
    why: 'The weld on hardened or close-fitting parts cracks, and what is inside cannot be seen any more.',
    measured: 'The fact `welded` of the fitting.',
    mend: 'Leave it unwelded.',
    stage: 'hoop',
    bad: `rules fia-253\n${fittingExample('welded yes')}`,
    good: `rules fia-253\n${fittingExample('welded no')}`,
  },
};
