/** `seat-mount.area`: the contact of a support with the shell, and the plate on the far side, at each point. */
import { mountExample, ownMounts } from '../seat-mounts';
import type { Plate } from '../../cage/cage';
import type { Item } from '../rule';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const seatMountArea: Rule = {
  code: 'seat-mount.area',
  unit: 'mm2',
  slack: 0.5,
  groups: ['contact', 'counter-plate'],
  read: (car) =>
    ownMounts(car).flatMap((mount): readonly Item[] => {
      const item = (plate: Plate | null, fact: string, which: string): Item =>
        plate === null
          ? missing(mount.name, `the ${which} is not written: ${fact} 80 x 60 x 3`, { group: which })
          : reading(mount.name, plate.long * plate.wide, 'mm2', { mount: mount.name, which }, { fact, group: which });
      return [item(mount.plate, 'plate', 'contact'), item(mount.counterPlate, 'counter-plate', 'counter-plate')];
    }),
  mend: () => ({ says: 'use larger plates', params: {} }),
  explanation: {
    what: "A seat's support touches the shell on less than the book wants, or its counter-plate is smaller.",
    why: 'Small plates go through the floor.',
    measured: 'Length times width of the facts `plate` and `counter-plate`.',
    mend: 'Use larger plates.',
    stage: 'hoop',
    bad: `rules fia-253\n${mountExample({ 'counter-plate': 'counter-plate 70 x 50 x 3 welded' })}`,
    good: `rules fia-253\n${mountExample()}`,
  },
};
