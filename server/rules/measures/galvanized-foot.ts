/** `galvanized.foot`: how much of a dipped tube's bore stays open through its plate. */
import { boreOf, dippedExample, isDipped, isGalvanized } from '../galvanized';
import { standingOnFoot, stoodOn } from '../feet';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

/** From this diameter on less of it has to be open, mm: 3 in. */
const LARGE = 76;

export const galvanizedFoot: Rule = {
  code: 'galvanized.foot',
  unit: '1',
  slack: 0.005,
  read: (car) =>
    (isDipped(car) ? stoodOn(car) : []).flatMap((foot): readonly Reading[] => {
      const tube = standingOnFoot(car, foot)[0]?.part.tube;
      const bore = tube === undefined ? null : boreOf(tube);
      if (tube === undefined || bore === null || foot.holeUnread === true || !isGalvanized(car, tube)) return [];
      const share = ((foot.hole ?? 0) / bore) ** 2;
      const least = (tube.section?.od ?? 0) >= LARGE ? 0.3 : 0.45;
      const to = { value: Math.ceil(bore * Math.sqrt(least)), unit: 'mm' } as const;
      return [
        reading(
          foot.name,
          share,
          '1',
          { foot: foot.name, tube: tube.name, to },
          {
            ...(foot.hole === null ? {} : { fact: 'hole' }),
            limit: { from: least, to: null },
          },
        ),
      ];
    }),
  mend: () => ({ says: 'make its hole {to}', params: {} }),
  explanation: {
    what: "The plate under a tube that is to be galvanized closes most of the tube's bore.",
    why: 'Zinc stays behind on the plate, or does not get up into the tube.',
    measured:
      "Area of the plate's `hole` over that of the bore: at least 0.45, from 76 mm (3 in) outside diameter on 0.30. For columns with end plates; a foot is such a one.",
    mend: 'Make the hole larger.',
    stage: 'hoop',
    bad: dippedExample('galvanized', '; hole 12', '; last open'),
    good: dippedExample('galvanized', '; hole 24', '; last open'),
  },
};
