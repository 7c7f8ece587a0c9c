/** `seat-mount.points`: the number of points at which the supports of a seat are held to the shell. */
import { mountExample, ownMounts } from '../seat-mounts';
import type { Item } from '../rule';
import { missing, missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

export const seatMountPoints: Rule = {
  code: 'seat-mount.points',
  unit: '1',
  slack: 0,
  read: (car): readonly Item[] => {
    if (car.seats().length > 0 && car.ofKind('seat-mount').length === 0)
      return missingOfCar(
        car,
        'what holds the seat is not written: seat-mount NAME { seat …; points 4; … }, or approved yes',
      );
    return ownMounts(car).map(({ name, points }) =>
      points === null
        ? missing(name, 'the number of its points is not written: points 4')
        : reading(name, points, '1', { mount: name }, { fact: 'points' }),
    );
  },
  mend: () => ({ says: 'add points', params: {} }),
  explanation: {
    what: 'The supports of a seat are held to the shell at fewer points than the book wants.',
    why: "A seat that breaks loose takes the harness's geometry with it.",
    measured: 'The fact `points`. Supports that the maker of the seat approves (`approved yes`) are not asked.',
    mend: 'Hold it at more points.',
    stage: 'hoop',
    bad: `rules fia-253\n${mountExample({ points: 'points 3' })}`,
    good: `rules fia-253\n${mountExample()}`,
  },
};
