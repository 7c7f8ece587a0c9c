/** `seat-mount.length`: the length of a seat's support along the car. */
import { mountExample, ownMounts } from '../seat-mounts';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const seatMountLength: Rule = {
  code: 'seat-mount.length',
  unit: 'mm',
  slack: 0.03,
  read: (car) =>
    ownMounts(car).map(({ name, plate }) =>
      plate === null
        ? missing(name, 'the contact is not written: plate 80 x 60 x 3')
        : reading(name, plate.long, 'mm', { mount: name }, { fact: 'plate' }),
    ),
  mend: () => ({ says: 'use longer ones', params: {} }),
  explanation: {
    what: 'A support of a seat is shorter than the book wants.',
    why: 'A short one tips over its bolt.',
    measured: 'The first figure of the fact `plate`, which lies along the car.',
    mend: 'Use longer supports.',
    stage: 'hoop',
    bad: `rules fia-253\n${mountExample({ plate: 'plate 55 x 75 x 3' })}`,
    good: `rules fia-253\n${mountExample()}`,
  },
};
