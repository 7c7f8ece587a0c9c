/** `foot.count`: the number of plates that the cage stands on. */
import { reading } from '../readings';
import type { Rule } from '../rule';

const nine = (count: number): string =>
  Array.from(
    { length: count },
    (_, i) =>
      `node p${String(i)} = (${String(200 + 200 * i)}, 0, 0)\nnode q${String(i)} = (${String(200 + 200 * i)}, 0, 300)\ntube t${String(i)} { section t38; path p${String(i)}, q${String(i)}; last open }\nfoot f${String(i)} { at p${String(i)}; plate 140 x 100 x 5; bolts 3 x 10 mm; hole 8 }`,
  ).join('\n');

export const footCount: Rule = {
  code: 'foot.count',
  unit: '1',
  slack: 0,
  read: (car) => {
    const feet = car.feet();
    const chief = car.chief();
    return chief === null || feet.length === 0 ? [] : [reading(chief.name, feet.length, '1', {})];
  },
  mend: () => ({ says: 'mind the class that the car runs in', params: {} }),
  explanation: {
    what: 'The cage stands on more plates than some classes allow.',
    why: 'More mountings make a stiffer shell, which classes near to the road car do not want.',
    measured: 'The number of feet.',
    mend: 'Look up the class; leave mountings out.',
    stage: 'parts',
    bad: `rules scca-gcr\n${nine(9)}`,
    good: `rules fia-253\n${nine(8)}`,
  },
};
