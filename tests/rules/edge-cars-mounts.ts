/** Cars for the edges of the rules of feet, holes and straps. */
import { belts, stays } from '../../server/rules/examples';
import { footExample } from '../../server/rules/feet';
import type { Edge } from './edge-cars';

const NO_YOKE = 'shoulder (forward 110, up 30)';
const YOKE = `${NO_YOKE}; yoke 30`;
const NO_SHOULDER = 'yaw 0';
const existing = (yes: string): string =>
  `node a = (0, 700, 0)\nnode b = (0, 700, 900)\nnode c = (0, -700, 0)\nnode d = (0, -700, 900)\ntube left as main-rollbar { section t45; path a, b; first open; last open; existing ${yes} }\ntube right { section t45; path c, d; first open; last open }\nnode e = on left at 50 %\nnode f = on right at 50 %\ntube bar as transverse { section t38; path e, f }\nvent bar -> left { at e; dia 5 }`;
const plates = (n: number): string =>
  Array.from({ length: n }, (_, i) => {
    const at = String(300 + 200 * i);
    return `node p${String(i)} = (${at}, 0, 0)\nnode q${String(i)} = (${at}, 0, 300)\ntube u${String(i)} { section t38; path p${String(i)}, q${String(i)}; last open }\nfoot f${String(i)} { at p${String(i)}; plate 140 x 100 x 3; hole 8 }`;
  }).join('\n');
/** The stage's own hoop would be judged as well: here the other plates stand alone. */
const welded = (mm: number, bolts: string): string =>
  `mirror left { node heel = (0, 300, 0); node peak = (0, 300, 900); tube post as front-rollbar { section t45; path heel, peak; last open }; foot plate { at heel; plate 140 x 100 x ${String(mm)}${bolts}; hole 8 } }`;

export const MOUNT_EDGES: readonly Edge[] = [
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
