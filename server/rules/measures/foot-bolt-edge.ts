/** `foot.bolt-edge`: from the middle of a bolt to the nearest edge of its plate. */
import { figure } from '../../geometry/tell';
import { BOLTS, footExample } from '../feet';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

export const footBoltEdge: Rule = {
  code: 'foot.bolt-edge',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    car.feet().flatMap(({ name, plate, bolts, boltsAt }): readonly Item[] => {
      if (boltsAt === null || boltsAt.length === 0 || plate === null) return [];
      if (bolts === null) return [missing(name, BOLTS, { fact: 'bolts-at' })];
      const edges = boltsAt.map(({ forward, left }) =>
        Math.min(plate.long / 2 - Math.abs(forward), plate.wide / 2 - Math.abs(left)),
      );
      const least = Math.min(...edges);
      const item = edges.indexOf(least);
      const params = { foot: name, bolt: item + 1, dia: figure(bolts.diameter, 'mm') };
      return [
        reading(name, least, 'mm', params, {
          at: { kind: 'thing', thing: name, fact: 'bolts-at', item },
          limit: { from: 1.5 * bolts.diameter, to: null },
        }),
      ];
    }),
  mend: (item, target) => ({
    says: 'move it {by~} inward',
    params: { by: figure(target - item.measured.value, 'mm') },
  }),
  explanation: {
    what: 'A bolt stands close to the edge of its plate.',
    why: 'The hole tears out through the edge before the bolt has taken its load.',
    measured:
      'From the middle of each bolt that is written (`bolts-at`) to the nearest edge of the plate, against one and a half times its diameter. Plates whose bolts have no places are not judged.',
    mend: 'Move the bolt inward, or use a larger plate.',
    stage: 'hoop',
    bad: footExample('140 x 100 x 3', '; bolts 2 x M8; bolts-at (forward 60, out 0), (aft 50, out 0)'),
    good: footExample('140 x 100 x 3', '; bolts 2 x M8; bolts-at (forward 55, out 0), (aft 50, out 0)'),
  },
};
