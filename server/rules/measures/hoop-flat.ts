/** `hoop.flat`: how far the hoop's axis lies out of one plane. */
import { FOUR_BENDS } from '../hoop-examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const hoopFlat: Rule = {
  code: 'hoop.flat',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car
      .mainHoops()
      .filter(({ figures }) => figures.plane !== null)
      .map(({ name, figures }) => reading(name, figures.outOfPlane, 'mm', { tube: name }, { fact: 'path' })),
  mend: () => ({
    says: 'bend it flat: put its nodes into one plane',
    ask: ', {book} wants it in one plane and names no tolerance; over {limit} is told',
    params: {},
  }),
  explanation: {
    what: "The main hoop's axis does not lie in one plane.",
    why: 'A hoop with a twist in it folds where it leaves its plane.',
    measured:
      'The greatest distance of the bent centreline from the plane that lies nearest to it. The book names no tolerance; less than 5 mm is not told.',
    mend: 'Place the nodes with `in PLANE (…)`, so that they lie in one plane.',
    stage: 'parts',
    bad: `rules fia-253\n${FOUR_BENDS('(40, 650, 500)')}`,
    good: `rules fia-253\n${FOUR_BENDS()}`,
  },
};
