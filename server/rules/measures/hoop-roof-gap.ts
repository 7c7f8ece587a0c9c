/** `hoop.roof-gap`: from the top of the main hoop to the roof. */
import { legsOf } from '../hoop';
import { nearestPanel, panelExample } from '../panels';
import { missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';

const ROOF = 'the roof is not written: panel NAME as roof { outline P, P, P, P }';

export const hoopRoofGap: Rule = {
  code: 'hoop.roof-gap',
  unit: 'mm',
  slack: 0.05,
  read: (car): readonly Item[] => {
    if (car.cage.vehicle?.body === 'open') return [];
    const hoops = car.mainHoops().filter(({ tube }) => tube.section !== null);
    if (hoops.length === 0) return [];
    if (!car.ofKind('panel').some(({ as }) => as === 'roof')) return missingOfCar(car, ROOF);
    return hoops.flatMap((hoop) => {
      const [first, last] = legsOf(hoop.line, hoop.figures);
      const near = nearestPanel(car, 'roof', hoop.line, [first[1], last[0]]);
      if (near === null) return [];
      const gap = Math.max(0, near.far - (hoop.tube.section?.od ?? 0) / 2);
      return [reading(hoop.name, gap, 'mm', { tube: hoop.name, panel: near.panel }, { fact: 'path' })];
    });
  },
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
