/** `weld.alloy`: by which process tubes of alloy steel are welded. */
import { missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';
import { processOf } from '../steel';
import { oneOfEach } from './tube-material';

const WORDS = { tig: 'tig', mig: 'mig', mma: 'stick electrode', gas: 'gas flame' } as const;
const GROUPS = ['4130', 'mild'] as const;

const shown = (process: string): string =>
  `welding { process ${process} }\nmaterial alloy { yield 460 MPa; kind chromoly }\nsection c38 { od 38; wall 2.5; material alloy }\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\ntube prop as brace { section c38; path a, b; first open }`;

export const weldAlloy: Rule = {
  code: 'weld.alloy',
  unit: '1',
  slack: 0,
  groups: GROUPS,
  read: (car): readonly Item[] => {
    const process = car.cage.welding?.process ?? null;
    const all = oneOfEach(car).map(({ tube, section }) => ({
      tube,
      group: processOf(section.material) === '4130 alloy' ? GROUPS[0] : GROUPS[1],
    }));
    if (process === null)
      return [...new Set(all.map(({ group }) => group))].flatMap((group) =>
        missingOfCar(car, 'the welding process is not written: welding { process tig }', { group }),
      );
    return GROUPS.flatMap((group) => {
      const one = all.find((other) => other.group === group);
      if (one === undefined) return [];
      const params = { tube: one.tube.name, steel: group === '4130' ? '4130' : 'mild steel', way: WORDS[process] };
      return [reading(one.tube.name, 1, '1', params, { word: process, group })];
    });
  },
  mend: (item) => ({ says: item.group === '4130' ? 'weld it by tig' : 'weld it by mig or tig', params: {} }),
  explanation: {
    what: 'Tubes are welded by a process that the book does not allow for their steel.',
    why: '4130 hardens beside a weld that cools fast: it cracks there later, without a warning.',
    measured: 'The word of `process` in `welding`, by the `kind` of the material of each section that is used.',
    mend: 'Weld 4130 by tig.',
    stage: 'hoop',
    bad: `rules nhra\n${shown('mig')}`,
    good: `rules nhra\n${shown('tig')}`,
  },
};
