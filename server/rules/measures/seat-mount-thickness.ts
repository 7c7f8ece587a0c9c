/** `seat-mount.thickness`: the thickness of supports and counter-plates, by their material. */
import { mountExample, ownMounts } from '../seat-mounts';
import type { Plate } from '../../cage/cage';
import type { Item } from '../rule';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const seatMountThickness: Rule = {
  code: 'seat-mount.thickness',
  unit: 'mm',
  slack: 0.03,
  read: (car) =>
    ownMounts(car).flatMap((mount): readonly Item[] => {
      if (mount.material === null)
        return [
          missing(mount.name, 'what its supports are made of is not written: material steel', { group: 'steel' }),
        ];
      const { name, material } = mount;
      const item = (plate: Plate | null, fact: string, which: string): readonly Item[] =>
        plate === null ? [] : [reading(name, plate.thick, 'mm', { mount: name, which }, { fact, group: material })];
      return [...item(mount.plate, 'plate', 'support'), ...item(mount.counterPlate, 'counter-plate', 'counter-plate')];
    }),
  mend: () => ({ says: 'use thicker material', params: {} }),
  explanation: {
    what: "A seat's supports or counter-plates are thinner than the book wants.",
    why: 'They bend, and the seat stands loose.',
    measured: 'The thickness of the facts `plate` and `counter-plate`, against the limit for the `material`.',
    mend: 'Use thicker material.',
    stage: 'hoop',
    bad: `rules fia-253\n${mountExample({ plate: 'plate 80 x 60 x 2.5' })}`,
    good: `rules fia-253\n${mountExample()}`,
  },
};
