/** `foot.counter-plate`: whether a bolted foot is backed by a plate no smaller and no thinner than its own. */
import { BOLTS, FOOT_GROUPS, footExample, footUses } from '../feet';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

const shown = (plate: string): string => footExample('140 x 100 x 5', `; bolts 3 x 10 mm 8.8; counter-plate ${plate}`);

/** Sheet is named in sixteenths and in rounded millimetres. */
const SLACK = 0.05;

export const footCounterPlate: Rule = {
  code: 'foot.counter-plate',
  unit: '1',
  slack: 0,
  groups: FOOT_GROUPS,
  read: (car) =>
    footUses(car).flatMap(({ foot, group }): readonly Item[] => {
      const { plate, bolts, counterPlate, welded } = foot;
      if (plate === null || (bolts === null && welded === true)) return [];
      if (bolts === null) return [missing(foot.name, BOLTS, { group })];
      if (counterPlate === null)
        return [
          missing(foot.name, 'the plate on the far side of the panel is not written: counter-plate 140 x 100 x 5', {
            group,
          }),
        ];
      const [a, b] = [plate, counterPlate].map(
        ({ long, wide }) => [Math.min(long, wide), Math.max(long, wide)] as const,
      );
      const smaller = a !== undefined && b !== undefined && (b[0] < a[0] - SLACK || b[1] < a[1] - SLACK);
      const thinner = counterPlate.thick < plate.thick - SLACK;
      const way = smaller ? 'smaller' : 'thinner';
      return [
        reading(foot.name, smaller || thinner ? 0 : 1, '1', { foot: foot.name, way }, { fact: 'counter-plate', group }),
      ];
    }),
  mend: () => ({ says: 'use a plate of the same size and thickness', ask: ', {book} wants the same', params: {} }),
  explanation: {
    what: 'The plate behind a bolted foot is smaller or thinner than the foot.',
    why: 'Without it the bolts pull through the floor.',
    measured: "The outline and thickness of `counter-plate` against those of the foot's own plate.",
    mend: 'Use a plate of the same size and thickness.',
    stage: 'hoop',
    bad: `rules scca-gcr\n${shown('120 x 100 x 5')}`,
    good: `rules scca-gcr\n${shown('140 x 100 x 5')}`,
  },
};
