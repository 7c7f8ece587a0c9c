/** More cars for the edges of the rules: what Appendix J, Article 253 asks and no other book. */
import { belts, diagonal, front } from '../../server/rules/examples';
import type { Edge } from './edge-cars';

const second = (split: string): string =>
  `${diagonal()}\nnode y-top = on hoop at 110 before crown.right\nnode y-low = on hoop at 70 from foot.left\ntube second as diagonal { section t38; path y-top, y-low${split} }`;
const on = (day: string, more = ''): string => `vehicle { homologated "${day}"${more} }\n${front()}`;
/** A V whose bars begin at the hoop and end on the header at this share of it, from both sides. */
const vee = (share: string): string =>
  `mirror left { node v-rear = on hoop at 80 after crown; node v-front = on header at ${share}; tube v as roof-bar { section t38; path v-rear, v-front } }`;
const rearKnee = (x: string): string =>
  `node rear-foot = (0, 600, 0)
node rear-knee = (${x}, 620, 450)
node rear-top = (-40, 520, 1000)
node front-top = (700, 500, 1000)
node front-foot = (1300, 600, 0)
tube side as lateral-rollbar { section t45; die d45; path rear-foot, rear-knee, rear-top, front-top, front-foot; first open; last open }`;
/** The header's joint lies 30 mm behind the bend at the head; the knee is moved forward off the line to the foot. */
const knee = (x: string, day = 'homologated "2006-01-01"'): string =>
  `vehicle { ${day} }\n${front(`(${x}, 600, 500)`, '(1100, 610, 0)')}`;

export const FIA_EDGES: readonly Edge[] = [
  {
    // A level bar of radius 19: H cos a - D sin a = 19 with the slot's distance ahead and above, so 9 degrees at H = 56 or so.
    code: 'strap.bar-drop',
    book: 'fia-253',
    inside: belts('(240, 300, 759)'),
    outside: belts('(240, 300, 745)'),
    within: 4,
    missing: null,
  },
  {
    code: 'diagonal.cross',
    book: 'fia-253',
    inside: `${on('2002-01-01')}\n${second('; split by cross')}`,
    outside: `${on('2002-01-01')}\n${second('')}`,
    within: 1,
    missing: [`${front()}\n${second('')}`, /homologation/],
  },
  {
    code: 'hoop.rear-leg',
    book: 'fia-253',
    stage: 'parts',
    // The chord is not the line from foot to corner node, but to where the corner's bend begins.
    inside: rearKnee('-23'),
    outside: rearKnee('-25'),
    within: 2,
    missing: null,
  },
  {
    code: 'roof.form',
    book: 'fia-253',
    inside: `${on('2005-01-01')}\n${vee('40 %')}`,
    outside: `${on('2005-01-01')}\n${vee('20 %')}`,
    within: 1,
    missing: [`${front()}\n${vee('20 %')}`, /homologation/],
  },
  {
    code: 'roof.gap',
    book: 'fia-253',
    inside: `${on('2005-01-01')}\n${vee('44.7 %')}`,
    outside: `${on('2005-01-01')}\n${vee('44.5 %')}`,
    within: 3,
    missing: [`${front()}\n${vee('40 %')}`, /homologation/],
  },
  {
    code: 'pillar.missing',
    book: 'fia-253',
    inside: knee('900', 'homologated "2005-12-31"'),
    outside: knee('1060'),
    within: 30,
    missing: [knee('900'), /drawing .* was not seen/],
  },
];
