/** `anchor.shared`: how many shoulder straps share one anchorage. */
import { anchorExample } from '../anchors';
import { distance } from '../../centreline/vector';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** Two straps on one bolt, mm. */
const SAME = 5;

export const anchorShared: Rule = {
  code: 'anchor.shared',
  unit: '1',
  slack: 0,
  read: (car) => {
    const shoulders = car.ofKind('anchor').filter(({ as, at }) => as === 'shoulder' && at !== null);
    return shoulders.map((anchor) => {
      const here = shoulders.filter(({ at }) => at !== null && anchor.at !== null && distance(at, anchor.at) <= SAME);
      return reading(anchor.name, here.length, '1', { anchor: anchor.name }, { fact: 'at' });
    });
  },
  mend: () => ({ says: 'give each strap its own', params: {} }),
  explanation: {
    what: 'Two shoulder straps share one anchorage.',
    why: 'What holds one fails with both.',
    measured:
      'Anchors `as shoulder` within 5 mm of each other. Two straps on one place of a bar are told by strap.overlap.',
    mend: 'Give each strap its own.',
    stage: 'hoop',
    bad: `rules fia-253\n${anchorExample('load 15 kN', 'shoulder')}\nanchor inner as shoulder { seat driver; at (200, 520, 120) }`,
    good: `rules fia-253\n${anchorExample('load 15 kN', 'shoulder')}\nanchor inner as shoulder { seat driver; at (200, 320, 120) }`,
  },
};
