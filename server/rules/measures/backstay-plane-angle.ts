/** `backstay.plane-angle`: between the plane of the main hoop and the plane through both backstays. */
import { degrees } from '../../../grammar/units';
import { angleBetween } from '../../centreline/vector';
import { stays } from '../examples';
import { planeThrough } from '../flat';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const backstayPlaneAngle: Rule = {
  code: 'backstay.plane-angle',
  unit: 'deg',
  slack: 1e-6,
  read: (car) => {
    const hoop = car.mainHoops()[0];
    const plane = hoop?.figures.plane ?? null;
    const members = car.of('backstay');
    const of = planeThrough(members.flatMap(({ ends }) => [ends[0].at, ends[1].at]));
    const first = members[0];
    if (hoop === undefined || plane === null || of === null || first === undefined || members.length < 2) return [];
    const angle = degrees(angleBetween(plane.normal, of.normal));
    return [
      reading(first.name, Math.min(angle, 180 - angle), 'deg', { tube: first.name, hoop: hoop.name }, { fact: 'path' }),
    ];
  },
  mend: () => ({ says: 'move their feet away from the hoop', params: {} }),
  explanation: {
    what: 'The two backstays lie too nearly in the plane of the main hoop.',
    why: 'Braces in the plane of the hoop hold it neither forward nor back.',
    measured: 'Between the plane of the main hoop and the plane that lies nearest to the ends of all backstays.',
    mend: 'Move their feet away from the hoop.',
    stage: 'hoop',
    bad: `rules nasa-ccr\n${stays('at 60 before crown', '(-200, 500, 300)')}`,
    good: `rules fia-253\n${stays('at 60 before crown', '(-600, 500, 300)')}`,
  },
};
