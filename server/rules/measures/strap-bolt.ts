/** `strap.bolt`: the diameter of the bolt by which a strap is fixed to its bar. */
import { belts } from '../examples';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const strapBolt: Rule = {
  code: 'strap.bolt',
  unit: 'mm',
  slack: 0.03,
  read: (car) =>
    car
      .ofKind('strap')
      .filter(({ fixing }) => fixing === 'bolt')
      .map(({ name, bolt }) =>
        bolt === null
          ? missing(name, 'its bolt is not written: bolt M12 8.8')
          : reading(name, bolt.diameter, 'mm', { strap: name }, { fact: 'bolt' }),
      ),
  mend: () => ({ says: 'use M12 or 7/16 in UNF', params: {} }),
  explanation: {
    what: 'The bolt of a strap is smaller than the book wants.',
    why: 'One bolt holds one half of a driver.',
    measured: 'The diameter of the fact `bolt`, of straps with `fixing bolt`.',
    mend: 'Use the bolt that the book names.',
    stage: 'hoop',
    bad: `rules fia-253\n${belts('(240, 300, 740)', 'fixing bolt; bolt M10 8.8; insert yes; ')}`,
    good: `rules fia-253\n${belts('(240, 300, 740)', 'fixing bolt; bolt M12 8.8; insert yes; ')}`,
  },
};
