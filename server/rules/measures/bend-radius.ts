/** `bend.radius`: the centreline radius of the die against the tube that it bends. */
import { figure } from '../../geometry/tell';
import { each } from '../each';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const bendRadius: Rule = {
  code: 'bend.radius',
  unit: 'mm',
  // Dies are named in round figures: half a millimetre is no matter.
  slack: 0.5,
  read: each(
    (car) => car.members(),
    ({ tube, name, bends }) => {
      if (tube.die === null || tube.section === null || bends === 0) return [];
      const least = 3 * tube.section.od;
      const params = { tube: name, die: tube.die.name, limit: figure(least, 'mm') };
      return [
        reading(name, tube.die.radius, 'mm', params, {
          fact: 'die',
          limit: { from: least, to: null },
        }),
      ];
    },
  ),
  mend: () => ({ says: '', ask: ', which {book} wants', params: {} }),
  explanation: {
    what: 'The die bends at less than three times the outside diameter.',
    why: 'The outer wall thins, the section flattens, the inner wall may ripple.',
    measured:
      "The die's centreline radius against 3 x od, with 0.5 mm of slack. Told as practice where no chosen book asks for it.",
    mend: 'Use a die of larger radius.',
    stage: 'parts',
    bad: 'die tight { od 38; radius 100 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 600)\nnode c = (600, 0, 600)\ntube t { section t38; die tight; path a, b, c; first open; last open }',
    good: 'die wide { od 38; radius 114 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 600)\nnode c = (600, 0, 600)\ntube t { section t38; die wide; path a, b, c; first open; last open }',
  },
};
