/** `gusset.hole`: the hole in a gusset's flat side, in diameters of the larger tube. */
import { gussetExample, gussetUses } from '../gussets';
import { figure } from '../../geometry/tell';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const gussetHole: Rule = {
  code: 'gusset.hole',
  unit: '1',
  slack: 1e-6,
  read: (car) =>
    gussetUses(car).flatMap(({ gusset, larger }) =>
      larger === null || gusset.hole === null
        ? []
        : [
            reading(
              gusset.name,
              gusset.hole / larger,
              '1',
              { gusset: gusset.name, hole: figure(gusset.hole, 'mm'), od: figure(larger, 'mm') },
              { fact: 'hole' },
            ),
          ],
    ),
  mend: (item, target, car) => {
    const od = gussetUses(car).find(({ gusset }) => gusset.name === item.subject)?.larger ?? 0;
    return { says: 'drill {to} or less', params: { to: figure(Math.floor(od * target), 'mm') } };
  },
  explanation: {
    what: 'The hole in the flat side of a gusset is too large.',
    why: 'The sheet around it folds.',
    measured:
      'The diameter as it is written, against the outside diameter of the larger tube. One hole in each side can be written.',
    mend: 'Drill it smaller.',
    stage: 'hoop',
    bad: `rules fia-253\n${gussetExample('legs 120 x 120; kind sheet; thickness 1.5; hole 50')}`,
    good: `rules fia-253\n${gussetExample('legs 120 x 120; kind sheet; thickness 1.5; hole 40')}`,
  },
};
