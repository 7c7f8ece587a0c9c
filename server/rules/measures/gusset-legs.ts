/** `gusset.legs`: how far a gusset reaches along its tubes, in diameters of the larger one. */
import { gussetExample, gussetUses } from '../gussets';
import { figure } from '../../geometry/tell';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

export const gussetLegs: Rule = {
  code: 'gusset.legs',
  unit: '1',
  slack: 1e-6,
  read: (car) =>
    gussetUses(car).flatMap(({ gusset, larger }): readonly Item[] => {
      if (larger === null) return [];
      const { legs, between } = gusset;
      if (legs === null) return [missing(gusset.name, 'how far it reaches is not written: legs 120 x 120')];
      return legs.map((reach, i) =>
        reading(
          gusset.name,
          reach / larger,
          '1',
          { gusset: gusset.name, tube: between?.[i] ?? '', reach: figure(reach, 'mm'), od: figure(larger, 'mm') },
          { fact: 'legs' },
        ),
      );
    }),
  mend: (item, target, car) => {
    const od = gussetUses(car).find(({ gusset }) => gusset.name === item.subject)?.larger ?? 0;
    const to = item.measured.value < target ? Math.ceil(od * target) : Math.floor(od * target);
    return {
      says: item.measured.value < target ? 'make that leg {to~}' : 'make that leg {to}',
      params: { to: figure(to, 'mm') },
    };
  },
  explanation: {
    what: 'A gusset ends too near to the corner of its tubes, or too far from it.',
    why: 'A short one does not hold the corner; a long one buckles, and stiffens the tube where it should give.',
    measured:
      'Each leg as it is written, from the corner of the axes along the tube, against the outside diameter of the larger tube.',
    mend: 'Change its legs.',
    stage: 'hoop',
    bad: `rules fia-253\n${gussetExample('legs 80 x 120; kind sheet; thickness 1.5')}`,
    good: `rules fia-253\n${gussetExample('legs 120 x 120; kind sheet; thickness 1.5')}`,
  },
};
