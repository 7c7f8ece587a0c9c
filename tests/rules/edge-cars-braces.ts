/** Cars for the edges of the rules of what stiffens the hoops: stays, diagonals, doors, roof, pillars. */
import { diagonal, front, stays } from '../../server/rules/examples';
import { bentPillar, pillarExample } from '../../server/rules/pillars';
import type { Edge } from './edge-cars';

const roof = (rear: number): string =>
  `mirror left { node v-rear = on hoop at ${String(rear)} after crown; node v-front = on header at 46 %; tube v as roof-bar { section t38; path v-rear, v-front } }`;
const bar = (high: string): string =>
  `node end-a = on hoop where z = 700 near (0, 600, 700)\nnode end-b = (0, 0, 700)\nnode top = on hoop nearest (0, 0, 1000)\ntube post as ${high} { section t38; path end-b, top; first open }\nnode end-c = on post at 5 from end-b\ntube bar as harness-bar { section t38; path end-a, end-c; first onto hoop; last onto post }`;

const seat = (y: number, name = 'driver'): string =>
  `seat ${name} { slots (240, ${String(y)}, 740); recline 10 deg; slot-spacing 220; back 45 }`;
const seats = `${seat(300)}\n${seat(-300, 'mate')}`;
const doors = (n: number): string =>
  Array.from({ length: n }, (_, i) => {
    const z = String(180 + 130 * i);
    return `mirror left { node da${String(i)} = on side where z = ${z}; node db${String(i)} = on hoop where z = ${z}; tube d${String(i)} as door-bar { section t38; path da${String(i)}, db${String(i)} } }`;
  }).join('\n');
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
const onBar = (x: boolean): string =>
  `mirror left { node bar-end = on hoop where z = 700 }\ntube bar as harness-bar { section t38; path bar-end.left, bar-end.right }\nnode low = on ${x ? 'bar at 60 %' : 'hoop at 70 from foot.right'}\nnode high = on hoop at 110 before crown.left\ntube cross as diagonal { section t38; path high, low }`;

export const BRACE_EDGES: readonly Edge[] = [
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
];
