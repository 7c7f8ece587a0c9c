/** `seat-mount.load`: the load that each point of a seat is proved for. */
import { mountExample, ownMounts } from '../seat-mounts';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const seatMountLoad: Rule = {
  code: 'seat-mount.load',
  unit: 'N',
  slack: 0.5,
  read: (car) =>
    ownMounts(car).map(({ name, load }) =>
      load === null
        ? missing(name, 'the load that each point is proved for is not written: load 15 kN')
        : reading(name, load, 'N', { mount: name }, { fact: 'load' }),
    ),
  mend: () => ({ says: 'strengthen it', params: {} }),
  explanation: {
    what: 'The points that hold a seat are not proved for the load that the book asks.',
    why: "They hold the driver's weight many times over.",
    measured: 'The fact `load`.',
    mend: 'Have it proved.',
    stage: 'hoop',
    bad: `rules fia-253\n${mountExample({ load: 'load 12 kN' })}`,
    good: `rules fia-253\n${mountExample()}`,
  },
};
