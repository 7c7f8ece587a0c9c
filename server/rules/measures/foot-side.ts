/** `foot.side`: the sides of a foot's plate. */
import { FOOT_GROUPS, footExample, footUses } from '../feet';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const footSide: Rule = {
  code: 'foot.side',
  unit: 'mm',
  slack: 0.03,
  groups: FOOT_GROUPS,
  read: (car) =>
    footUses(car).flatMap(({ foot, group }) => {
      if (foot.plate === null) return [];
      const { long, wide } = foot.plate;
      const sides: readonly (readonly [string, number])[] = [
        ['shorter', Math.min(long, wide)],
        ['longer', Math.max(long, wide)],
      ];
      return sides.map(([which, value]) =>
        reading(foot.name, value, 'mm', { foot: foot.name, which }, { fact: 'plate', group }),
      );
    }),
  mend: () => ({ says: 'change its outline', params: {} }),
  explanation: {
    what: "A side of a foot's plate is shorter, or longer, than the book allows.",
    why: 'A narrow plate cuts through the shell like a blade.',
    measured: 'The shorter and the longer side of the plate.',
    mend: 'Change the plate.',
    stage: 'hoop',
    bad: `rules nasa-ccr
${footExample('140 x 40 x 3')}`,
    good: `rules nasa-ccr
${footExample('140 x 60 x 3')}`,
  },
};
