/** Explanations of straps and seats. The limits themselves stand in the books. */
import { ARITHMETIC, PRACTICE } from './explanation';
import type { Explanation } from './explanation';

/** A strap of the harness stage; the facts of it come between the braces. */
const strap = (facts: string): string => `strap outer { seat driver; ${facts} }`;
const GOOD = strap('slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5');
const BOOKS = 'The chosen rulebooks; their limits stand below.';

export const STRAPS = {
  'strap.drop': {
    what: 'A shoulder strap runs too steeply down from the seat to the bar, or runs up.',
    why: 'In a frontal hit a steep strap loads the spine lengthwise; one that runs up lets the shoulders rise.',
    measured:
      "In side view, below horizontal, along the straight run from the slot's edge to where the webbing first touches the bar. Some books measure from the shoulder instead: that figure stands beside it.",
    source: BOOKS,
    mend: 'Raise or lower the bar; a bar farther aft makes the strap flatter too. Reclining the seat moves the slot.',
    stage: 'harness',
    bad: 'seat low { slots (240, -300, 778); recline 20 deg; slot-spacing 220; back 45 }\nstrap steep { seat low; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
    good: 'seat low { slots (240, -300, 755); recline 20 deg; slot-spacing 220; back 45 }\nstrap flat { seat low; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
  },
  'strap.spread': {
    what: "A strap runs too far off the seat's centreline in plan view.",
    why: 'A strap that runs wide slips off the shoulder; one that runs in presses on the neck.',
    measured: "In plan view, between the run and the seat's own centreline; positive away from the seat's middle.",
    source: BOOKS,
    mend: 'Move the strap along the bar with `at y = …`, toward straight behind its slot.',
    stage: 'harness',
    bad: strap('slot inner; to bar; at y = 90; width 75; hardware 110; collars 20 gap 1.5'),
    good: strap('slot inner; to bar; at y = 150; width 75; hardware 110; collars 20 gap 1.5'),
  },
  'strap.skew': {
    what: 'A strap does not meet the bar square.',
    why: 'Webbing walks along the bar until it bunches up at the collar, and then its edge carries the load.',
    measured: 'Between the run and the plane across the bar where the strap lies.',
    source: BOOKS,
    mend: 'Move the strap along the bar, or turn the bar there so that it runs across the strap.',
    stage: 'harness',
    bad: strap('slot inner; to bar; at y = 90; width 75; hardware 110; collars 20 gap 1.5'),
    good: strap('slot inner; to bar; at y = 150; width 75; hardware 110; collars 20 gap 1.5'),
  },
  'strap.free-run': {
    what: 'There is too little straight run between the seat and the bar for the adjuster and the slider.',
    why: 'An adjuster that touches the bar or the shell bends, jams, or cannot be pulled tight.',
    measured:
      "Along the run, from the rear face of the shell to the vertical plane that touches the bar's front, or to the contact if that comes sooner.",
    source: "The strap's own `hardware`.",
    mend: 'Move the bar aft, or the seat forward; or use shorter hardware.',
    stage: 'harness',
    bad: strap('slot outer; to bar; width 75; hardware 200; collars 20 gap 1.5'),
    good: GOOD,
  },
  'strap.length': {
    what: 'A strap is long between the slot and the bar.',
    why: 'Webbing stretches in proportion to its length: the driver moves farther before it holds.',
    measured: "From the slot's edge to where the webbing touches the bar.",
    source: BOOKS,
    mend: 'Move the bar nearer to the seat, as far as the hardware allows.',
    stage: 'harness',
    bad: 'seat far { slots (400, -300, 760); recline 10 deg; slot-spacing 220; back 45 }\nstrap long { seat far; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
    good: 'seat near { slots (240, -300, 740); recline 10 deg; slot-spacing 220; back 45 }\nstrap short { seat near; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
  },
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
  'seat.gap': {
    what: 'A tube is close behind the back of a seat.',
    why: 'A slide or adjuster has to pass, and the shell moves back in a hit: it must not strike the tube.',
    measured:
      "The shortest distance from the shell's rear rectangle, 60 mm beyond the slots' lower rear edges on each side and along the back, to the nearest tube.",
    source: BOOKS,
    mend: 'Move the tube aft or the seat forward.',
    stage: 'harness',
    bad: 'seat near { slots (90, -300, 750); recline 10 deg; slot-spacing 220; back 45 }',
    good: 'seat free { slots (240, -300, 750); recline 10 deg; slot-spacing 220; back 45 }',
  },
} as const satisfies Readonly<Record<string, Explanation>>;
