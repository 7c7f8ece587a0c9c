/** `tube.same-as-hoop`: members that a book wants of the main hoop's own size. */
import { figure } from '../../geometry/tell';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const tubeSameAsHoop: Rule = {
  code: 'tube.same-as-hoop',
  unit: 'mm',
  // Sizes in inches and their metric roundings are the same tube.
  slack: 0.06,
  read: (car) => {
    const hoop = car.mainHoops()[0]?.tube.section ?? null;
    if (hoop === null) return [];
    return car.of('backstay', 'diagonal').flatMap(({ tube, name }) => {
      const { section } = tube;
      if (section === null) return [];
      const off = Math.max(Math.abs(section.od - hoop.od), Math.abs(section.wall - hoop.wall));
      const params = {
        tube: name,
        size: '{od#} x {wall}',
        od: figure(section.od, 'mm'),
        wall: figure(section.wall, 'mm'),
        hoopSize: '{hoopOd#} x {hoopWall}',
        hoopOd: figure(hoop.od, 'mm'),
        hoopWall: figure(hoop.wall, 'mm'),
      };
      return [reading(name, off, 'mm', params, { fact: 'section', group: tube.role })];
    });
  },
  mend: () => ({ says: "use the main hoop's tube", ask: ', {book} wants the same size', params: {} }),
  explanation: {
    what: 'A backstay or diagonal is not of the same tube as the main hoop.',
    why: 'The hoop is only as stiff as what holds it.',
    measured:
      'Outside diameter and wall against those of the main hoop; 0.06 mm of rounding between inches and metric is nothing.',
    mend: "Use the main hoop's section.",
    stage: 'hoop',
    bad: 'rules nhra\nmirror left {\n  node top = on hoop at 60 before crown\n  node low = (-600, 500, 300)\n  tube stay as backstay { section t38; path top, low; last open }\n}',
    good: 'rules nhra\nmirror left {\n  node top = on hoop at 60 before crown\n  node low = (-600, 500, 300)\n  tube stay as backstay { section t45; path top, low; last open }\n}',
  },
};
