/** `anchor.adjuster`: from the opening of the seat out to the adjuster of a lap strap. */
import { anchorExample, anchorFact } from '../anchors';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const anchorAdjuster: Rule = {
  code: 'anchor.adjuster',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    anchorFact(
      car,
      car.ofKind('anchor').filter(({ as }) => as === 'lap'),
      'where the adjuster of a lap strap sits is not written: adjuster 60',
      () => ({}),
      ({ name, adjuster }) =>
        adjuster === null ? null : reading(name, adjuster, 'mm', { anchor: name }, { fact: 'adjuster' }),
    ),
  mend: (item, target) => ({
    says: 'lead it {by~} farther out, or put it inboard beside the buckle',
    params: { by: { value: target - item.measured.value, unit: 'mm' } },
  }),
  explanation: {
    what: "The adjuster of a lap strap sits in the opening of the seat, or rides on the seat's edge.",
    why: 'Over the edge it bends, jams or opens when the strap loads.',
    measured: 'The fact `adjuster` of the anchor: from the opening of the seat outward along the strap.',
    mend: 'Move the adjuster out along the strap, or inboard beside the buckle.',
    stage: 'hoop',
    bad: `rules harness-makers\n${anchorExample('bolt M12 8.8; adjuster 20')}`,
    good: `rules harness-makers\n${anchorExample('bolt M12 8.8; adjuster 60')}`,
  },
};
