/** `seat-mount.bolt-size`: the diameter of a seat's bolts, to the shell and to the supports. */
import { mountExample, ownMounts } from '../seat-mounts';
import type { Bolts } from '../../cage/cage';
import type { Item } from '../rule';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const seatMountBoltSize: Rule = {
  code: 'seat-mount.bolt-size',
  unit: 'mm',
  slack: 0.03,
  read: (car) =>
    ownMounts(car).flatMap((mount): readonly Item[] => {
      const item = (bolts: Bolts | null, fact: string, where: string): Item =>
        bolts === null
          ? missing(mount.name, `its bolts to the ${where} are not written: ${fact} 4 x M8 8.8`, { group: where })
          : reading(mount.name, bolts.diameter, 'mm', { mount: mount.name, where }, { fact, group: where });
      return [item(mount.bolts, 'bolts', 'shell'), item(mount.seatBolts, 'seat-bolts', 'seat')];
    }),
  mend: () => ({ says: 'use larger ones', params: {} }),
  explanation: {
    what: 'The bolts of a seat are smaller than the book wants.',
    why: "They hold the driver's weight many times over.",
    measured: 'The diameters of the facts `bolts` and `seat-bolts`.',
    mend: 'Use larger bolts.',
    stage: 'hoop',
    bad: `rules fia-253\n${mountExample({ bolts: 'bolts 4 x M6 8.8' })}`,
    good: `rules fia-253\n${mountExample()}`,
  },
};
