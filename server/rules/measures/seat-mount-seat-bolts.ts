/** `seat-mount.seat-bolts`: the number of bolts between seat and supports. */
import { mountExample, ownMounts } from '../seat-mounts';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const seatMountSeatBolts: Rule = {
  code: 'seat-mount.seat-bolts',
  unit: '1',
  slack: 0,
  read: (car) =>
    ownMounts(car).map(({ name, seatBolts }) =>
      seatBolts === null
        ? missing(name, 'its bolts to the seat are not written: seat-bolts 4 x M8 8.8')
        : reading(name, seatBolts.count, '1', { mount: name }, { fact: 'seat-bolts' }),
    ),
  mend: () => ({ says: 'use two in front and two behind', params: {} }),
  explanation: {
    what: 'A seat is held to its supports by fewer bolts than the book wants.',
    why: 'The seat turns about what is left.',
    measured: 'The count of the fact `seat-bolts`. That two stand in front and two behind is not judged.',
    mend: 'Use all four.',
    stage: 'hoop',
    bad: `rules fia-253\n${mountExample({ 'seat-bolts': 'seat-bolts 3 x M8 8.8' })}`,
    good: `rules fia-253\n${mountExample()}`,
  },
};
