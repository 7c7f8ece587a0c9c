/** `hoop.leg-bends`: bends in a leg of a hoop below the bend at its top corner. */
import { flankOf } from '../hoop';
import { FOUR_BENDS, SIX_BENDS } from '../hoop-examples';
import { eachOne } from '../each';
import { reading } from '../readings';
import type { Rule } from '../rule';
import type { Hoop } from '../car';

/** On the worse of the legs that stand on the shell: both of a hoop, the lower one of a half-lateral. */
function worstLeg({ line, figures, tube }: Hoop): number {
  const { top, topStation } = figures;
  // A half-lateral runs level from the main hoop to the roof's corner: all of it is one side.
  if (tube.role === 'half-lateral') return flankOf(line, top, 0, line.length).below;
  return Math.max(flankOf(line, top, 0, topStation).below, flankOf(line, top, topStation, line.length).below);
}

export const hoopLegBends: Rule = {
  code: 'hoop.leg-bends',
  unit: '1',
  slack: 0,
  read: eachOne(
    (car) => car.hoops(),
    (hoop) =>
      reading(
        hoop.name,
        worstLeg(hoop),
        '1',
        { tube: hoop.name },
        {
          fact: 'path',
          group: hoop.tube.role === 'main-rollbar' ? 'main leg' : 'front leg',
        },
      ),
  ),
  mend: () => ({ says: 'let the leg have one bend only', params: {} }),
  explanation: {
    what: 'A leg of a hoop has more than one bend between its foot and the corner at its top.',
    why: 'A leg that is bent more than once gives way under a load from above.',
    measured:
      "The bends of the leg below those at the top corner, on the worse of the two legs. Bends within the top quarter of the hoop's height belong to the corner.",
    mend: 'Take a corner out of the leg.',
    stage: 'parts',
    bad: `rules fia-253\n${SIX_BENDS}`,
    good: `rules fia-253\n${FOUR_BENDS()}`,
  },
};
