/** `hoop.front-foot`: where the front foot of a hoop stands against its foremost point. */
import { front } from '../examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const hoopFrontFoot: Rule = {
  code: 'hoop.front-foot',
  unit: 'mm',
  slack: 1,
  read: (car) =>
    car
      .hoops()
      .filter(({ tube }) => tube.role !== 'main-rollbar')
      .flatMap((hoop) => {
        const feet = hoop.ends.filter(({ foot }) => foot !== null).sort((a, b) => b.at[0] - a.at[0]);
        const foot = feet[0];
        if (foot === undefined) return [];
        const foremost = Math.max(
          ...hoop.line.pieces.flatMap((piece) => (piece.kind === 'leg' ? [piece.from[0], piece.to[0]] : [])),
        );
        return [reading(hoop.name, Math.max(0, foremost - foot.at[0]), 'mm', { tube: hoop.name }, { fact: 'path' })];
      }),
  mend: () => ({
    says: 'set the foot under its foremost point or ahead of it',
    ask: ', {book} wants it no farther back',
    params: {},
  }),
  explanation: {
    what: 'The front foot of a hoop stands behind the foremost point of the hoop.',
    why: 'A leg that runs back to its foot is bent over in a frontal hit.',
    measured: 'In side view, from the foot to the foremost point of the straight legs.',
    mend: 'Move the foot forward.',
    stage: 'hoop',
    bad: `rules fia-253\n${front('(1100, 600, 500)', '(1000, 610, 0)')}`,
    good: `rules fia-253\n${front('(900, 600, 500)', '(1000, 610, 0)')}`,
  },
};
