/** `hoop.pillar-gap`: from the legs of the main hoop to the pillars behind the doors. */
import type { Side } from '../../cage/cage';
import { pointAt } from '../../centreline/query';
import { legsOf } from '../hoop';
import { panelExample, panelGaps } from '../panels';
import type { Rule } from '../rule';

const PILLAR = 'the pillars are not written: panel NAME as pillar { outline P, P }, inside mirror';

export const hoopPillarGap: Rule = {
  code: 'hoop.pillar-gap',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    panelGaps(car, 'pillar', PILLAR, ({ line, figures }) =>
      legsOf(line, figures).map((leg) => {
        const middle = pointAt(line, (leg[0] + leg[1]) / 2).point;
        const side: Side = middle[1] >= 0 ? 'left' : 'right';
        return {
          stretch: leg,
          says: { side },
          own: ({ outline }) => (outline ?? []).every(([, y]) => y * middle[1] >= 0),
        };
      }),
    ),
  mend: () => ({
    says: 'set the leg farther out',
    ask: ', {book} wants it as near as can be; it names no figure, over {limit} is told',
    params: {},
  }),
  explanation: {
    what: 'A leg of the main hoop stands far inside the pillar behind the door.',
    why: 'A narrow hoop leaves the shoulders outside it, and leans on nothing when the car is hit from the side.',
    measured:
      "From the outer surface of the leg to the nearest `panel … as pillar` of its side. The texts say as near as practical and name no figure; 100 mm is this tool's, and a club's own book can set another.",
    mend: 'Set the leg farther out.',
    stage: 'hoop',
    bad: `rules scca-gcr\n${panelExample(1100, 740)}`,
    good: `rules scca-gcr\n${panelExample(1100, 690)}`,
  },
};
