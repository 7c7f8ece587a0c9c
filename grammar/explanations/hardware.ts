/** Explanations: gussets, holes, padding, fittings, plates, and the dates of the car. */
import { ARITHMETIC, AS_WRITTEN, LANGUAGE, type Explanation } from './explanation';

const BRACED =
  'node a = on hoop where z = 500 near foot.left\nnode b = a + (aft 400, down 300)\ntube stay { section t38; path a, b; last open }';

export const HARDWARE = {
  'gusset.apart': {
    what: 'A gusset names a tube that does not pass through its node.',
    why: 'A gusset ties the corner of two tubes: where one of them is not there, there is nothing to weld it to.',
    measured: "From the node to the nearest point of the tube's centreline, against the tube's own radius.",
    source: ARITHMETIC,
    mend: 'Name the node at which the two tubes meet, or the tube that meets the other one there.',
    stage: 'hoop',
    bad: `${BRACED}\ngusset web { at b; between hoop, stay; legs 100 x 100; thickness 1.5; kind sheet }`,
    good: `${BRACED}\ngusset web { at a; between hoop, stay; legs 100 x 100; thickness 1.5; kind sheet }`,
  },
  'hole.off-tube': {
    what: 'A hole would not lie on the tube that it is to be drilled into.',
    why: 'Where the hole is, nobody could tell: it may lie beyond the end, or its node beside the tube.',
    measured: "From the node along the tube's bent centreline, against the length of that centreline.",
    source: ARITHMETIC,
    mend: 'Measure it from a node that lies on the tube, and less far than the tube is long.',
    stage: 'hoop',
    bad: 'hole hoop for inspection { from 9000; dia 5 }',
    good: 'hole hoop for inspection { from 300; dia 5 }',
  },
  'padding.off-tube': {
    what: 'Padding reaches past the end of its tube, or ends before it begins.',
    why: 'How much of the tube is covered is then not known, and a bare tube near the helmet could pass for a padded one.',
    measured: "Along the tube's bent centreline from its first node.",
    source: ARITHMETIC,
    mend: 'Write both figures from the first node of the tube, the smaller first; the whole tube needs none.',
    stage: 'hoop',
    bad: 'padding hoop { thickness 25; from 600 to 200; standard fia 8857 }',
    good: 'padding hoop { thickness 25; from 200 to 600; standard fia 8857 }',
  },
  'fitting.no-joint': {
    what: 'A removable joint is written at the end of a tube that is joined to nothing there.',
    why: 'A fitting holds a tube to something; at a loose or open end there is nothing that it could be bolted to.',
    measured: 'What the end lands on: another tube, or a foot.',
    source: ARITHMETIC,
    mend: 'Name the end that is joined, or lead the tube to what it is to be bolted to.',
    stage: 'hoop',
    bad: `${BRACED}\nfitting pin { tube stay last; kind clevis; shear double; bolt M10 8.8 }`,
    good: `${BRACED}\nfitting pin { tube stay first; kind clevis; shear double; bolt M10 8.8 }`,
  },
  'fitting.twice': {
    what: 'Two fittings are written at the same end of one tube.',
    why: 'One end has one joint: which of the two is made would be a guess.',
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Take one of them out, or write the other end.',
    stage: 'hoop',
    bad: `${BRACED}\nfitting pin { tube stay first; kind clevis }\nfitting sleeve { tube stay first; kind muff }`,
    good: `${BRACED}\nfitting pin { tube stay first; kind clevis }`,
  },
  'foot.bolt-off-plate': {
    what: 'A bolt of a foot stands off its plate.',
    why: 'Where the bolt is not on the plate it holds nothing, and the angles between the bolts are wrong.',
    measured: "From the middle of the plate along it and across it, against half the plate's length and width.",
    source: ARITHMETIC,
    mend: 'Move the bolt in, or use a larger plate.',
    stage: 'parts',
    bad: 'node a = (0, 600, 0)\nnode b = (0, 600, 500)\ntube post { section t45; path a, b; last open }\nfoot shoe { at a; plate 140 x 100 x 3; bolts 2 x M8 8.8; bolts-at (forward 90, left 0), (aft 50, left 0) }',
    good: 'node a = (0, 600, 0)\nnode b = (0, 600, 500)\ntube post { section t45; path a, b; last open }\nfoot shoe { at a; plate 140 x 100 x 3; bolts 2 x M8 8.8; bolts-at (forward 50, left 0), (aft 50, left 0) }',
  },
  'vehicle.dates': {
    what: 'Two days of the car contradict each other.',
    why: 'Limits hang on the day of the homologation; a passport that is older than it shows that one of the two is wrong.',
    measured: AS_WRITTEN,
    source:
      'Books choose their text by the day of the homologation, and by that of the first technical passport only where the car was never homologated.',
    mend: 'Write the day that stands in the papers of the car, and leave the other out.',
    stage: 'empty',
    bad: 'cage "Example"\nvehicle { homologated "2006-04-01"; passport "1998-05-01" }',
    good: 'cage "Example"\nvehicle { homologated "2006-04-01" }',
  },
} as const satisfies Readonly<Record<string, Explanation>>;
