/** `fitting.bush`: a backstay that stands on a single bolt: double shear, and a bush in the tube. */
import { stays } from '../examples';
import { fittingUses } from '../fittings';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

const single = (shear: string, bush: string): string =>
  `${stays().replace('; bolts 2 x M8', '')}\nmirror left { fitting pin { tube stay last; kind clevis; shear ${shear}; bush ${bush}; bolt M12 8.8 } }`;

export const fittingBush: Rule = {
  code: 'fitting.bush',
  unit: '1',
  slack: 0,
  groups: ['backstay'],
  read: (car) =>
    fittingUses(car).flatMap(({ fitting, member, end }): readonly Item[] => {
      const count = fitting.bolt?.count ?? 1;
      if (member.tube.role !== 'backstay' || end !== car.upDown(member)[1] || count > 1) return [];
      const { shear, bush } = fitting;
      if (shear === null || bush === null)
        return [
          missing(fitting.name, 'how its bolt is held is not written: shear double; bush yes', { group: 'backstay' }),
        ];
      const word = `${shear} shear ${bush ? 'with' : 'without'} a bush`;
      return [
        reading(fitting.name, 1, '1', { fitting: fitting.name, tube: member.name, word }, { group: 'backstay', word }),
      ];
    }),
  mend: () => ({ says: 'hold the bolt on both sides, and weld a bush for it into the tube', params: {} }),
  explanation: {
    what: "The single bolt at the foot of a backstay is held on one side only, or bears on the tube's thin wall.",
    why: 'A bolt in single shear bends; without a bush it cuts through the wall.',
    measured:
      'The facts `shear` and `bush` of a fitting with one bolt at the lower end of a backstay. Whether the bolt is of adequate size is not judged.',
    mend: 'Use a clevis with a welded bush.',
    stage: 'hoop',
    bad: `rules fia-253\n${single('single', 'yes')}`,
    good: `rules fia-253\n${single('double', 'yes')}`,
  },
};
