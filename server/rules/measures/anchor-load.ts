/** `anchor.load`: the load that an anchorage is proved for; straps that share one share it. */
import { anchorExample } from '../anchors';
import { distance } from '../../centreline/vector';
import type { Anchor } from '../../cage/cage';
import type { Item } from '../rule';
import { missing, missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

/** Two straps on one bolt, mm. */
const SAME = 5;

const together = (a: Anchor, b: Anchor): boolean =>
  a === b || (a.at !== null && b.at !== null && distance(a.at, b.at) <= SAME);

export const anchorLoad: Rule = {
  code: 'anchor.load',
  unit: 'N',
  slack: 0.5,
  read: (car): readonly Item[] => {
    const anchors = car.ofKind('anchor');
    if (anchors.length === 0)
      return car.seats().length === 0
        ? []
        : missingOfCar(
            car,
            'the anchorages of the lap and crotch straps are not written: anchor NAME as lap { seat …; at … }',
            {
              group: 'lap anchor',
            },
          );
    return anchors
      .filter(({ series }) => series !== true)
      .map((anchor) => {
        const group = anchor.as === null ? 'anchor' : `${anchor.as} anchor`;
        if (anchor.load === null)
          return missing(anchor.name, 'the load that it is proved for is not written: load 15 kN', { group });
        const straps = anchors.filter((other) => other.as === anchor.as && together(other, anchor)).length;
        return reading(anchor.name, anchor.load / straps, 'N', { anchor: anchor.name }, { fact: 'load', group });
      });
  },
  mend: () => ({ says: 'strengthen it', params: {} }),
  explanation: {
    what: 'An anchorage is not proved for the load that the book asks.',
    why: 'In a frontal hit each strap holds more than a ton.',
    measured:
      'The fact `load` of the anchor, divided by the number of straps of the same kind that share it. What the maker of the car put there (`series yes`) is not asked.',
    mend: 'Have it proved, or use a point that is.',
    stage: 'hoop',
    bad: `rules fia-253\n${anchorExample('load 12 kN')}`,
    good: `rules fia-253\n${anchorExample('load 15 kN')}`,
  },
};
