/** `hoop.leg-bends`: bends in a leg of a hoop below the bend at its top corner. */
import { FOUR_BENDS, SIX_BENDS } from '../hoop-examples';
import { reading } from '../readings';
import type { Rule } from '../rule';
import type { Hoop } from '../car';

/** The legs that stand on the shell: both of a hoop; of a half-lateral the one at its lower end. */
function worstLeg(hoop: Hoop): number {
  const [first, last] = hoop.figures.bendsBeside;
  const ofLeg = (bends: number): number => Math.max(0, bends - 1);
  if (hoop.tube.role !== 'half-lateral') return Math.max(ofLeg(first), ofLeg(last));
  const [a, b] = hoop.ends;
  // It runs level from the main hoop to the roof's corner, so that all its bends may lie beyond the middle of the roof.
  return ofLeg(a.at[2] < b.at[2] ? Math.max(first, hoop.bends) : Math.max(last, hoop.bends));
}

export const hoopLegBends: Rule = {
  code: 'hoop.leg-bends',
  unit: '1',
  slack: 0,
  read: (car) =>
    car.hoops().map((hoop) =>
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
    measured: 'The bends of the leg below the one at the top corner, on the worse of the two legs.',
    mend: 'Take a corner out of the leg.',
    stage: 'parts',
    bad: `rules fia-253\n${SIX_BENDS}`,
    good: `rules fia-253\n${FOUR_BENDS()}`,
  },
};
