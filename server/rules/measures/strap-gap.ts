/** `strap.gap`: between the inner edges of a seat's two straps where they lie on the bar. */
import { belts } from '../examples';
import { each } from '../each';
import { reading } from '../readings';
import type { Rule } from '../rule';
import { strapPairs } from '../shoulders';

export const strapGap: Rule = {
  code: 'strap.gap',
  unit: 'mm',
  slack: 0.05,
  groups: ['with yoke', 'without yoke'],
  // A strap without a width has a finding of its own: it is a fact that every strap needs.
  read: each(strapPairs, ({ seat, left, spacing, width }) => {
    if (width === null) return [];
    const group = seat.yoke === null ? 'without yoke' : 'with yoke';
    return [reading(seat.name, spacing - width, 'mm', { seat: seat.name, tube: left.figures.tube ?? '' }, { group })];
  }),
  mend: (item, target) => ({
    says: 'bring them {by~} closer together',
    params: { by: { value: Math.abs(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'The straps that hold a head restraint lie too far apart on the bar.',
    why: 'From a wide bar the webbing slips off the yoke, and the head is held no more.',
    measured:
      'Along the bar, between the inner edges of the webbing: the makers of head restraints say so where a yoke is worn.',
    mend: 'Move the straps along the bar with `at y = …`.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(240, 300, 740)', '', '', 'shoulder (forward 110, up 30); yoke 30')}`,
    good: `rules harness-makers\n${belts('(240, 300, 740)', 'at y = 375; ', 'at y = 225; ', 'shoulder (forward 110, up 30); yoke 30')}`,
  },
};
