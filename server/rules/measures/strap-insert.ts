/** `strap.insert`: a strap that is bolted to its bar: a threaded insert in the tube. */
import { belts } from '../examples';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const strapInsert: Rule = {
  code: 'strap.insert',
  unit: '1',
  slack: 0,
  read: (car) =>
    car
      .ofKind('strap')
      .filter(({ fixing }) => fixing === 'bolt')
      .map(({ name, tube, insert }) =>
        insert === null
          ? missing(name, 'whether an insert is welded into the tube is not written: insert yes')
          : reading(name, insert ? 1 : 0, '1', { strap: name, tube: tube ?? '' }, { fact: 'insert' }),
      ),
  mend: () => ({
    says: 'weld an insert into the tube, or wrap the strap round it',
    ask: ', {book} wants one',
    params: {},
  }),
  explanation: {
    what: 'A strap is bolted through the wall of its bar, without an insert.',
    why: 'The bolt tears out of a wall of two or three millimetres, and the hole weakens the bar.',
    measured: 'The facts `fixing bolt` and `insert` of the strap.',
    mend: 'Weld an insert in for each bolt, or wrap the strap.',
    stage: 'hoop',
    bad: `rules fia-253\n${belts('(240, 300, 740)', 'fixing bolt; bolt M12 8.8; insert no; ')}`,
    good: `rules fia-253\n${belts('(240, 300, 740)', 'fixing bolt; bolt M12 8.8; insert yes; ')}`,
  },
};
