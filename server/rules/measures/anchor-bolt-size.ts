/** `anchor.bolt-size`: the diameter of the bolts of anchorages. */
import { anchorExample, anchorFact } from '../anchors';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const anchorBoltSize: Rule = {
  code: 'anchor.bolt-size',
  unit: 'mm',
  slack: 0.03,
  read: (car) =>
    anchorFact(
      car,
      car.ofKind('anchor').filter(({ fixing }) => fixing !== 'wrap'),
      'the bolt of an anchor is not written: bolt 7/16 in grade 8',
      () => ({}),
      ({ name, bolt }) =>
        bolt === null ? null : reading(name, bolt.diameter, 'mm', { anchor: name }, { fact: 'bolt' }),
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
