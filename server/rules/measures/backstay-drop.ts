/** `backstay.drop`: how far below the top of the main hoop a backstay meets it. */
import { figure } from '../../geometry/tell';
import { stays } from '../examples';
import { each } from '../each';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

export const backstayDrop: Rule = {
  code: 'backstay.drop',
  unit: 'mm',
  slack: 1e-6,
  read: each(
    (car) => car.mainHoops(),
    (hoop, car) => {
      const radius = (hoop.tube.section?.od ?? 0) / 2;
      return car.landedOn(hoop, 'backstay').map(({ member, end }): Reading => {
        const drop = hoop.figures.top + radius - end.at[2];
        const params = { tube: member.name, hoop: hoop.name, axes: figure(drop - radius, 'mm') };
        return reading(member.name, drop, 'mm', params, { fact: 'path' });
      });
    },
  ),
  mend: (item, target) => ({
    says: 'join it {by~} higher',
    params: { by: { value: item.measured.value - target, unit: 'mm' } },
  }),
  explanation: {
    what: 'A backstay meets the main hoop too far below its top.',
    why: 'What stands above the stay is free to fold over it.',
    measured:
      "In height, from the top of the hoop's outer surface to where the axes of brace and hoop meet: the texts do not say which, this is the careful reading; the height from axis to axis stands beside it.",
    mend: 'Move its upper end up the hoop: `on main-hoop at 40 before crown`.',
    stage: 'hoop',
    bad: `rules scca-solo\n${stays('at 100 before crown')}`,
    good: `rules scca-solo\n${stays('at 30 after crown', '(-700, 400, 300)')}`,
  },
};
