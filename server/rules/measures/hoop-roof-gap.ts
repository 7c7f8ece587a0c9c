/** `hoop.roof-gap`: from the top of the main hoop to the roof. */
import { legsOf } from '../hoop';
import { panelExample, panelGaps } from '../panels';
import type { Rule } from '../rule';

const ROOF = 'the roof is not written: panel NAME as roof { outline P, P, P, P }';

export const hoopRoofGap: Rule = {
  code: 'hoop.roof-gap',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    panelGaps(car, 'roof', ROOF, ({ line, figures }) => {
      const [first, last] = legsOf(line, figures);
      return [{ stretch: [first[1], last[0]], says: {} }];
    }),
  mend: () => ({
    says: 'raise it as far as it can be fitted',
    ask: ', {book} wants it as near as can be; it names no figure, over {limit} is told',
    params: {},
  }),
  explanation: {
    what: 'The top of the main hoop stays far below the roof.',
    why: 'The roof comes down as far as the hoop: the more room there is between them, the less is left for the head.',
    measured:
      "From the outer surface of the hoop, between its top corners, to the nearest of the `panel … as roof`. The texts say as near as practical and name no figure; 100 mm is this tool's, and a club's own book can set another.",
    mend: 'Raise the hoop.',
    stage: 'hoop',
    bad: `rules scca-solo\n${panelExample(1150)}`,
    good: `rules scca-solo\n${panelExample(1100)}`,
  },
};
