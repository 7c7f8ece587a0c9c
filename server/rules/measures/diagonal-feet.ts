/** `diagonal.feet`: two diagonals that stand on the shell with mountings of their own, and how far apart those are. */
import { distance } from '../../centreline/vector';
import type { Car, Member } from '../car';
import { footUses } from '../feet';
import { reading } from '../readings';
import type { Item, Rule } from '../rule';

/** Those that stand on a foot which no hoop and no backstay stands on. */
const onShell = (car: Car): readonly Member[] => {
  const own = new Set(footUses(car).flatMap(({ foot, group }) => (group === 'other foot' ? [foot.name] : [])));
  return car.of('diagonal').filter((member) => own.has(car.upDown(member)[1].foot?.name ?? ''));
};

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
  mend: (item, target) => ({
    says: 'move each {by~} toward the other',
    params: { by: { value: Math.ceil((item.measured.value - target) / 2), unit: 'mm' } },
  }),
  explanation: {
    what: 'Two diagonals stand on the shell with their lower mountings too far apart.',
    why: 'They are meant to meet at one stiff place of the floor.',
    measured: 'Between the lower ends of the two diagonals, each on a foot on which neither hoop nor backstay stands.',
    mend: 'Move the mountings together.',
    stage: 'hoop',
    bad: 'rules fia-253\nmirror left {\n  node high = on hoop at 110 before crown\n  node low = (0, 180, 0)\n  tube half as diagonal { section t38; path high, low }\n  foot pad { at low; plate 100 x 80 x 3; bolts 2 x M8; hole 8 }\n}',
    good: 'rules fia-253\nmirror left {\n  node high = on hoop at 110 before crown\n  node low = (0, 140, 0)\n  tube half as diagonal { section t38; path high, low }\n  foot pad { at low; plate 100 x 80 x 3; bolts 2 x M8; hole 8 }\n}',
  },
};
