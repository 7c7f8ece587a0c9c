/** `seat.cushion`: the cushion between shell and driver. */
import { reading } from '../readings';
import type { Rule } from '../rule';

const sitting = (mm: string): string =>
  `seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45; cushion ${mm} }`;

export const seatCushion: Rule = {
  code: 'seat.cushion',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car
      .seats()
      .flatMap(({ name, cushion }) =>
        cushion === null ? [] : [reading(name, cushion, 'mm', { seat: name }, { fact: 'cushion' })],
      ),
  mend: () => ({ says: 'use a thinner one', params: {} }),
  explanation: {
    what: 'The cushion in a seat is thicker than the book allows.',
    why: 'A thick cushion gives in a hit, and the harness is slack.',
    measured: 'The fact `cushion` of the seat.',
    mend: 'Use a thinner cushion.',
    stage: 'hoop',
    bad: `rules fia-253\n${sitting('60')}`,
    good: `rules fia-253\n${sitting('40')}`,
  },
};
