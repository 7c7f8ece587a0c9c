/** Explanations of what is said about rulebooks and roles themselves. */
import { AS_WRITTEN } from './explanation';
import type { Explanation } from './explanation';

const STAY = (foot: string): string => `mirror left {
  node stay-top = on hoop at 60 before crown
  node stay-foot = ${foot}
  tube stay as backstay { section t38; path stay-top, stay-foot }
  foot stay-plate { at stay-foot; plate 100 x 80 x 3; lies square; bolts 2 x M8; hole 8 }
}`;
const STEEL = `rules scca-solo
material drawn { yield 360 MPa; tensile 480 MPa; kind drawn-over-mandrel }
section dom { od 45; wall 2.35; material drawn }
mirror left {
  node foot = (0, 600, 0)
  node crown = (0, 550, 1000)
  foot shoe { at foot; plate 140 x 100 x 3; bolts 3 x M8; hole 8 }
}
tube hoop as main-rollbar { section dom; die d45; path foot.left, crown.left, crown.right, foot.right }`;
const NO_BOOK = 'No rulebook: what the tool has to say about its own judging.';

export const RULEBOOKS = {
  'role.contradicts': {
    what: "A tube's role does not go with where it runs.",
    why: 'Books judge a tube by its role: under the wrong one the wrong rules are asked, and the right ones are not.',
    measured: 'The directions between its ends: along or across the car, forward or rearward, from side to side.',
    source: NO_BOOK,
    mend: 'Write the role that the tube has, or mend its path.',
    stage: 'hoop',
    bad: STAY('(700, 500, 300)'),
    good: STAY('(-700, 500, 300)'),
  },
  'rule.cannot-judge': {
    what: 'A rule of a chosen book cannot be judged, because a fact is not written.',
    why: 'A guess would be worth nothing to the scrutineer.',
    measured: AS_WRITTEN,
    source: NO_BOOK,
    mend: 'Write the fact; the message says which and how. Where it does not matter, waive it with the reason.',
    stage: 'parts',
    bad: STEEL,
    good: `vehicle { mass 640 kg without driver; body open }
${STEEL}`,
  },
  'rule.roll-bar': {
    what: 'The car has a roll bar, and a chosen book asks for a cage.',
    why: 'What passes here is no cage in the sense of that book: who needs one has to build one.',
    measured: 'No tube is a front rollbar, lateral rollbar, half-lateral or longitudinal member.',
    source: NO_BOOK,
    mend: 'Nothing is wrong with the bar. Choose a book about roll bars, or build the cage.',
    stage: 'hoop',
    bad: 'rules fia-253',
    good: 'rules scca-solo\nvehicle { mass 900 kg without driver }',
  },
  'rule.edition': {
    what: 'What has to be said about the text of the book that counts for this car.',
    why: 'Texts change by the day of homologation; some ask for more than the figures.',
    measured: "The day in the vehicle's `homologated`.",
    source: 'National guidance on the texts of 2016, 2020 and 2021 (seen).',
    mend: 'Ask the scrutineer which papers the car needs.',
    stage: 'hoop',
    bad: 'rules fia-253\nvehicle { homologated "2021-05-01" }',
    good: 'rules fia-253\nvehicle { homologated "2015-05-01" }',
  },
} as const satisfies Readonly<Record<string, Explanation>>;
