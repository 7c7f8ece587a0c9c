/** `tube.straight`: bends in members that books want straight. */
import { reading } from '../readings';
import type { Rule } from '../rule';

export const tubeStraight: Rule = {
  code: 'tube.straight',
  unit: '1',
  slack: 0,
  read: (car) =>
    car
      .of('backstay', 'diagonal')
      .map((member) =>
        reading(member.name, member.bends, '1', { tube: member.name }, { fact: 'path', group: member.tube.role }),
      ),
  mend: () => ({ says: 'run it straight from end to end', ask: ', {book} wants it straight', params: {} }),
  explanation: {
    what: 'A backstay or a diagonal is bent.',
    why: 'A bent tube gives way at its bend long before a straight one buckles.',
    measured: "The number of bends in the tube's path.",
    mend: 'Move its ends so that it runs straight.',
    stage: 'hoop',
    bad: 'rules fia-253\nmirror left {\n  node top = on hoop at 60 before crown\n  node knee = (-350, 520, 700)\n  node low = (-800, 510, 250)\n  tube stay as backstay { section t38; die d38; path top, knee, low; last open }\n}',
    good: 'rules fia-253\nmirror left {\n  node top = on hoop at 60 before crown\n  node low = (-800, 510, 250)\n  tube stay as backstay { section t38; path top, low; last open }\n}',
  },
};
