/** `padding.missing`: whether a tube at the roof is padded. */
import { asksForPadding, paddedRoof, paddingGroup } from '../padding';
import type { Item } from '../rule';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

const FACTS = '{ thickness 25; standard fia 8857; fixed yes }';
const ALL = `  padding v ${FACTS}\n  padding side ${FACTS}\n}\npadding hoop ${FACTS}\npadding header ${FACTS}\nmirror left {\n  node unused = (0, 10, 0)\n`;

export const paddingMissing: Rule = {
  code: 'padding.missing',
  unit: '1',
  slack: 0,
  read: (car): readonly Item[] => {
    const paddings = car.ofKind('padding');
    const wanting = car.members().flatMap((member) => {
      const group = paddingGroup(car, member);
      return group === 'elsewhere' || !asksForPadding(car, member) ? [] : [{ member, group }];
    });
    if (wanting.length === 0) return [];
    if (paddings.length === 0)
      return missingOfCar(car, 'no padding is written: padding TUBE { thickness 25; standard fia 8857 }', {
        group: wanting[0]?.group ?? 'elsewhere',
      });
    return wanting.map(({ member, group }) => {
      const own = paddings.filter(({ tube }) => tube !== null && tube.replace(/\.[ab]$/, '') === member.name);
      return reading(member.name, own.length, '1', { tube: member.name }, { group });
    });
  },
  mend: () => ({
    says: 'padding {tube} { thickness 25; standard fia 8857 }',
    ask: ', {book} wants it padded',
    params: {},
  }),
  explanation: {
    what: 'A tube at the roof, or within reach of a helmet, has no padding.',
    why: 'In a roll the head meets the tubes of the roof first.',
    measured:
      "Tubes `as roof-bar`; hoops and members whose highest point lies in the top 15 % of the main hoop's height; and tubes within 150 mm of a helmet. Which tubes the drawing marks was not seen. With nobody beside the driver only his side is asked.",
    mend: 'Pad the tube, and write it.',
    stage: 'hoop',
    bad: `rules fia-253\n${paddedRoof(ALL.replace(/ {2}padding v .*\n/, ''))}`,
    good: `rules fia-253\n${paddedRoof(ALL)}`,
  },
};
