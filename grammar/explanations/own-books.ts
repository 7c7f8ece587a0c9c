/** Explanations of what is said about a club's own rulebook. */
import { AS_WRITTEN, LANGUAGE } from './explanation';
import type { Explanation } from './explanation';

const NOT_TAKEN = 'A limit that is not understood judges nothing; what the base says stays in its place.';
const club = (lines: string): string => `rulebook heron-club based on fia-253 { ${lines} }`;

export const OWN_BOOKS = {
  'rulebook.built-in': {
    what: 'A rulebook has the name of one that the tool brings.',
    why: 'A scrutineer who reads that name means the published book. The one that is written here does not count.',
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Give it a name of its own, and base it on the other one.',
    stage: 'empty',
    bad: 'rulebook fia-253 { limit strap.drop from 0 to 20 }',
    good: 'rulebook heron-club based on fia-253 { limit strap.drop from 0 to 20 }',
  },
  'rulebook.code': {
    what: 'A rulebook limits or drops something that the tool does not measure.',
    why: NOT_TAKEN,
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Write the code of a quantity; completion lists them, and each finding of a book begins with its own.',
    stage: 'empty',
    bad: club('limit strap.dropp from 0 to 20'),
    good: club('limit strap.drop from 0 to 20'),
  },
  'rulebook.group': {
    what: 'A limit is meant for things that are not told apart for its quantity.',
    why: NOT_TAKEN,
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Write one of the groups that the message names, or leave `of` out: then it holds for all.',
    stage: 'empty',
    bad: club('limit foot.area from 120 cm2 of "hoop feet"'),
    good: club('limit foot.area from 120 cm2 of "hoop foot"'),
  },
  'rulebook.no-range': {
    what: 'A quantity that goes by a table or by words is limited by a range.',
    why: 'Diameter and wall are judged as a pair, materials by their kind: one figure says neither.',
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Leave the line out, and what the base says holds; where it goes by words, write others with `accept`; or drop the quantity, and the scrutineer looks at it.',
    stage: 'empty',
    bad: club('limit tube.size from 40'),
    good: club('drop tube.size'),
  },
  'rulebook.word': {
    what: 'A rulebook accepts a word that the tool does not know of that quantity.',
    why: NOT_TAKEN,
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Write one of the words that the message names.',
    stage: 'empty',
    bad: club('accept tube.material "stainless"'),
    good: club('accept tube.material "cold-drawn seamless", "drawn over mandrel"'),
  },
  'rulebook.range': {
    what: 'A limit goes from a larger figure to a smaller one.',
    why: 'No car could keep it.',
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Write the smaller figure first.',
    stage: 'empty',
    bad: club('limit strap.drop from 20 to 0'),
    good: club('limit strap.drop from 0 to 20'),
  },
  'rulebook.nothing-to-drop': {
    what: 'A rulebook drops a quantity that its base does not limit.',
    why: 'The line does nothing: another quantity is meant, or another base.',
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Leave the line out, or drop the quantity that is meant. `explain CODE` says which books limit it.',
    stage: 'empty',
    bad: club('drop strap.gap'),
    good: club('drop strap.spread'),
  },
} as const satisfies Readonly<Record<string, Explanation>>;
