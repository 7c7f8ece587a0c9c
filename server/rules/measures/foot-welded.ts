/** `foot.welded`: whether a foot is welded to the shell. */
import { front } from '../examples';
import { FOOT_GROUPS, footUses } from '../feet';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

const shown = (how: string): string =>
  front().replace('plate 140 x 100 x 3; bolts 3 x M8', `plate 160 x 160 x 4; ${how}`);

export const footWelded: Rule = {
  code: 'foot.welded',
  unit: '1',
  slack: 0,
  groups: FOOT_GROUPS,
  read: (car) =>
    footUses(car).map(({ foot, group }): Item => {
      const held = foot.welded ?? (foot.counterPlate?.held === 'welded' ? true : null);
      return held === null
        ? missing(foot.name, 'whether it is welded to the shell is not written: welded yes', { group })
        : reading(foot.name, held ? 1 : 0, '1', { foot: foot.name }, { fact: 'welded', group });
    }),
  mend: () => ({ says: 'weld its plate to the shell', ask: ', {book} wants that of a cage', params: {} }),
  explanation: {
    what: 'A foot of a cage is bolted only.',
    why: 'A cage takes loads from all sides into the floor: bolts work loose in thin sheet, a welded edge does not.',
    measured: 'The fact `welded` of the foot, or `welded` of its counter-plate.',
    mend: 'Weld the plate to the shell all round, and write `welded yes`.',
    stage: 'hoop',
    bad: `rules nhra\n${shown('welded no')}`,
    good: 'rules nhra',
  },
};
