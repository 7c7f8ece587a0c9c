/** More cars for the edges of the rules: steel, welds, joints, feet, padding, anchorages and seats of Appendix J, Article 253. */
import { anchorExample } from '../../server/rules/anchors';
import { belts, front, stays } from '../../server/rules/examples';
import { footExample } from '../../server/rules/feet';
import { fittingExample } from '../../server/rules/fittings';
import { paddedRoof } from '../../server/rules/padding';
import { mountExample } from '../../server/rules/seat-mounts';
import type { Edge } from './edge-cars';

const steel = (parts: string): string =>
  `material cds { yield 360 MPa; tensile 490 MPa; kind cold-drawn-seamless${parts} }\nsection s38 { od 38; wall 2.5; material cds }\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\ntube prop as transverse { section s38; path a, b; first open }`;
/** Two tubes in the car, and a new one between them. */
const added = (vehicle: string, existing = 'yes'): string =>
  `${vehicle}\nnode a = (0, 700, 0)\nnode b = (0, 700, 900)\nnode c = (0, -700, 0)\nnode d = (0, -700, 900)\ntube left as main-rollbar { section t45; path a, b; first open; last open; existing ${existing} }\ntube right as main-rollbar { section t45; path c, d; first open; last open; existing ${existing} }\nnode e = on left at 50 %\nnode f = on right at 50 %\ntube bar as transverse { section t38; path e, f }`;
const many = (n: number): string =>
  Array.from({ length: n }, (_, i) => {
    const y = String(-200 + 100 * i);
    return `node r${String(i)} = on hoop nearest (0, ${y}, 1000)\nnode f${String(i)} = (400, ${y}, 1000)\ntube bar${String(i)} as brace { section t38; path r${String(i)}, f${String(i)}; last open }\nfitting j${String(i)} { tube bar${String(i)} first; kind muff }`;
  }).join('\n');
const BAR =
  'mirror left { node bar-end = on hoop where z = 700 }\ntube bar as harness-bar { section t38; path bar-end.left, bar-end.right }';
const oneBolt = (facts: string): string =>
  `${stays().replace('; bolts 2 x M8', '')}\nmirror left { fitting pin { tube stay last; kind clevis${facts}; bolt M12 8.8 } }`;
const BOLTS_AT = (y: string): string =>
  `; bolts 3 x M8; bolts-at (forward 50, out ${y}), (forward 50, in ${y}), (aft 50, out 0)`;
const pad = (facts: string, tube = 'v'): string => paddedRoof(`  padding ${tube} { thickness 25; ${facts} }\n`);
const bolted = (facts: string): string => belts('(240, 300, 740)', `fixing bolt; ${facts}`);
const held = (how: string, shell = 'aluminium'): string =>
  `vehicle { shell ${shell} }\n${footExample('140 x 100 x 3', `; bolts 3 x M8; counter-plate 160 x 120 x 3${how}`)}`;
const cushion = (mm: string): string =>
  `seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45; cushion ${mm} }`;

export const FIA_OUTFIT_EDGES: readonly Edge[] = [
  {
    code: 'steel.analysis',
    book: 'fia-253',
    inside: steel('; carbon 0.3 %; manganese 1.7 %; others 0.6 %'),
    outside: steel('; carbon 0.31 %; manganese 1.71 %; others 0.61 %'),
    within: 0.011,
    missing: [steel(''), /analysis of its steel/],
  },
  {
    code: 'weld.round',
    book: 'fia-253',
    inside: 'welding { weld round; process tig }',
    outside: `welding { weld round; process tig }\n${stays()}\njoint stay-top.left { weld part }`,
    within: 1,
    missing: ['', /how far round/],
  },
  {
    code: 'weld.process',
    book: 'fia-253',
    inside: 'welding { process mig }',
    outside: 'welding { process mma }',
    within: 1,
    missing: ['', /welding process/],
  },
  {
    code: 'tube.carries',
    book: 'fia-253',
    inside: stays(),
    outside: stays().replace('path stay-top, stay-foot', 'path stay-top, stay-foot; carries "water line"'),
    within: 1,
    missing: null,
  },
  {
    code: 'hole.sleeve',
    book: 'fia-253',
    inside: 'hole hoop for bolt { from 400; dia 12; sleeve yes }',
    outside: 'hole hoop for bolt { from 400; dia 12 }',
    within: 1,
    missing: null,
  },
  {
    code: 'tube.finish',
    book: 'fia-253',
    inside: 'vehicle { finish powder }',
    outside: 'vehicle { finish chrome }',
    within: 1,
    missing: ['', /coated/],
  },
  {
    code: 'cage.route',
    book: 'fia-253',
    inside: `vehicle { homologated "2020-12-31"; cage self-built }\n${front()}`,
    outside: `vehicle { homologated "2021-01-01"; cage self-built }\n${front()}`,
    within: 1,
    missing: [`vehicle { homologated "2021-01-01" }\n${front()}`, /how the cage came/],
  },
  {
    code: 'cage.identified',
    book: 'fia-253',
    inside: 'vehicle { cage fia; identified yes }',
    outside: 'vehicle { cage fia; identified no }',
    within: 1,
    missing: ['vehicle { cage fia }', /maker's plate/],
  },
  {
    code: 'cage.modified',
    book: 'fia-253',
    stage: 'parts',
    inside: added('vehicle { cage asn; identified yes }', 'no'),
    outside: added('vehicle { cage asn; identified yes }'),
    within: 1,
    missing: [added(''), /certificate/],
  },
  {
    code: 'fitting.drawing',
    book: 'fia-253',
    inside: fittingExample('drawing "253-47"'),
    outside: fittingExample('drawing "253-48"'),
    within: 1,
    missing: [fittingExample('shear double'), /drawing/],
  },
  {
    code: 'fitting.welded',
    book: 'fia-253',
    inside: fittingExample('welded no'),
    outside: fittingExample('welded yes'),
    within: 1,
    missing: null,
  },
  { code: 'fitting.at-roof', book: 'fia-253', inside: many(4), outside: many(5), within: 1, missing: null },
  {
    code: 'fitting.on-harness-bar',
    book: 'fia-253',
    inside: BAR,
    outside: `${BAR}\nfitting pin { tube bar first; kind clevis; shear double; bolt M10 8.8 }`,
    within: 1,
    missing: null,
  },
  {
    code: 'fitting.bush',
    book: 'fia-253',
    inside: oneBolt('; shear double; bush yes'),
    outside: oneBolt('; shear double; bush no'),
    within: 1,
    missing: [oneBolt('; shear double'), /how its bolt is held/],
  },
  {
    // ISO 898-1: 8.8 is 800 MPa nominal, 6.8 is 600.
    code: 'bolt.grade',
    book: 'fia-253',
    inside: footExample('140 x 100 x 3', '; bolts 3 x M8 8.8'),
    outside: footExample('140 x 100 x 3', '; bolts 3 x M8 6.8'),
    within: 200.1,
    missing: [footExample('140 x 100 x 3', '; bolts 3 x M8'), /no grade of any bolt/],
  },
  {
    // Two bolts 50 forward and as far to the sides as 50 tan 30 = 28.87.
    code: 'foot.bolt-angle',
    book: 'fia-253',
    inside: footExample('140 x 100 x 3', BOLTS_AT('28.9')),
    outside: footExample('140 x 100 x 3', BOLTS_AT('28.8')),
    within: 0.2,
    missing: [footExample('140 x 100 x 3'), /where the bolts of the feet stand/],
  },
  {
    code: 'foot.held',
    book: 'fia-253',
    inside: held(' bonded'),
    outside: held(' welded'),
    within: 1,
    missing: [footExample('140 x 100 x 3'), /material of the shell/],
  },
  {
    code: 'padding.missing',
    book: 'fia-253',
    inside: `${front()}\npadding header { thickness 25; standard fia 8857 }\npadding hoop { thickness 25; standard fia 8857 }\nmirror left { padding side { thickness 25; standard fia 8857 } }`,
    outside: pad('standard fia 8857', 'side'),
    within: 1,
    missing: [paddedRoof(''), /no padding is written/],
  },
  {
    code: 'padding.standard',
    book: 'fia-253',
    inside: pad('standard fia 8857'),
    outside: pad('standard sfi 45.1'),
    within: 1,
    missing: [pad('fixed yes'), /standard of the padding/],
  },
  {
    code: 'padding.flame',
    book: 'fia-253',
    inside: pad('standard foam; flame-retardant yes'),
    outside: pad('standard foam; flame-retardant no'),
    within: 1,
    missing: [pad('standard foam'), /flame-retardant is not written/],
  },
  {
    code: 'padding.fixed',
    book: 'fia-253',
    inside: pad('standard fia 8857; fixed yes'),
    outside: pad('standard fia 8857; fixed no'),
    within: 1,
    missing: [pad('standard fia 8857'), /is fixed is not written/],
  },
  {
    code: 'strap.insert',
    book: 'fia-253',
    inside: bolted('bolt M12 8.8; insert yes; '),
    outside: bolted('bolt M12 8.8; insert no; '),
    within: 1,
    missing: [bolted('bolt M12 8.8; '), /whether an insert/],
  },
  {
    // 7/16 in is 11.11 mm.
    code: 'strap.bolt',
    book: 'fia-253',
    inside: bolted('bolt 7/16 in 8.8; insert yes; '),
    outside: bolted('bolt 11 mm 8.8; insert yes; '),
    within: 0.12,
    missing: [bolted('insert yes; '), /its bolt is not written/],
  },
  {
    code: 'anchor.load',
    book: 'fia-253',
    inside: anchorExample('load 14700 N'),
    outside: anchorExample('load 14690 N'),
    within: 10.1,
    missing: [anchorExample('through-seat yes'), /the load that it is proved for/],
  },
  {
    code: 'anchor.shared',
    book: 'fia-253',
    inside: `${anchorExample('load 15 kN', 'shoulder')}\nanchor inner as shoulder { seat driver; at (200, 526, 120) }`,
    outside: `${anchorExample('load 15 kN', 'shoulder')}\nanchor inner as shoulder { seat driver; at (200, 524, 120) }`,
    within: 1,
    missing: null,
  },
  {
    code: 'anchor.plate-area',
    book: 'fia-253',
    inside: anchorExample('plate 80 x 50 x 3'),
    outside: anchorExample('plate 79.9 x 50 x 3'),
    within: 6,
    missing: [anchorExample('load 15 kN'), /plate is not written/],
  },
  {
    code: 'anchor.plate-thickness',
    book: 'fia-253',
    inside: anchorExample('plate 80 x 50 x 3'),
    outside: anchorExample('plate 80 x 50 x 2.9'),
    within: 0.11,
    missing: [anchorExample('load 15 kN'), /plate is not written/],
  },
  {
    code: 'anchor.through-seat',
    book: 'fia-253',
    inside: anchorExample('through-seat yes'),
    outside: anchorExample('through-seat no'),
    within: 1,
    missing: [anchorExample('load 15 kN'), /passes through the seat is not written/],
  },
  {
    code: 'seat-mount.points',
    book: 'fia-253',
    inside: mountExample(),
    outside: mountExample({ points: 'points 3' }),
    within: 1,
    missing: [mountExample({ points: '' }), /number of its points/],
  },
  {
    code: 'seat-mount.bolt-size',
    book: 'fia-253',
    inside: mountExample(),
    outside: mountExample({ bolts: 'bolts 4 x 7.9 mm 8.8' }),
    within: 0.11,
    missing: [mountExample({ bolts: '' }), /bolts to the shell/],
  },
  {
    code: 'seat-mount.seat-bolts',
    book: 'fia-253',
    inside: mountExample(),
    outside: mountExample({ 'seat-bolts': 'seat-bolts 3 x M8 8.8' }),
    within: 1,
    missing: [mountExample({ 'seat-bolts': '' }), /bolts to the seat/],
  },
  {
    code: 'seat-mount.area',
    book: 'fia-253',
    inside: mountExample({ plate: 'plate 80 x 50 x 3' }),
    outside: mountExample({ plate: 'plate 79.9 x 50 x 3' }),
    within: 6,
    missing: [mountExample({ 'counter-plate': '' }), /counter-plate is not written/],
  },
  {
    code: 'seat-mount.thickness',
    book: 'fia-253',
    inside: mountExample({ plate: 'plate 80 x 60 x 5', 'counter-plate': '', material: 'material aluminium' }),
    outside: mountExample({ plate: 'plate 80 x 60 x 4.9', 'counter-plate': '', material: 'material aluminium' }),
    within: 0.11,
    missing: [mountExample({ material: '' }), /what its supports are made of/],
  },
  {
    code: 'seat-mount.length',
    book: 'fia-253',
    inside: mountExample({ plate: 'plate 60 x 70 x 3' }),
    outside: mountExample({ plate: 'plate 59.9 x 70 x 3' }),
    within: 0.11,
    missing: [mountExample({ plate: '' }), /contact is not written/],
  },
  {
    code: 'seat-mount.load',
    book: 'fia-253',
    inside: mountExample({ load: 'load 15000 N' }),
    outside: mountExample({ load: 'load 14999 N' }),
    within: 1.1,
    missing: [mountExample({ load: '' }), /load that each point/],
  },
  {
    code: 'seat-mount.quick-release',
    book: 'fia-253',
    inside: mountExample({ load: 'load 15 kN; quick-release 18 kN' }),
    outside: mountExample({ load: 'load 15 kN; quick-release 17.9 kN' }),
    within: 101,
    missing: null,
  },
  {
    code: 'seat.cushion',
    book: 'fia-253',
    inside: cushion('50'),
    outside: cushion('50.1'),
    within: 0.11,
    missing: null,
  },
];
