/** `strap.adjuster`: how far the adjuster of a shoulder strap sits below the collarbone, or below the yoke's end. */
import { belts } from '../examples';
import { strapFact, YOKE_GROUPS } from '../strap-facts';
import type { Rule } from '../rule';

export const strapAdjuster: Rule = {
  code: 'strap.adjuster',
  unit: 'mm',
  slack: 0.05,
  groups: YOKE_GROUPS,
  read: (car) =>
    strapFact(
      car,
      'adjuster',
      "where the adjuster of a strap sits is not written: adjuster 260 (below the collarbone; with a yoke, below the yoke's end)",
      ({ adjuster }) => adjuster,
      { yokes: true },
    ),
  mend: (item, target) => ({
    says: 'move it {by~} down',
    params: { by: { value: target - item.measured.value, unit: 'mm' } },
  }),
  explanation: {
    what: 'The adjuster of a shoulder strap sits high on the chest.',
    why: 'It presses on the collarbone when the strap loads, or jams under the yoke of the head restraint.',
    measured: "The fact `adjuster` of the strap: from the collarbone down; with a yoke, from the yoke's end.",
    mend: 'Move the adjuster down.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(240, 300, 740)', 'adjuster 200; ')}`,
    good: `rules harness-makers\n${belts('(240, 300, 740)', 'adjuster 260; ')}`,
  },
};
