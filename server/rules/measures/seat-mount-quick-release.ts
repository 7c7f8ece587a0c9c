/** `seat-mount.quick-release`: the load that a seat's quick release is proved for. */
import { mountExample, ownMounts } from '../seat-mounts';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const seatMountQuickRelease: Rule = {
  code: 'seat-mount.quick-release',
  unit: 'N',
  slack: 0.5,
  read: (car) =>
    ownMounts(car).flatMap(({ name, quickRelease }) =>
      quickRelease === null ? [] : [reading(name, quickRelease, 'N', { mount: name }, { fact: 'quick-release' })],
    ),
  mend: () => ({ says: 'use another', params: {} }),
  explanation: {
    what: "A seat's quick release is not proved for the load that the book asks.",
    why: 'It opens when it should hold.',
    measured: 'The fact `quick-release`: upright and level, not together.',
    mend: 'Use one that is proved.',
    stage: 'hoop',
    bad: `rules fia-253\n${mountExample({ load: 'load 15 kN; quick-release 15 kN' })}`,
    good: `rules fia-253\n${mountExample({ load: 'load 15 kN; quick-release 18 kN' })}`,
  },
};
