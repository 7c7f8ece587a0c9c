/** Cars for the edges of the rules: a text for each side of a limit, and one in which the needed fact is missing. */
import type { RuleCode } from '../../grammar/codes';
import { belts, diagonal, front, stays } from '../../server/rules/examples';
import { footExample } from '../../server/rules/feet';
import { FOUR_BENDS, SIX_BENDS, TWO_BENDS } from '../../server/rules/hoop-examples';
import { bentPillar, pillarExample } from '../../server/rules/pillars';

export interface Edge {
  readonly code: RuleCode;
  readonly book: string;
  /** Another book that has to be chosen for it. */
  readonly also?: string;
  /** What stands before both texts; without it a hoop of 45 x 2.5 on two feet, 1000 high. */
  readonly stage?: 'parts';
  readonly inside: string;
  readonly outside: string;
  /** How far the figure outside may be from the limit, in the figure's unit. */
  readonly within: number;
  /** A text that lacks a fact, and words of what is told; null: what the rule reads cannot be missing from a text that can be built. */
  readonly missing: readonly [string, RegExp] | null;
}

const MATERIAL = 'material cds { yield 360 MPa; tensile 490 MPa; kind cold-drawn-seamless }';
const prop = (section: string, more = '', role = 'transverse'): string =>
  `${more}\nsection probe { ${section} }\nnode pa = (-400, 0, 0)\nnode pb = on hoop nearest (0, 0, 1000)\ntube prop as ${role} { section probe; path pa, pb; first open }`;
const seat = (y: number, name = 'driver'): string =>
  `seat ${name} { slots (240, ${String(y)}, 740); recline 10 deg; slot-spacing 220; back 45 }`;
const seats = `${seat(300)}\n${seat(-300, 'mate')}`;
const stay = (section: string): string =>
  `${section}\nmirror left { node top = on hoop at 30 before crown\n node low = (-700, 500, 300)\n tube stay as backstay { section probe; path top, low; last open } }`;
const doors = (n: number): string =>
  Array.from({ length: n }, (_, i) => {
    const z = String(180 + 130 * i);
    return `mirror left { node da${String(i)} = on side where z = ${z}; node db${String(i)} = on hoop where z = ${z}; tube d${String(i)} as door-bar { section t38; path da${String(i)}, db${String(i)} } }`;
  }).join('\n');
const roof = (rear: number): string =>
  `mirror left { node v-rear = on hoop at ${String(rear)} after crown; node v-front = on header at 46 %; tube v as roof-bar { section t38; path v-rear, v-front } }`;
const leg = (x: number): string => front(`(${String(x)}, 600, 500)`, '(1000, 610, 0)');
const NO_YOKE = 'shoulder (forward 110, up 30)';
const YOKE = `${NO_YOKE}; yoke 30`;
const NO_SHOULDER = 'yaw 0';
const cross = (low: string): string =>
  `mirror left {\n node high = on hoop at 110 before crown\n node low = (0, ${low}, 0)\n tube half as diagonal { section t38; path high, low }\n foot pad { at low; plate 100 x 80 x 3; bolts 2 x M8; hole 8 }\n}`;
/** A bar across that passes the diagonal, which lies in the plane x = 0, at this distance. */
const bent = (aft: number): string =>
  `${diagonal()}
node ba = (-${String(aft)}, 550, 700)
node bb = (-${String(aft)}, -550, 700)
tube bar as harness-bar { section t38; path ba, bb; first open; last open }`;
const offPlane = (x: number): string =>
  `node low = (${String(x)}, -500, 0)\nnode high = on hoop at 110 before crown.left\ntube cross as diagonal { section t38; path high, low; last open }`;
const existing = (yes: string): string =>
  `node a = (0, 700, 0)\nnode b = (0, 700, 900)\nnode c = (0, -700, 0)\nnode d = (0, -700, 900)\ntube left as main-rollbar { section t45; path a, b; first open; last open; existing ${yes} }\ntube right { section t45; path c, d; first open; last open }\nnode e = on left at 50 %\nnode f = on right at 50 %\ntube bar as transverse { section t38; path e, f }\nvent bar -> left { at e; dia 5 }`;
const die = (radius: number): string =>
  `die probe { od 45; radius ${String(radius)}; grip 90; between 60 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 800)\nnode c = (0, -800, 800)\ntube t { section t45; die probe; path a, b, c; first open; last open }`;
const plates = (n: number): string =>
  Array.from({ length: n }, (_, i) => {
    const at = String(300 + 200 * i);
    return `node p${String(i)} = (${at}, 0, 0)\nnode q${String(i)} = (${at}, 0, 300)\ntube u${String(i)} { section t38; path p${String(i)}, q${String(i)}; last open }\nfoot f${String(i)} { at p${String(i)}; plate 140 x 100 x 3; hole 8 }`;
  }).join('\n');
const bar = (high: string): string =>
  `node end-a = on hoop where z = 700 near (0, 600, 700)\nnode end-b = (0, 0, 700)\nnode top = on hoop nearest (0, 0, 1000)\ntube post as ${high} { section t38; path end-b, top; first open }\nnode end-c = on post at 5 from end-b\ntube bar as harness-bar { section t38; path end-a, end-c; first onto hoop; last onto post }`;
const onBar = (x: boolean): string =>
  `mirror left { node bar-end = on hoop where z = 700 }\ntube bar as harness-bar { section t38; path bar-end.left, bar-end.right }\nnode low = on ${x ? 'bar at 60 %' : 'hoop at 70 from foot.right'}\nnode high = on hoop at 110 before crown.left\ntube cross as diagonal { section t38; path high, low }`;
/** The stage's own hoop would be judged as well: here the other plates stand alone. */
const welded = (mm: number, bolts: string): string =>
  `mirror left { node heel = (0, 300, 0); node peak = (0, 300, 900); tube post as front-rollbar { section t45; path heel, peak; last open }; foot plate { at heel; plate 140 x 100 x ${String(mm)}${bolts}; hole 8 } }`;

export const EDGES: readonly Edge[] = [
  {
    code: 'tube.size',
    book: 'fia-253',
    inside: prop('od 38; wall 2.5'),
    outside: prop('od 38; wall 2.4'),
    within: 0.11,
    missing: [
      `rules scca-gcr\n${prop('od 38.1; wall 2.413', '', 'longitudinal')}`.replace('rules scca-gcr\n', ''),
      /mass is not written/,
    ],
  },
  {
    code: 'tube.material',
    book: 'fia-253',
    inside: prop('od 38; wall 2.5; material cds', MATERIAL),
    outside: prop('od 38; wall 2.5; material cds', MATERIAL.replace('cold-drawn-seamless', 'erw')),
    within: 1,
    missing: [prop('od 38; wall 2.5'), /material of section probe is not written/],
  },
  {
    code: 'tube.strength',
    book: 'fia-253',
    inside: prop('od 38; wall 2.5; material m', 'material m { yield 340 MPa; tensile 350 MPa }'),
    outside: prop('od 38; wall 2.5; material m', 'material m { yield 340 MPa; tensile 349 MPa }'),
    within: 1.01,
    missing: [prop('od 38; wall 2.5; material m', 'material m { yield 340 MPa }'), /strength of the steel/],
  },
  {
    code: 'tube.same-as-hoop',
    book: 'nhra',
    inside: stay('section probe { od 45.05; wall 2.5 }'),
    outside: stay('section probe { od 45; wall 2.6 }'),
    within: 0.11,
    missing: null,
  },
  {
    code: 'tube.pieces',
    book: 'fia-253',
    inside: diagonal(),
    outside:
      'node pa = (-400, 0, 0)\nnode pb = on hoop nearest (0, 0, 1000)\nnode qa = (-200, 300, 500)\nnode qb = (-200, -300, 500)\ntube prop as brace { section t38; path pa, pb; first open }\ntube rail as transverse { section t38; path qa, qb; first open; last open; split by prop }',
    within: 1,
    missing: null,
  },
  {
    code: 'tube.straight',
    book: 'fia-253',
    inside: stays(),
    outside:
      'mirror left {\n node top = on hoop at 60 before crown\n node knee = (-350, 520, 700)\n node low = (-800, 510, 250)\n tube stay as backstay { section t38; die d38; path top, knee, low; last open }\n}',
    within: 1,
    missing: null,
  },
  {
    code: 'bend.radius',
    book: 'fia-253',
    stage: 'parts',
    inside: die(134.6),
    outside: die(134.4),
    within: 0.61,
    missing: null,
  },
  {
    code: 'hoop.missing',
    book: 'fia-253',
    stage: 'parts',
    inside: TWO_BENDS(),
    outside: TWO_BENDS().replace(' as main-rollbar', ''),
    within: 1,
    missing: null,
  },
  {
    code: 'hoop.bends',
    book: 'nasa-ccr',
    stage: 'parts',
    inside: FOUR_BENDS(),
    outside: SIX_BENDS,
    within: 2,
    missing: null,
  },
  {
    // A leg that leans 5 degrees turns 85 at its crown: 600 - 1000 tan 5 = 512.5.
    code: 'hoop.total-angle',
    book: 'nasa-ccr',
    stage: 'parts',
    inside: TWO_BENDS('(0, 513, 1000)'),
    outside: TWO_BENDS('(0, 512, 1000)'),
    within: 0.1,
    missing: null,
  },
  {
    code: 'hoop.flat',
    book: 'fia-253',
    stage: 'parts',
    inside: FOUR_BENDS('(7.4, 650, 500)'),
    outside: FOUR_BENDS('(7.6, 650, 500)'),
    within: 1,
    missing: null,
  },
  {
    // 1000 tan 10 = 176.33 for a hoop whose feet and crowns lie in one plane.
    code: 'hoop.tilt',
    book: 'fia-253',
    stage: 'parts',
    inside: TWO_BENDS('(-176, 550, 1000)'),
    outside: TWO_BENDS('(-177, 550, 1000)'),
    within: 0.1,
    missing: null,
  },
  {
    code: 'hoop.leg-bends',
    book: 'fia-253',
    stage: 'parts',
    inside: FOUR_BENDS(),
    outside: SIX_BENDS,
    within: 1,
    missing: null,
  },
  {
    // 381 mm inside and 45 of tube: 426 from axis to axis.
    code: 'hoop.leg-spacing',
    book: 'scca-solo',
    stage: 'parts',
    inside: TWO_BENDS('(0, 213.1, 1000)', '(0, 213.1, 0)'),
    outside: TWO_BENDS('(0, 212.9, 1000)', '(0, 212.9, 0)'),
    within: 0.3,
    missing: null,
  },
  { code: 'hoop.front-foot', book: 'fia-253', inside: leg(990), outside: leg(1015), within: 15, missing: null },
  {
    code: 'structure.missing',
    book: 'fia-253',
    inside: front(),
    outside: front().replace('as transverse', 'as brace'),
    within: 1,
    missing: null,
  },
  {
    // The crown's bend of 135 mm turns 87.1 degrees and begins 128.2 mm below the corner, along the leg.
    code: 'structure.roof-level',
    book: 'fia-253',
    inside: front().replace('at 20 after crown', 'where z = 872'),
    outside: front().replace('at 20 after crown', 'where z = 871'),
    within: 2,
    missing: null,
  },
  {
    code: 'backstay.missing',
    book: 'fia-253',
    inside: stays(),
    outside:
      'node top = on hoop at 60 before crown.left\nnode low = (-700, 500, 300)\ntube stay as backstay { section t38; path top, low; last open }',
    within: 1,
    missing: null,
  },
  {
    code: 'backstay.angle',
    book: 'fia-253',
    inside: stays('at 60 before crown', '(-304, 500, 292)'),
    outside: stays('at 60 before crown', '(-296, 500, 296)'),
    within: 0.6,
    missing: null,
  },
  {
    code: 'backstay.hoop-angle',
    book: 'scca-solo',
    inside: stays('at 60 before crown', '(-304, 500, 292)'),
    outside: stays('at 60 before crown', '(-296, 500, 296)'),
    within: 1.5,
    missing: null,
  },
  {
    code: 'backstay.plane-angle',
    book: 'nasa-ccr',
    inside: stays('at 60 before crown', '(-304, 500, 292)'),
    outside: stays('at 60 before crown', '(-296, 500, 296)'),
    within: 1.5,
    missing: null,
  },
  {
    code: 'backstay.rearward',
    book: 'fia-253',
    inside: stays('at 60 before crown', '(-1, 300, 300)'),
    outside: stays('at 60 before crown', '(1, 300, 300)'),
    within: 1.1,
    missing: null,
  },
  {
    // 152.4 less half of 45 is 129.9 below the level top's axis; the crown begins 128 mm down.
    code: 'backstay.drop',
    book: 'scca-gcr',
    inside: stays('at 1 before crown'),
    outside: stays('at 3 before crown'),
    within: 2,
    missing: null,
  },
  {
    code: 'backstay.crown',
    book: 'fia-253',
    inside: stays('at 99.9 before crown'),
    outside: stays('at 100.1 before crown'),
    within: 0.2,
    missing: null,
  },
  {
    code: 'diagonal.missing',
    book: 'scca-gcr',
    inside: diagonal(),
    outside: '',
    within: 1,
    missing: [`${front()}\n${diagonal()}`, /homologation/],
  },
  {
    code: 'diagonal.top',
    book: 'fia-253',
    inside: `${stays('at 40 before crown')}\n${diagonal('at 139.9 before crown.left')}`,
    outside: `${stays('at 40 before crown')}\n${diagonal('at 140.1 before crown.left')}`,
    within: 0.2,
    missing: null,
  },
  {
    code: 'diagonal.bottom',
    book: 'fia-253',
    inside: diagonal('at 110 before crown.left', 'at 99.9 from foot.right'),
    outside: diagonal('at 110 before crown.left', 'at 100.1 from foot.right'),
    within: 0.2,
    missing: null,
  },
  {
    // Half of the bend's arc, 135 mm over 87.14 degrees, is 102.7 mm: 304.8 less that before the bend.
    code: 'diagonal.corner',
    book: 'nasa-ccr',
    inside: `${seat(300)}\n${diagonal('at 202.0 before crown.left')}`,
    outside: `${seat(300)}\n${diagonal('at 202.3 before crown.left')}`,
    within: 0.5,
    missing: [diagonal(), /driver's side is not known/],
  },
  {
    code: 'diagonal.in-plane',
    book: 'nasa-ccr',
    inside: offPlane(-22.4),
    outside: offPlane(-22.6),
    within: 0.2,
    missing: null,
  },
  {
    code: 'diagonal.feet',
    book: 'fia-253',
    inside: cross('149.9'),
    outside: cross('150.1'),
    within: 0.3,
    missing: null,
  },
  {
    code: 'diagonal.on-harness-bar',
    book: 'nasa-ccr',
    inside: onBar(false),
    outside: onBar(true),
    within: 1,
    missing: null,
  },
  {
    code: 'door.bars',
    book: 'scca-gcr',
    inside: `${front()}\n${doors(2)}`,
    outside: `${front()}\n${doors(1)}`,
    within: 1,
    missing: [`${seats}\n${front()}\n${doors(1)}`, /homologation/],
  },
  {
    code: 'door.alike',
    book: 'fia-253',
    inside: `${seats}\n${front()}\n${doors(1)}`,
    outside: `${seats}\n${front()}\n${doors(1)}\nnode la = on side.left where z = 400\nnode lb = on hoop where z = 400 near (0, 600, 400)\ntube extra as door-bar { section t38; path la, lb }`,
    within: 1,
    missing: null,
  },
  {
    code: 'roof.bars',
    book: 'fia-253',
    inside: `vehicle { homologated "2005-01-01" }\n${front()}\n${roof(80)}`,
    outside: `vehicle { homologated "2005-01-01" }\n${front()}`,
    within: 2,
    missing: [front(), /homologation/],
  },
  {
    code: 'roof.ends',
    book: 'fia-253',
    inside: `${front()}\n${roof(119.9)}`,
    outside: `${front()}\n${roof(120.1)}`,
    within: 0.2,
    missing: null,
  },
  {
    code: 'pillar.bend',
    book: 'fia-253',
    stage: 'parts',
    inside: bentPillar('(-150, 683, 450)'),
    outside: bentPillar('(-150, 685, 450)'),
    within: 0.4,
    missing: null,
  },
  {
    // Off the line from (0, 0) to (-300, 900): 3 / sqrt(10) of a shift in height of 1 … 2.11 mm of x is 2.0 across.
    code: 'pillar.side-view',
    book: 'fia-253',
    stage: 'parts',
    inside: bentPillar('(-152.1, 640, 450)'),
    outside: bentPillar('(-152.12, 640, 450)'),
    within: 0.02,
    missing: null,
  },
  {
    code: 'pillar.top',
    book: 'fia-253',
    inside: pillarExample('at 109.9 before head'),
    outside: pillarExample('at 110.1 before head'),
    within: 0.2,
    missing: null,
  },
  {
    code: 'pillar.bottom',
    book: 'fia-253',
    inside: pillarExample('at 60 before head', 'at 99.9 from front-foot'),
    outside: pillarExample('at 60 before head', 'at 100.1 from front-foot'),
    within: 0.2,
    missing: null,
  },
  {
    code: 'dash.bar',
    book: 'scca-gcr',
    inside: `${front()}\nmirror left { node dash-end = on side where z = 600 }\ntube dash as dash-bar { section t38; path dash-end.left, dash-end.right }`,
    outside: front(),
    within: 1,
    missing: null,
  },
  { code: 'harness.ends', book: 'fia-253', inside: bar('diagonal'), outside: bar('brace'), within: 1, missing: null },
  { code: 'harness.diagonal', book: 'nasa-ccr', inside: bent(37.9), outside: bent(38.2), within: 0.4, missing: null },
  {
    code: 'foot.missing',
    book: 'fia-253',
    inside: stays(),
    outside: stays()
      .replace(/\n {2}foot stay-plate.*/, '')
      .replace('path stay-top, stay-foot', 'path stay-top, stay-foot; last open'),
    within: 1,
    missing: null,
  },
  {
    code: 'foot.area',
    book: 'fia-253',
    inside: footExample('120 x 100 x 3'),
    outside: footExample('119.9 x 100 x 3'),
    within: 11,
    missing: null,
  },
  {
    code: 'foot.side',
    book: 'nasa-ccr',
    inside: footExample('140 x 50.8 x 3'),
    outside: footExample('140 x 50.7 x 3'),
    within: 0.11,
    missing: null,
  },
  {
    code: 'foot.thickness',
    book: 'scca-gcr',
    stage: 'parts',
    inside: welded(4.77, '; bolts 3 x 10 mm'),
    outside: welded(4.7, '; bolts 3 x 10 mm'),
    within: 0.1,
    missing: [welded(3, ''), /bolts are not written/],
  },
  {
    code: 'foot.tube-wall',
    book: 'scca-gcr',
    inside: footExample('140 x 100 x 2.5', '; bolts 3 x 10 mm'),
    outside: footExample('140 x 100 x 2.4', '; bolts 3 x 10 mm'),
    within: 0.11,
    missing: null,
  },
  {
    code: 'foot.bolts',
    book: 'fia-253',
    inside: footExample('140 x 100 x 3', '; bolts 3 x M8'),
    outside: footExample('140 x 100 x 3', '; bolts 2 x M8'),
    within: 1,
    missing: [footExample('140 x 100 x 3', ''), /bolts are not written/],
  },
  {
    code: 'foot.bolt-size',
    book: 'fia-253',
    inside: footExample('140 x 100 x 3', '; bolts 3 x M8'),
    outside: footExample('140 x 100 x 3', '; bolts 3 x 7.9 mm'),
    within: 0.11,
    missing: [footExample('140 x 100 x 3', ''), /bolts are not written/],
  },
  // The stage's hoop stands on two.
  { code: 'foot.count', book: 'scca-gcr', inside: plates(6), outside: plates(7), within: 1, missing: null },
  {
    code: 'hole.existing',
    book: 'fia-253',
    stage: 'parts',
    inside: existing('no'),
    outside: existing('yes'),
    within: 1,
    missing: null,
  },
  {
    code: 'strap.shoulder-angle',
    book: 'nasa-ccr',
    inside: belts('(240, 300, 817)'),
    outside: belts('(240, 300, 818)'),
    within: 0.5,
    missing: [belts('(240, 300, 740)', '', '', NO_SHOULDER), /shoulder is not written/],
  },
  {
    code: 'strap.shoulder-drop',
    book: 'nhra',
    inside: belts('(240, 300, 788)'),
    outside: belts('(240, 300, 792)'),
    within: 4,
    missing: [belts('(240, 300, 740)', '', '', NO_SHOULDER), /shoulder is not written/],
  },
  {
    code: 'strap.shoulder-reach',
    book: 'harness-makers',
    inside: belts('(87, 300, 740)'),
    outside: belts('(90, 300, 740)'),
    within: 5,
    missing: [belts('(240, 300, 740)', '', '', NO_SHOULDER), /shoulder is not written/],
  },
  {
    code: 'strap.spacing',
    book: 'scca-gcr',
    inside: belts('(240, 300, 740)', 'at y = 376; ', 'at y = 224; '),
    outside: belts('(240, 300, 740)', 'at y = 376.5; ', 'at y = 224; '),
    within: 0.2,
    missing: null,
  },
  {
    // 76.2 between the edges and 75 of webbing.
    code: 'strap.gap',
    book: 'harness-makers',
    inside: belts('(240, 300, 740)', 'at y = 375; ', 'at y = 223.9; ', YOKE),
    outside: belts('(240, 300, 740)', 'at y = 375; ', 'at y = 223.7; ', YOKE),
    within: 0.2,
    missing: null,
  },
  {
    code: 'strap.spacing-formula',
    book: 'harness-makers',
    inside: belts('(90, 300, 740)', 'at y = 371; ', 'at y = 229; ', NO_YOKE),
    outside: belts('(90, 300, 740)', 'at y = 373; ', 'at y = 226; ', NO_YOKE),
    within: 6,
    missing: [belts('(240, 300, 740)', '', '', NO_SHOULDER), /shoulder is not written/],
  },
  {
    code: 'strap.crossing',
    book: 'harness-makers',
    inside: belts('(490, 300, 740)'),
    outside: belts('(497, 300, 740)'),
    within: 5,
    missing: null,
  },
];
