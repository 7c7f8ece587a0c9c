/** `strap.spacing`: between the middles of a seat's two straps where they lie on the bar. */
import { belts } from '../examples';
import { eachOne } from '../each';
import { reading } from '../readings';
import type { Rule } from '../rule';
import { strapPairs } from '../shoulders';

export const strapSpacing: Rule = {
  code: 'strap.spacing',
  unit: 'mm',
  slack: 0.05,
  read: eachOne(strapPairs, ({ seat, left, spacing }) =>
    reading(seat.name, spacing, 'mm', { seat: seat.name, tube: left.figures.tube ?? '' }),
  ),
  mend: (item, target) => ({
    says: item.measured.value > target ? 'bring them {by~} closer together' : 'move them {by~} apart',
    params: { by: { value: Math.abs(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'The two straps of a seat lie too far apart on the bar, or too close.',
    why: 'Straps that lie wide slip off the shoulders; straps that lie close press on the neck.',
    measured: 'Along the bar, from the middle of the one webbing to the middle of the other.',
    mend: 'Move the straps along the bar with `at y = …`.',
    stage: 'hoop',
    bad: `rules scca-gcr\n${belts('(240, 300, 740)')}`,
    good: `rules fia-253\n${belts('(240, 300, 740)', 'at y = 375; ', 'at y = 225; ')}`,
  },
};
