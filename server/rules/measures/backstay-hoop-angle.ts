/** `backstay.hoop-angle`: between a backstay and the main hoop, the smaller of two readings of "included angle". */
import { degrees } from '../../../grammar/units';
import { angleBetween, dot, sub, unit } from '../../centreline/vector';
import type { Hoop, Member } from '../car';
import { stays } from '../examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** To the hoop's plane, and in side view to the hoop's own lean: the smaller of the two, degrees. */
function between(member: Member, hoop: Hoop): number | null {
  const { plane } = hoop.figures;
  if (plane === null) return null;
  const axis = unit(sub(member.ends[1].at, member.ends[0].at));
  const toPlane = degrees(Math.asin(Math.min(1, Math.abs(dot(axis, plane.normal)))));
  // The hoop's line in side view: across its normal, in the x-z plane.
  const leg = unit([-plane.normal[2], 0, plane.normal[0]]);
  const inSide = unit([axis[0], 0, axis[2]]);
  const side = degrees(angleBetween(leg, inSide));
  return Math.min(toPlane, side, 180 - side);
}

export const backstayHoopAngle: Rule = {
  code: 'backstay.hoop-angle',
  unit: 'deg',
  slack: 1e-6,
  read: (car) => {
    const hoop = car.mainHoops()[0];
    if (hoop === undefined) return [];
    return car.of('backstay').flatMap((member) => {
      const angle = between(member, hoop);
      return angle === null ? [] : [reading(member.name, angle, 'deg', { tube: member.name }, { fact: 'path' })];
    });
  },
  mend: () => ({ says: 'move its foot away from the hoop', params: {} }),
  explanation: {
    what: 'A brace stands too close along the main hoop.',
    why: 'A brace that lies along the hoop holds it neither forward nor back.',
    measured: "The smaller of the angle to the hoop's plane and, in side view, that to the hoop's own lean.",
    mend: 'Move its foot away from the hoop.',
    stage: 'hoop',
    bad: `rules scca-solo\n${stays('at 60 before crown', '(-200, 500, 300)')}`,
    good: `rules scca-solo\n${stays('at 60 before crown', '(-600, 500, 300)')}`,
  },
};
