/** `diagonal.feet`: two diagonals that stand on the shell with mountings of their own, and how far apart those are. */
import { distance } from '../../centreline/vector';
import type { Car, Member } from '../car';
import { reading } from '../readings';
import type { Item, Rule } from '../rule';

const onShell = (car: Car): readonly Member[] =>
  car.of('diagonal').filter((member) => car.upDown(member)[1].foot !== null);

export const diagonalFeet: Rule = {
  code: 'diagonal.feet',
  unit: 'mm',
  slack: 1e-6,
  read: (car): readonly Item[] => {
    const [first, second] = onShell(car);
    if (first === undefined || second === undefined) return [];
    const far = distance(car.upDown(first)[1].at, car.upDown(second)[1].at);
    return [reading(first.name, far, 'mm', { tube: first.name, other: second.name }, { fact: 'path' })];
  },
  mend: () => ({ says: 'move the two mountings together', params: {} }),
  explanation: {
    what: 'Two diagonals stand on the shell with their lower mountings too far apart.',
    why: 'They are meant to meet at one stiff place of the floor.',
    measured: 'Between the lower ends of the two diagonals, each on a foot of its own.',
    mend: 'Move the mountings together.',
    stage: 'hoop',
    bad: 'rules fia-253\nmirror left {\n  node high = on hoop at 110 before crown\n  node low = (0, 180, 0)\n  tube half as diagonal { section t38; path high, low }\n  foot pad { at low; plate 100 x 80 x 3; bolts 2 x M8; hole 8 }\n}',
    good: 'rules fia-253\nmirror left {\n  node high = on hoop at 110 before crown\n  node low = (0, 140, 0)\n  tube half as diagonal { section t38; path high, low }\n  foot pad { at low; plate 100 x 80 x 3; bolts 2 x M8; hole 8 }\n}',
  },
};
