/**
 * Cars for the edges of the North American rules: helmets, padding, anchorages, slides, inspection holes, panels, welds,
 * classes. Where the text gives a figure in closed form it stands beside it.
 */
import { anchorExample } from '../../server/rules/anchors';
import { belts, front, stays } from '../../server/rules/examples';
import { footExample } from '../../server/rules/feet';
import { helmetExample } from '../../server/rules/helmets';
import { TWO_BENDS } from '../../server/rules/hoop-examples';
import { lapExample } from '../../server/rules/measures/anchor-lap-angle';
import { panelExample } from '../../server/rules/panels';
import type { Edge } from './edge-cars';

const BARE = 'seat driver { slots (240, 300, 550); recline 10 deg; slot-spacing 220; back 45 }';
const OPEN = 'vehicle { body open }';
const HEADER = 'panel frame as header { outline (1000, 500, 822.5), (1000, -500, 822.5) }';
const pad = (mm: string, more = ''): string => `${helmetExample(260, 0)}\npadding hoop { thickness ${mm}${more} }`;
const seat = (facts: string): string =>
  `seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45; ${facts} }`;
const OURS = 'rulebook ours based on harness-makers { limit anchor.lap-angle from 60 deg to 80 deg }';
const anchors = (as: string, apart: number): string =>
  `${BARE}\nanchor one as ${as} { seat driver; at (200, ${String(300 + apart / 2)}, 120) }\nanchor two as ${as} { seat driver; at (200, ${String(300 - apart / 2)}, 120) }`;
const door = (z: number): string =>
  `${front()}\nmirror left {\n node door-front = on side where z = ${String(z)}\n node door-rear = on hoop where z = ${String(z)}\n tube long as door-bar { section t38; path door-front, door-rear }\n}\n`;
/** Shoulder at z = 590, elbow at 370: midway 480. */
const ARM =
  'seat driver { slots (240, 300, 560); recline 10 deg; slot-spacing 220; back 45; shoulder (forward 110, up 30)';
const gussets = (n: number): string =>
  `${stays()}\nmirror left {\n${Array.from({ length: n }, (_, i) => `gusset g${String(i)} { at stay-top; between hoop, stay; legs 120 x 120; kind flat; thickness 2 }`).join('\n')}\n}`;
const alloy = (welding: string, kind = 'chromoly'): string =>
  `${welding}\nmaterial alloy { yield 460 MPa; kind ${kind} }\nsection c38 { od 38; wall 2.5; material alloy }\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\ntube prop as brace { section c38; path a, b; first open }`;
const arch = (wall: string, kind = 'kind dom'): string =>
  `material m { yield 480 MPa; ${kind} }\nsection s { od 44.45; wall ${wall}; material m }\nmirror left { node low = (-300, 500, 0); node top = (-300, 450, 900) }\ndie d { od 44.45; radius 152.4 }\ntube arch as main-rollbar { section s; die d; path low.left, top.left, top.right, low.right; first open; last open }`;

export const NA_EDGES: readonly Edge[] = [
  {
    // The hoop's outer surface is 1022.5 high, the helmet's top 550 + up + 150; 76.2 mm between them.
    code: 'helmet.clearance',
    book: 'nhra',
    inside: helmetExample(246.2),
    outside: helmetExample(246.4),
    within: 0.11,
    missing: [BARE, /helmet is not written/],
  },
  {
    // Seen from above the hoop's axis is 240 + forward behind the helmet's middle: less 150 and 22.5, 152.4.
    code: 'helmet.reach',
    book: 'nhra',
    inside: helmetExample(220, 84.8),
    outside: helmetExample(220, 85),
    within: 0.11,
    missing: [BARE, /helmet is not written/],
  },
  {
    code: 'helmet.behind',
    book: 'scca-solo',
    inside: `${OPEN}\n${helmetExample(220, 84.8)}`,
    outside: `${OPEN}\n${helmetExample(220, 85)}`,
    within: 0.11,
    missing: [helmetExample(220, 85), /whether the car is open/],
  },
  {
    // The hoop's top is 1022.5 high, the header 822.5, 1000 before it: 962.5 over the helmet's top at 300.
    code: 'helmet.line',
    book: 'scca-solo',
    inside: `${OPEN}\n${helmetExample(262.4)}\n${HEADER}`,
    outside: `${OPEN}\n${helmetExample(262.6)}\n${HEADER}`,
    within: 0.11,
    missing: [`${OPEN}\n${BARE}\n${HEADER}`, /helmet is not written/],
  },
  {
    code: 'padding.thickness',
    book: 'scca-gcr',
    inside: pad('25.4'),
    outside: pad('25.3'),
    within: 0.11,
    missing: [helmetExample(260, 0), /no padding is written/],
  },
  {
    code: 'padding.certified',
    book: 'nhra',
    inside: `vehicle { elapsed-time 9.99 }\n${pad('25', '; standard sfi 45.1')}`,
    outside: `vehicle { elapsed-time 9.99 }\n${pad('25', '; standard sfi 45.2')}`,
    within: 1,
    missing: [pad('25', '; standard sfi 45.2'), /time over the quarter mile/],
  },
  {
    code: 'hoop.roof-gap',
    book: 'scca-solo',
    inside: panelExample(1122.4),
    outside: panelExample(1122.6),
    within: 0.11,
    missing: ['', /the roof is not written/],
  },
  {
    // The leg runs from y = 600 at the floor to 550 at 1000: at 200 its axis is at 590, 1.2e-3 nearer square to it.
    code: 'hoop.pillar-gap',
    book: 'scca-gcr',
    inside: panelExample(1100, 712),
    outside: panelExample(1100, 713.5),
    within: 1.5,
    missing: ['', /the pillars are not written/],
  },
  {
    // At z = 780 the axes of the legs are at 600 - 0.05 x 780 = 561 either side: 1122 and 45 of tube.
    code: 'hoop.width',
    book: 'nhra',
    inside: seat('shoulder (forward 110, up 30); shoulder-width 1167'),
    outside: seat('shoulder (forward 110, up 30); shoulder-width 1167.2'),
    within: 0.25,
    missing: [seat('shoulder (forward 110, up 30)'), /shoulders are is not written/],
  },
  {
    code: 'door.shoulder',
    book: 'nhra',
    inside: `${door(430)}${ARM}; elbow (forward 200, down 190) }`,
    outside: `${door(429)}${ARM}; elbow (forward 200, down 190) }`,
    within: 0.3,
    missing: [`${door(430)}${ARM} }`, /shoulder and elbow/],
  },
  {
    // tan 60 = 1.73205: 100 aft of the hip 173.2 below it. The makers' ranges have no angle in common: a car takes one of them.
    code: 'anchor.lap-angle',
    book: 'ours',
    inside: `${OURS}\n${lapExample(300, 86.7)}`,
    outside: `${OURS}\n${lapExample(300, 86.9)}`,
    within: 0.1,
    missing: [`${OURS}\n${anchorExample('bolt M12 8.8')}`, /where the hip is/],
  },
  {
    code: 'anchor.spacing',
    book: 'harness-makers',
    inside: anchors('lap', 635),
    outside: anchors('lap', 635.2),
    within: 0.25,
    missing: null,
  },
  {
    // 7/16 in is 11.11 mm.
    code: 'anchor.bolt-size',
    book: 'harness-makers',
    inside: anchorExample('bolt 11.1 mm'),
    outside: anchorExample('bolt 11 mm'),
    within: 0.12,
    missing: [anchorExample('fixing eye'), /bolt of an anchor/],
  },
  {
    code: 'anchor.fixing',
    book: 'harness-makers',
    inside: anchorExample('fixing eye'),
    outside: anchorExample('fixing wrap'),
    within: 1,
    missing: [anchorExample('bolt M12'), /how an anchor is fixed/],
  },
  {
    code: 'anchor.adjuster',
    book: 'harness-makers',
    inside: anchorExample('adjuster 40'),
    outside: anchorExample('adjuster 39.9'),
    within: 0.11,
    missing: [anchorExample('load 15 kN'), /adjuster 60/],
  },
  {
    code: 'strap.slider',
    book: 'harness-makers',
    inside: belts('(240, 300, 740)', 'slider 25; '),
    outside: belts('(240, 300, 740)', 'slider 25.1; '),
    within: 0.11,
    missing: [belts('(240, 300, 740)'), /slider 10/],
  },
  {
    code: 'strap.slider-seat',
    book: 'harness-makers',
    inside: belts('(140, 300, 720)', 'slider 70; '),
    outside: belts('(140, 300, 720)', 'slider 90; '),
    within: 20,
    missing: [belts('(240, 300, 740)'), /slider 10/],
  },
  {
    code: 'strap.locked',
    book: 'harness-makers',
    inside: belts('(240, 300, 740)', 'locked yes; '),
    outside: belts('(240, 300, 740)', 'locked no; '),
    within: 1,
    missing: [belts('(240, 300, 740)'), /locked yes/],
  },
  {
    code: 'strap.tail',
    book: 'harness-makers',
    inside: belts('(240, 300, 740)', 'tail 100; '),
    outside: belts('(240, 300, 740)', 'tail 99.9; '),
    within: 0.11,
    missing: [belts('(240, 300, 740)'), /tail 120/],
  },
  {
    code: 'strap.adjuster',
    book: 'harness-makers',
    inside: belts('(240, 300, 740)', 'adjuster 70; ', undefined, 'shoulder (forward 110, up 30); yoke 30'),
    outside: belts('(240, 300, 740)', 'adjuster 69.9; ', undefined, 'shoulder (forward 110, up 30); yoke 30'),
    within: 0.11,
    missing: [belts('(240, 300, 740)', 'slider 10; '), /where the adjuster of a strap/],
  },
  {
    // Square to a spine that leans 10 degrees the strap drops 10; 20 is ten too many.
    code: 'strap.spine',
    book: 'harness-makers',
    inside: belts('(240, 300, 817)'),
    outside: belts('(240, 300, 818)'),
    within: 0.5,
    missing: [belts('(240, 300, 740)', '', '', 'yaw 0'), /shoulder is not written/],
  },
  { code: 'gusset.count', book: 'scca-gcr', inside: gussets(2), outside: gussets(3), within: 1, missing: null },
  {
    code: 'foot.counter-plate',
    book: 'scca-gcr',
    inside: footExample('140 x 100 x 5', '; bolts 3 x 10 mm 8.8; counter-plate 100 x 140 x 5'),
    outside: footExample('140 x 100 x 5', '; bolts 3 x 10 mm 8.8; counter-plate 140 x 100 x 4.9'),
    within: 1,
    missing: [footExample('140 x 100 x 5', '; bolts 3 x 10 mm 8.8'), /far side of the panel/],
  },
  {
    code: 'foot.frame',
    book: 'nhra',
    stage: 'parts',
    inside: `vehicle { frame yes }\n${TWO_BENDS().replace('hole 8', 'on frame; hole 8')}`,
    outside: `vehicle { frame yes }\n${TWO_BENDS()}`,
    within: 1,
    missing: [TWO_BENDS(), /whether the car has a frame/],
  },
  {
    code: 'foot.welded',
    book: 'nhra',
    inside: front().replace('bolts 3 x M8', 'welded yes'),
    outside: front().replace('bolts 3 x M8', 'welded no'),
    within: 1,
    missing: [front(), /whether it is welded/],
  },
  {
    code: 'hole.inspection',
    book: 'scca-gcr',
    inside: 'hole hoop for inspection { from 500; dia 5 }',
    outside: 'hole hoop for drain { from 500; dia 5 }',
    within: 1,
    missing: null,
  },
  {
    // 3/16 in is 4.76 mm, 1/4 in 6.35.
    code: 'hole.inspection-size',
    book: 'scca-gcr',
    inside: 'hole hoop for inspection { from 500; dia 6.35 }',
    outside: 'hole hoop for inspection { from 500; dia 6.4 }',
    within: 0.06,
    missing: null,
  },
  {
    // The crown's bend of 135 mm turns 87.14 degrees: it begins 1001.25 - 128.43 = 872.82 up the leg.
    code: 'hole.place',
    book: 'shop',
    inside: 'hole hoop for inspection { from 796.5; dia 5 }',
    outside: 'hole hoop for inspection { from 797; dia 5 }',
    within: 0.6,
    missing: null,
  },
  {
    code: 'weld.alloy',
    book: 'nhra',
    inside: alloy('welding { process tig }'),
    outside: alloy('welding { process mig }'),
    within: 1,
    missing: [alloy(''), /welding process/],
  },
  {
    code: 'weld.ground',
    book: 'nhra',
    inside: 'welding { ground no }',
    outside: 'welding { ground yes }',
    within: 1,
    missing: ['', /whether the welds are ground/],
  },
  {
    code: 'cage.class',
    book: 'nhra',
    inside: 'vehicle { elapsed-time 11 }',
    outside: 'vehicle { elapsed-time 10.99 }',
    within: 1,
    missing: ['', /time over the quarter mile/],
  },
  {
    // .118 in is 2.997 mm; 0.15 under for tube drawn over a mandrel (from memory).
    code: 'tube.measured-wall',
    book: 'nhra',
    stage: 'parts',
    inside: arch('3.15'),
    outside: arch('3.1'),
    within: 0.06,
    missing: [arch('3.1', 'tensile 550 MPa'), /how the tube .* is made/],
  },
];
