/** `foot.bolt-angle`: the least angle between two of a foot's bolts, seen along the tube. */
import { degrees } from '../../../grammar/units';
import type { Car } from '../car';
import { FOOT_GROUPS, footExample, footUses } from '../feet';
import { missing, missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';

/** Between neighbours round the middle, degrees. */
function leastAngle(at: readonly { readonly forward: number; readonly left: number }[]): number {
  const angles = at.map(({ forward, left }) => degrees(Math.atan2(left, forward))).sort((a, b) => a - b);
  return Math.min(
    ...angles.map((angle, i) =>
      i + 1 < angles.length ? (angles[i + 1] ?? 0) - angle : (angles[0] ?? 0) + 360 - angle,
    ),
  );
}

const uses = (car: Car): ReturnType<typeof footUses> =>
  footUses(car).filter(({ foot }) => foot.bolts !== null && foot.bolts.count > 1);

export const footBoltAngle: Rule = {
  code: 'foot.bolt-angle',
  unit: 'deg',
  slack: 1e-6,
  groups: FOOT_GROUPS,
  read: (car) => {
    const all = uses(car);
    const nowhere = all.every(({ foot }) => foot.boltsAt === null);
    return all.flatMap(({ foot, group }): readonly Item[] => {
      if (nowhere)
        return missingOfCar(
          car,
          'where the bolts of the feet stand is not written: foot NAME { bolts-at (forward 50, out 35), (forward 50, in 35), (aft 50, out 0) }',
          { group },
        );
      if (foot.boltsAt === null)
        return [
          missing(
            foot.name,
            'where its bolts stand is not written: bolts-at (forward 50, out 35), (forward 50, in 35), (aft 50, out 0)',
            { group },
          ),
        ];
      return [reading(foot.name, leastAngle(foot.boltsAt), 'deg', { foot: foot.name }, { fact: 'bolts-at', group })];
    });
  },
  mend: () => ({ says: 'spread them round the tube', params: {} }),
  explanation: {
    what: 'Two bolts of a foot stand too near to each other round the tube.',
    why: 'Bolts on one side of the tube let the plate lift on the other.',
    measured:
      'In the plane of the plate, about its middle, on which the tube stands: the least angle between two neighbours.',
    mend: 'Spread the bolts round the tube.',
    stage: 'hoop',
    bad: `rules fia-253\n${footExample('140 x 100 x 3', '; bolts 3 x M8; bolts-at (forward 50, out 35), (forward 50, in 10), (aft 50, out 0)')}`,
    good: `rules fia-253\n${footExample('140 x 100 x 3', '; bolts 3 x M8; bolts-at (forward 50, out 35), (forward 50, in 35), (aft 50, out 0)')}`,
  },
};
