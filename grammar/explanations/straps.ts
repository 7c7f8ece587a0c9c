/** Explanations of straps and seats. The limits themselves stand in the books. */
import { ARITHMETIC, PRACTICE } from './explanation';
import type { Explanation } from './explanation';

/** A strap of the harness stage; the facts of it come between the braces. */
const strap = (facts: string): string => `strap outer { seat driver; ${facts} }`;
const GOOD = strap('slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5');

export const STRAPS = {
  'strap.misses-bar': {
    what: 'A strap does not meet the bar that it is led to.',
    why: 'It has nothing to hold on to.',
    measured: 'The whole width of the webbing, and its collars, against the bar between its ends.',
    source: ARITHMETIC,
    mend: 'Move the strap with `at y = …`, or lengthen the bar.',
    stage: 'harness',
    bad: strap('slot outer; to bar; at y = 900; width 75; hardware 110'),
    good: GOOD,
  },
  'strap.on-bend': {
    what: 'The webbing, or a collar beside it, lies on a bend of the bar.',
    why: 'On a bend webbing slides to the inside and folds; a collar does not close.',
    measured: "Over the full width of webbing and collars, to where the bend begins, along the bar's centreline.",
    source: PRACTICE,
    mend: 'Move the strap along the bar, or the bend away from it.',
    stage: 'hoop',
    bad: 'mirror left {\n  node bar-end = on hoop where z = 700\n  node bar-bend = (-100, 420, 700)\n}\ntube bar as harness-bar { section t38; die d38; path bar-end.left, bar-bend.left, bar-bend.right, bar-end.right }\nvent bar -> hoop { at bar-end.left; dia 5 }\nseat driver { slots (140, 300, 750); recline 10 deg; slot-spacing 220; back 45 }\nstrap outer { seat driver; slot outer; to bar; width 75; hardware 60 }',
    good: 'mirror left {\n  node bar-end = on hoop where z = 700\n  node bar-bend = (-100, 420, 700)\n}\ntube bar as harness-bar { section t38; die d38; path bar-end.left, bar-bend.left, bar-bend.right, bar-end.right }\nvent bar -> hoop { at bar-end.left; dia 5 }\nseat driver { slots (140, 200, 750); recline 10 deg; slot-spacing 220; back 45 }\nstrap outer { seat driver; slot outer; to bar; width 75; hardware 60; collars 20 gap 1.5 }',
  },
  'strap.overlap': {
    what: 'Two straps, or their collars, lie on the same part of a bar.',
    why: 'Webbing on webbing slips, and cannot be adjusted by itself.',
    measured: 'Along the bar, over the full width of webbing and collars.',
    source: ARITHMETIC,
    mend: 'Move one of them with `at y = …`.',
    stage: 'harness',
    bad: `${GOOD}\nstrap inner { seat driver; slot inner; to bar; at y = 316; width 75; hardware 110; collars 20 gap 1.5 }`,
    good: `${GOOD}\nstrap inner { seat driver; slot inner; to bar; width 75; hardware 110; collars 20 gap 1.5 }`,
  },
  'strap.can-slide': {
    what: 'Nothing keeps a strap from sliding along the bar.',
    why: 'In an oblique hit the strap slides off the shoulder.',
    measured: "From the webbing's edge to a collar or to the start of a bend, on either side: within 5 mm.",
    source:
      'Common practice; harness makers ask for stops on both sides of the webbing (seen in published installation notes).',
    mend: 'Write `collars 20 gap 1.5`, or a `collar` of its own beside the strap.',
    stage: 'harness',
    bad: strap('slot outer; to bar; width 75; hardware 110'),
    good: GOOD,
  },
  'strap.slot-edge': {
    what: "The straight run from the slot's front edge would go through the shell: the webbing lies on the rear edge of the slot.",
    why: 'The strap is measured from there, as a scrutineer would. The edge must be round, or it cuts the webbing.',
    measured:
      'The run from the lower front edge of the slot against its lower rear edge, one thickness of the shell behind it.',
    source: ARITHMETIC,
    mend: 'Nothing is wrong if the edge is rounded. A lower bar or a more upright seat lifts the webbing off the edge.',
    stage: 'harness',
    bad: 'seat thick { slots (240, -300, 750); recline 0 deg; slot-spacing 220; back 45 }\nstrap flat { seat thick; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
    good: 'strap clear { seat driver; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
  },
} as const satisfies Readonly<Record<string, Explanation>>;
