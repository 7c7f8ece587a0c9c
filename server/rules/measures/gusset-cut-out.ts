/** `gusset.cut-out`: the radius of a gusset's cut-out, in diameters of the larger tube. */
import { gussetExample, gussetUses } from '../gussets';
import { figure } from '../../geometry/tell';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const gussetCutOut: Rule = {
  code: 'gusset.cut-out',
  unit: '1',
  slack: 1e-6,
  read: (car) =>
    gussetUses(car).flatMap(({ gusset, larger }) =>
      larger === null || gusset.cutOut === null
        ? []
        : [
            reading(
              gusset.name,
              gusset.cutOut / larger,
              '1',
              { gusset: gusset.name, radius: figure(gusset.cutOut, 'mm'), od: figure(larger, 'mm') },
              { fact: 'cut-out' },
            ),
          ],
    ),
  mend: (item, target, car) => {
    const od = gussetUses(car).find(({ gusset }) => gusset.name === item.subject)?.larger ?? 0;
    return { says: 'make its radius {to} or less', params: { to: figure(Math.floor(od * target), 'mm') } };
  },
  explanation: {
    what: 'The cut-out at the apex of a gusset is too large.',
    why: 'What is cut away there is what holds the corner.',
    measured:
      'The radius as it is written, against the outside diameter of the larger tube. A gusset without one is in order.',
    mend: 'Cut less away.',
    stage: 'hoop',
    bad: `rules fia-253\n${gussetExample('legs 120 x 120; kind sheet; thickness 1.5; cut-out 70')}`,
    good: `rules fia-253\n${gussetExample('legs 120 x 120; kind sheet; thickness 1.5; cut-out 60')}`,
  },
};
