/** `backstay.drop`: how far below the top of the main hoop a backstay meets it. */
import { stays } from '../examples';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

export const backstayDrop: Rule = {
  code: 'backstay.drop',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car.mainHoops().flatMap((hoop) => {
      const radius = (hoop.tube.section?.od ?? 0) / 2;
      return car.landedOn(hoop, 'backstay').map(({ member, end }): Reading => {
        const drop = hoop.figures.top + radius - end.at[2];
        return reading(member.name, drop, 'mm', { tube: member.name, hoop: hoop.name }, { fact: 'path' });
      });
    }),
  mend: (item, target) => ({
    says: 'join it {by} higher',
    params: { by: { value: item.measured.value - target, unit: 'mm' } },
  }),
  explanation: {
    what: 'A backstay meets the main hoop too far below its top.',
    why: 'What stands above the stay is free to fold over it.',
    measured:
      "In height, from the top of the hoop's outer surface to where the axes of brace and hoop meet: the text does not say which, this is the careful reading.",
    mend: 'Move its upper end up the hoop: `on main-hoop at 40 before crown`.',
    stage: 'hoop',
    bad: `rules scca-solo\n${stays('at 100 before crown')}`,
    good: `rules scca-solo\n${stays('at 30 after crown', '(-700, 400, 300)')}`,
  },
};
