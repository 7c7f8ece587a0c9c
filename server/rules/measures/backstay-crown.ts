/** `backstay.crown`: how far from the hoop's top corner bend a backstay meets it. */
import { stays } from '../examples';
import { each } from '../each';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const backstayCrown: Rule = {
  code: 'backstay.crown',
  unit: 'mm',
  slack: 1e-6,
  read: each(
    (car) => [...car.mainHoops(), ...car.hoops().filter(({ tube }) => tube.role === 'lateral-rollbar')],
    (hoop, car) => {
      const arcs = hoop.figures.crowns.filter((arc) => arc !== null);
      if (arcs.length === 0) return [];
      return car.landedOn(hoop, 'backstay').map(({ member, station }) => {
        const far = Math.min(
          ...arcs.map(({ start, length }) => Math.max(0, start - station, station - start - length)),
        );
        return reading(member.name, far, 'mm', { tube: member.name, hoop: hoop.name }, { fact: 'path' });
      });
    },
  ),
  mend: () => ({
    says: 'join it nearer to the corner',
    ask: ', {book} wants it near there; it names no figure, over {limit} is told',
    params: {},
  }),
  explanation: {
    what: 'A backstay meets the main hoop far from its top corner.',
    why: 'The load from above comes into the hoop at its corners; the stay should take it up there.',
    measured:
      "Along the hoop's bent centreline, from the joint to the nearest end of the top corner's bend. The book names no figure; 100 mm is the one that it uses for diagonals.",
    mend: 'Move its upper end along the hoop: `on main-hoop at 40 before crown`.',
    stage: 'hoop',
    bad: `rules fia-253\n${stays('at 150 before crown')}`,
    good: `rules fia-253\n${stays('at 60 before crown')}`,
  },
};
