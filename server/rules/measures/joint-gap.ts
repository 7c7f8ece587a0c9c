/** `joint.gap`: the widest groove that a cut square through the wall leaves open to the weld. */
import type { Rule } from '../rule';
import { each } from '../each';
import { reading } from '../readings';
import { anchorOf } from '../welds';

const PROP = (section: string): string =>
  `section probe { ${section} }\nnode pa = (-400, 0, 0)\nnode pb = on hoop nearest (0, 0, 1000)\ntube prop as brace { section probe; path pa, pb; first open }`;

/** Walls up to this leave no groove that anybody speaks of, mm. */
const USUAL = 3.2;

export const jointGap: Rule = {
  code: 'joint.gap',
  unit: 'mm',
  slack: 0.05,
  read: each(
    (car) => car.parts(),
    (part) =>
      part.ends.flatMap((end) => {
        // No groove is wider than the wall.
        if (end.fit !== 'cope' || (part.tube.section?.wall ?? 0) <= USUAL || end.widestGap === null) return [];
        const params = { tube: part.name, end: end.which, host: end.hosts[0] ?? '' };
        return [reading(part.tube.name, end.widestGap, 'mm', params, { at: anchorOf(part, end) })];
      }),
  ),
  mend: (item) => ({
    says: "cut it to the line of the outside and bevel the inside, or make the weld's leg longer by {groove}",
    params: { groove: item.measured },
  }),
  explanation: {
    what: 'The cut of an end leaves a wide groove between its outer edge and the tube that it lands on.',
    why: 'A bead that bridges an open groove does not reach the root; a fillet loses as much of its leg as the groove is wide.',
    measured:
      "The shortest distance from the outer edge of a cut square through the wall to the surface of its host, where it is widest. One edge of such a cut touches all round: this is the groove that the weld fills, never wider than the wall, not play. An equal joint of 45 x 2.5 at a right angle has 2.3 mm, which every shop welds; a fillet's leg grows by the groove from 1.6 mm (1/16 in) on.",
    mend: 'Cut to the line of the outside (`outer` in the list) and bevel the inside until the outer edge lands; or tell the welder to lengthen the leg.',
    stage: 'hoop',
    bad: PROP('od 45; wall 4'),
    good: PROP('od 45; wall 2.5'),
  },
};
