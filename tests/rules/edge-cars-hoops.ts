/** Cars for the edges of the rules of tubes, bends and hoops. */
import { diagonal, front, stays } from '../../server/rules/examples';
import { FOUR_BENDS, SIX_BENDS, TWO_BENDS } from '../../server/rules/hoop-examples';
import type { Edge } from './edge-cars';

const stay = (section: string): string =>
  `${section}\nmirror left { node top = on hoop at 30 before crown\n node low = (-700, 500, 300)\n tube stay as backstay { section probe; path top, low; last open } }`;

const MATERIAL = 'material cds { yield 360 MPa; tensile 490 MPa; kind cold-drawn-seamless }';
const prop = (section: string, more = '', role = 'transverse'): string =>
  `${more}\nsection probe { ${section} }\nnode pa = (-400, 0, 0)\nnode pb = on hoop nearest (0, 0, 1000)\ntube prop as ${role} { section probe; path pa, pb; first open }`;
const leg = (x: number): string => front(`(${String(x)}, 600, 500)`, '(1000, 610, 0)');
const die = (radius: number): string =>
  `die probe { od 45; radius ${String(radius)}; grip 90; between 60 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 800)\nnode c = (0, -800, 800)\ntube t { section t45; die probe; path a, b, c; first open; last open }`;

export const HOOP_EDGES: readonly Edge[] = [
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
];
