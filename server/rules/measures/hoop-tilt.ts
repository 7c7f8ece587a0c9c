/** `hoop.tilt`: how far the main hoop's plane leans from upright, either way. */
import { degrees } from '../../../grammar/units';
import { TWO_BENDS } from '../hoop-examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const hoopTilt: Rule = {
  code: 'hoop.tilt',
  unit: 'deg',
  slack: 1e-6,
  read: (car) =>
    car.mainHoops().flatMap(({ name, figures: { plane } }) => {
      if (plane === null) return [];
      const lean = degrees(Math.asin(Math.min(1, Math.abs(plane.normal[2]))));
      return [reading(name, lean, 'deg', { tube: name }, { fact: 'path' })];
    }),
  mend: () => ({ says: 'set it more upright', params: {} }),
  explanation: {
    what: 'The main hoop leans too far from upright.',
    why: 'A hoop that leans is pushed over by a load from above instead of carrying it.',
    measured: 'The angle between the vertical and the plane that lies nearest to the bent centreline, either way.',
    mend: 'Lean the plane of the hoop less: `leans 6 deg aft`.',
    stage: 'parts',
    bad: `rules fia-253\n${TWO_BENDS('(-220, 550, 1000)')}`,
    good: `rules fia-253\n${TWO_BENDS('(-120, 550, 1000)')}`,
  },
};
