/** `anchor.through-seat`: whether lap and crotch straps pass through the seat. */
import { anchorExample } from '../anchors';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const anchorThroughSeat: Rule = {
  code: 'anchor.through-seat',
  unit: '1',
  slack: 0,
  read: (car) =>
    car
      .ofKind('anchor')
      .filter(({ as }) => as === 'lap' || as === 'crotch')
      .map(({ name, throughSeat }) =>
        throughSeat === null
          ? missing(name, 'whether its strap passes through the seat is not written: through-seat yes')
          : reading(name, throughSeat ? 1 : 0, '1', { anchor: name }, { fact: 'through-seat' }),
      ),
  mend: () => ({ says: "lead it through the seat's opening", ask: ', {book} wants it through the seat', params: {} }),
  explanation: {
    what: 'A lap or crotch strap passes over the side of the seat.',
    why: 'It rides up over the belly, and the driver slides out under it.',
    measured: 'The fact `through-seat` of the anchor.',
    mend: 'Lead it through the opening of the seat, and protect it from the edge.',
    stage: 'hoop',
    bad: `rules fia-253\n${anchorExample('load 15 kN; plate 80 x 60 x 3; through-seat no')}`,
    good: `rules fia-253\n${anchorExample('load 15 kN; plate 80 x 60 x 3; through-seat yes')}`,
  },
};
