/** `backstay.angle`: between a backstay and the vertical, in side view. */
import { degrees } from '../../../grammar/units';
import { stays } from '../examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const backstayAngle: Rule = {
  code: 'backstay.angle',
  unit: 'deg',
  slack: 1e-6,
  read: (car) =>
    car.of('backstay').map((member) => {
      const [up, down] = car.upDown(member);
      const angle = degrees(Math.atan2(Math.abs(up.at[0] - down.at[0]), Math.abs(up.at[2] - down.at[2])));
      return reading(member.name, angle, 'deg', { tube: member.name }, { fact: 'path' });
    }),
  mend: (item, target, car) => {
    const member = car.member(item.subject);
    if (member === null) return { says: 'move its foot aft', params: {} };
    const [up, down] = car.upDown(member);
    const height = up.at[2] - down.at[2];
    const more = height * Math.tan((target * Math.PI) / 180) - Math.abs(up.at[0] - down.at[0]);
    return { says: 'move its foot {by~} aft', params: { by: { value: Math.max(0, more), unit: 'mm' } } };
  },
  explanation: {
    what: 'A backstay stands too steeply.',
    why: 'A stay that is nearly upright holds the hoop neither forward nor back.',
    measured:
      'In side view, between the vertical and the line from its upper end to its lower one. The text does not name the view; side view is the careful reading.',
    mend: 'Move its foot aft, or raise it.',
    stage: 'hoop',
    bad: `rules fia-253\n${stays('at 60 before crown', '(-200, 500, 300)')}`,
    good: `rules fia-253\n${stays('at 60 before crown', '(-500, 500, 300)')}`,
  },
};
