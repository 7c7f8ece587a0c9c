/** `gusset.missing`: the gussets at a crossing or junction where a book wants some. */
import { crossesOf, crossExample, gussetsAt } from '../crosses';
import { pointWords } from '../points';
import { reading } from '../readings';
import type { Rule } from '../rule';

const GUSSET = (name: string): string =>
  `\ngusset ${name} { at heart; between long, short; legs 110 x 110; thickness 1.5; kind sheet }`;

export const gussetMissing: Rule = {
  code: 'gusset.missing',
  unit: '1',
  slack: 0,
  read: (car) =>
    crossesOf(car).map((cross) => {
      const at = pointWords('at', cross.at);
      const params = { first: cross.first, second: cross.second, ...at.params };
      return reading(cross.second, gussetsAt(car, cross), '1', params, { fact: 'path', group: cross.group });
    }),
  mend: () => ({
    says: 'gusset NAME { at NODE; between {first}, {second}; legs …; thickness … } at ({atX#}, {atY#}, {atZ#})',
    params: {},
  }),
  explanation: {
    what: 'Where two bars cross, or a door bar joins a pillar bar, there are fewer gussets than the book wants.',
    why: 'The leg that is cut there hangs on its welds alone; gussets tie it to the one that runs through.',
    measured:
      'Gussets between the two tubes whose node lies within 80 mm of where the axes are nearest. Crossings are those of which one leg is split by the other.',
    mend: 'Add gussets in opposite corners of the cross.',
    stage: 'hoop',
    bad: `rules fia-253\n${crossExample(GUSSET('upper'))}`,
    good: `rules fia-253\n${crossExample(`${GUSSET('upper')}${GUSSET('lower')}`)}`,
  },
};
