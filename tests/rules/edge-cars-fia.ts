/** More cars for the edges of the rules: what Appendix J, Article 253 asks of the structure of a cage, and no other book. */
import { belts, diagonal, front, stays } from '../../server/rules/examples';
import { crossExample } from '../../server/rules/crosses';
import { dashExample } from '../../server/rules/dash';
import { gussetExample } from '../../server/rules/gussets';
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
const gussets = (n: number): string =>
  Array.from(
    { length: n },
    (_, i) => `\ngusset g${String(i)} { at heart; between long, short; legs 110 x 110; thickness 1.5; kind sheet }`,
  ).join('');
const SHEET = 'kind sheet; thickness 1.5; legs 120 x 120';
const QUARTERS = `mirror left {
  node x-high = on hoop at 110 before crown
  node x-low = on hoop at 70 from foot
}
node heart = between x-high.left and x-low.right at 50 %
tube upper as diagonal { section t38; path x-high.left, heart }
tube lower as diagonal { section t38; path heart, x-low.right }
tube one as diagonal { section t38; path x-high.right, heart }
tube other as diagonal { section t38; path heart, x-low.left }
joint heart { order upper, one, other, lower }`;
/** A tube in the corner of hoop and backstay. */
const corner = (at: string): string =>
  `${stays()}\nmirror left {\n  node low = on stay at ${at}\n  node high = on hoop at 400 before crown\n  tube prop as brace { section t38; path low, high }\n}`;
const rearward = (more: string, day = 'homologated "2014-01-01"'): string =>
  `vehicle { ${day} }\n${front()}\n${stays()}\nmirror left {\n  node v-rear = on hoop nearest (0, 40, 1000)\n  node v-front = on header at 4 %\n  tube v as roof-bar { section t38; path v-rear, v-front }\n${more}}`;
const W_BARS = `  node w-top = on hoop nearest (0, 40, 1000)
  node w-low = on stay at 60 from stay-foot
  tube w as backstay-diagonal { section t38; path w-top, w-low }
`;
/** An opening from 100 to 900, seen from the side; the bar crosses its front edge at x = 800. */
const opened = (z: string, door = true): string =>
  `${front('(900, 600, 700)', '(900, 610, 0)')}\nmirror left {\n${door ? '  door opening { outline (800, 700, 100), (60, 700, 100), (60, 650, 900), (800, 650, 900) }\n' : ''}  node door-front = on side where z = ${z}\n  node door-rear = on hoop where z = ${z}\n  tube long as door-bar { section t38; path door-front, door-rear }\n}`;
const DASH = 'panel dash-top as dashboard { outline (780, 500, 700), (780, -500, 700) }';
const COLUMN = 'panel column as steering-column { outline (500, 330, 500), (1000, 330, 500) }';
const extended = (x: string, vehicle = 'vehicle { front-suspension (1760, 455, 640) }'): string =>
  `${vehicle}\n${front()}\nmirror left {\n  node root = on side where z = 560\n  node tower = (${x}, 455, 640)\n  tube extension as front-extension { section t38; path root, tower }\n  foot tower-plate { at tower; plate 120 x 100 x 3; lies square; bolts 3 x M8; hole 8 }\n}`;
const long = (x: string): string =>
  `vehicle { front-suspension (1700, 455, 640); rear-suspension (${x}, 480, 560) }\n${front()}\n${stays()}`;

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
  {
    code: 'gusset.missing',
    book: 'fia-253',
    inside: crossExample(gussets(2)),
    outside: crossExample(gussets(1)),
    within: 1,
    missing: null,
  },
  { code: 'cross.whole', book: 'fia-253', inside: crossExample(), outside: QUARTERS, within: 1, missing: null },
  {
    code: 'gusset.thickness',
    book: 'fia-253',
    inside: gussetExample('kind sheet; legs 120 x 120; thickness 1'),
    outside: gussetExample('kind sheet; legs 120 x 120; thickness 0.95'),
    within: 0.06,
    missing: [gussetExample('kind sheet; legs 120 x 120'), /thickness is not written/],
  },
  {
    code: 'gusset.kind',
    book: 'fia-253',
    inside: gussetExample(SHEET),
    outside: gussetExample('kind flat; thickness 3; legs 120 x 120'),
    within: 1,
    missing: [gussetExample('thickness 3; legs 120 x 120'), /how it is made/],
  },
  {
    // Twice to four times 45, the larger of 45 and 38: 90 to 180.
    code: 'gusset.legs',
    book: 'fia-253',
    inside: gussetExample('kind sheet; thickness 1.5; legs 90 x 180'),
    outside: gussetExample('kind sheet; thickness 1.5; legs 89 x 181'),
    within: 0.03,
    missing: [gussetExample('kind sheet; thickness 1.5'), /how far it reaches/],
  },
  {
    // One and a half times 45.
    code: 'gusset.cut-out',
    book: 'fia-253',
    inside: gussetExample(`${SHEET}; cut-out 67.5`),
    outside: gussetExample(`${SHEET}; cut-out 68`),
    within: 0.02,
    missing: null,
  },
  {
    code: 'gusset.hole',
    book: 'fia-253',
    inside: gussetExample(`${SHEET}; hole 45`),
    outside: gussetExample(`${SHEET}; hole 46`),
    within: 0.03,
    missing: null,
  },
  {
    code: 'brace.half-way',
    book: 'fia-253',
    inside: corner('49.9 %'),
    outside: corner('50.1 %'),
    within: 0.002,
    missing: null,
  },
  {
    code: 'backstay-diagonal.form',
    book: 'fia-253',
    inside: rearward(W_BARS),
    outside: rearward(''),
    within: 1,
    missing: [rearward('', 'body closed'), /homologation/],
  },
  {
    // Half of 800 above 100.
    code: 'door.height',
    book: 'fia-253',
    inside: opened('500'),
    outside: opened('501'),
    within: 0.002,
    missing: [opened('501', false), /opening of the door/],
  },
  {
    // Lower edge at 719 - 19.
    code: 'dash.height',
    book: 'fia-253',
    inside: dashExample('719', DASH),
    outside: dashExample('719.5', DASH),
    within: 0.6,
    missing: [dashExample('719', ''), /top of the dashboard/],
  },
  {
    code: 'dash.column',
    book: 'fia-253',
    inside: `vehicle { homologated "2007-01-01" }\n${dashExample('500', COLUMN)}`,
    outside: `vehicle { homologated "2007-01-01" }\n${dashExample('499.5', COLUMN)}`,
    within: 0.6,
    missing: [`vehicle { homologated "2007-01-01" }\n${dashExample('500', '')}`, /steering column/],
  },
  {
    code: 'extension.reach',
    book: 'fia-253',
    inside: extended('1700'),
    outside: extended('1699'),
    within: 1.1,
    missing: [extended('1699', ''), /front suspension/],
  },
  {
    // The stays' feet stand at x = -700; a millimetre is no matter.
    code: 'cage.length',
    book: 'fia-253',
    inside: long('-699'),
    outside: long('-698'),
    within: 2.1,
    missing: [`${front()}\n${stays()}`, /suspension/],
  },
];
