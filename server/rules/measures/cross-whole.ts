/** `cross.whole`: of the two legs of a cross one runs through in one piece. */
import { crossesOf, crossExample } from '../crosses';
import { reading } from '../readings';
import type { Rule } from '../rule';

const QUARTERS = `mirror left {
  node x-high = on hoop at 110 before crown
  node x-low = on hoop at 70 from foot
}
node heart = between x-high.left and x-low.right at 50 %
tube upper as diagonal { section t38; path x-high.left, heart }
tube lower as diagonal { section t38; path heart, x-low.right }
tube one as diagonal { section t38; path x-high.right, heart }
tube other as diagonal { section t38; path heart, x-low.left }
joint heart { order upper, one, other, lower }`;

export const crossWhole: Rule = {
  code: 'cross.whole',
  unit: '1',
  slack: 0,
  read: (car) =>
    crossesOf(car).flatMap(({ crossing, group }) => {
      if (crossing === null) return [];
      const { through, split } = crossing;
      const whole = [through, split].filter(({ members: [first, ...rest] }) => rest.length === 0 && first.pieces === 1);
      const params = { first: through.name, second: split.name };
      return [reading(split.name, whole.length, '1', params, { fact: 'path', group })];
    }),
  mend: () => ({
    says: 'let one of them run through in one piece',
    ask: ', {book} wants one leg of a cross whole',
    params: {},
  }),
  explanation: {
    what: 'Both legs of a cross are made of pieces.',
    why: 'A cross of four pieces hangs on its welds in the middle; the leg that runs through carries it.',
    measured: 'Of the two legs, how many are one tube that is not split.',
    mend: 'Write one leg as one tube, and split the other by it.',
    stage: 'hoop',
    bad: `rules fia-253\n${QUARTERS}`,
    good: `rules fia-253\n${crossExample()}`,
  },
};
