/** `anchor.bolt-size`: the diameter of the bolts of anchorages. */
import { anchorExample } from '../anchors';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const anchorBoltSize: Rule = {
  code: 'anchor.bolt-size',
  unit: 'mm',
  slack: 0.03,
  read: (car) =>
    car
      .ofKind('anchor')
      .filter(({ fixing }) => fixing !== 'wrap')
      .map((anchor) =>
        anchor.bolt === null
          ? missing(anchor.name, 'its bolt is not written: bolt 7/16 in 8')
          : reading(anchor.name, anchor.bolt.diameter, 'mm', { anchor: anchor.name }, { fact: 'bolt' }),
      ),
  mend: () => ({ says: 'use a larger one', params: {} }),
  explanation: {
    what: 'The bolt of an anchorage is thin.',
    why: 'All that holds the driver hangs on it, and in single shear it is bent as well.',
    measured: 'The diameter of the fact `bolt` of the anchor.',
    mend: 'Use 7/16-20 UNF of grade 5 or better, or a metric bolt of 8.8 no thinner.',
    stage: 'hoop',
    bad: `rules harness-makers\n${anchorExample('bolt M10 8.8')}`,
    good: `rules harness-makers\n${anchorExample('bolt M12 8.8')}`,
  },
};
