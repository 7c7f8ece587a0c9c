/** Cars for the edges of the shop's own rules. Trade facts; where one has a source it stands in the book. */
import { stays } from '../../server/rules/examples';
import { footExample } from '../../server/rules/feet';
import { dippedExample } from '../../server/rules/galvanized';
import type { Edge } from './edge-cars';

/** A brace that stands square on the level top of the hoop (od 45). */
const prop = (section: string, end = '(-400, 0, 1000)'): string =>
  `section probe { ${section} }\nnode pa = ${end}\nnode pb = on hoop nearest (0, 0, 1000)\ntube prop as brace { section probe; path pa, pb; first open }`;

/** Two braces square on the level top, side by side: their edges are nearest on the line between them. */
const pair = (apart: number): string =>
  [0, apart]
    .map(
      (y, i) =>
        `node low-${String(i)} = (-300, ${String(y)}, 1000)\nnode high-${String(i)} = on hoop nearest (0, ${String(y)}, 1000)\ntube strut-${String(i)} as brace { section t38; path low-${String(i)}, high-${String(i)}; first open }`,
    )
    .join('\n');

const beside = (z: number): string =>
  `node pa = (-400, 0, ${String(z)})\nnode pb = (0, 0, ${String(z)})\ntube prop as brace { section t20; path pa, pb; first open; last onto hoop }\nsection t20 { od 20; wall 2 }`;

const arch = (wall: string, material = 'kind cold-drawn-seamless'): string =>
  `vehicle { mass 900 kg with driver }
material seamless { yield 360 MPa; tensile 490 MPa; ${material} }
section probe { od 45; wall ${wall}; material seamless }
mirror left { node low = (300, 400, 0); node top = (300, 350, 900) }
tube arch as main-rollbar { section probe; die d45; path low.left, top.left, top.right, low.right; first open; last open }`;

const elbow = (wall: number): string =>
  `die small { od 38; radius 76 }\nsection probe { od 38; wall ${String(wall)} }\nnode a = (0, 0, 0)\nnode b = (0, 0, 600)\nnode c = (600, 0, 600)\ntube t { section probe; die small; path a, b, c; first open; last open }`;

const bar = (dia: number): string =>
  `mirror left { node bar-end = on hoop where z = 700 }\ntube bar as harness-bar { section t38; path bar-end.left, bar-end.right }\nvent bar -> hoop { at bar-end.left; dia ${String(dia)} }`;

/** The bend of the die with 114 mm begins 114 mm before the corner, at 486; clock 180 degrees is aft, away from its middle. */
const bent = (from: number): string =>
  `node a = (0, 0, 0)\nnode b = (0, 0, 600)\nnode c = (600, 0, 600)\ntube t { section t38; die d38; path a, b, c; first open; last open }\nvent t -> air { at a; from ${String(from)}; clock 180 deg; dia 4 }`;

const long = (from: number): string =>
  `node a = (0, 0, 0)\nnode b = (0, 0, 900)\ntube t { section t38; path a, b; first open; last open }\nvent t -> air { at a; from ${String(from)}; dia 4 }`;

const beside50 = (seat: string, y: number): string =>
  `node a = (700, ${String(y)}, 262)\nnode b = (0, ${String(y)}, 262)\ntube bar as door-bar { section t38; path a, b; first open; last open }\nseat driver { ${seat}; recline 10 deg; slot-spacing 220; back 45; width 480 }`;

const CAP =
  'node left = (-400, 300, 700)\nnode right = (-400, -300, 700)\ntube cap as brace { section t38; path left, right; first open; last open }\n';

const dipped = (dia: string): string =>
  `section probe { od 54; wall 2.5 }\nnode low = (-400, 0, 0)\nnode high = (-400, 0, 700)\ntube post as brace { section probe; path low, high; first open; last open; finish galvanized }\nvent post -> air { at low; from 60; dia ${dia} }`;

const dippedStrut = (from: number): string =>
  `node high = on hoop nearest (0, 0, 1000)\nnode low = (-500, 0, 1000)\ntube strut as brace { section t38; path high, low; last open; finish galvanized }\nvent strut -> air { at high; from ${String(from)}; clock 180 deg; dia 10 }`;

const pinned = (facts: string): string =>
  `${stays('at 60 before crown')}\nmirror left { fitting pin { tube stay first; kind clevis; shear double; bolt M12 8.8; ${facts} } }`;

export const SHOP_EDGES: readonly Edge[] = [
  {
    // A hoop of od 45, a stay of od 38: at most 22.5 + 38 from the axis of the hoop; at least 22.5 + 1.5 x 12.
    code: 'fitting.stand-off',
    book: 'shop',
    inside: pinned('stand-off 60.5'),
    outside: pinned('stand-off 60.7'),
    within: 0.3,
    missing: [pinned('welded no'), /stand-off 35/],
  },
  {
    // An equal joint at a right angle has a groove of 0.9 walls: less in a thin tube.
    code: 'joint.gap',
    book: 'shop',
    inside: prop('od 45; wall 3.4'),
    outside: prop('od 45; wall 3.9'),
    within: 0.4,
    missing: null,
  },
  {
    // The bend of the crown begins 135 tan(43.57 deg) = 128 mm from the corner; a stay at 54 degrees covers 30 mm.
    code: 'joint.toe-to-bend',
    book: 'shop',
    inside: stays('at 54 before crown'),
    outside: stays('at 51 before crown'),
    within: 3,
    missing: null,
  },
  {
    // Between edges that face each other: 57.1 - 38 = 19.1; the curve of the through tube does not come into it.
    code: 'joint.toe-spacing',
    book: 'shop',
    inside: pair(60.6),
    outside: pair(60.4),
    within: 0.2,
    missing: null,
  },
  {
    code: 'joint.od-ratio',
    book: 'shop',
    inside: prop('od 9; wall 1'),
    outside: prop('od 8.7; wall 1'),
    within: 0.01,
    missing: null,
  },
  {
    // A quarter of 45 is 11.25.
    code: 'joint.eccentricity',
    book: 'shop',
    inside: beside(988.8),
    outside: beside(988.6),
    within: 0.2,
    missing: null,
  },
  {
    // .118 in is 2.997 mm: over 6/7 of the wall, at three diameters, 3.497.
    code: 'bend.thinning',
    book: 'shop',
    also: 'nhra',
    stage: 'parts',
    inside: arch('3.5'),
    outside: arch('3.45'),
    within: 0.1,
    missing: null,
  },
  {
    // (4 + 0.2 x 38 / wall + 0.5) / 2 = 7 at a wall of 0.8 mm.
    code: 'bend.difficulty',
    book: 'shop',
    stage: 'parts',
    inside: elbow(0.801),
    outside: elbow(0.797),
    within: 0.05,
    missing: null,
  },
  { code: 'vent.size', book: 'shop', inside: bar(3.2), outside: bar(3.1), within: 0.11, missing: null },
  {
    code: 'vent.bend',
    book: 'shop',
    stage: 'parts',
    inside: bent(484),
    outside: bent(485),
    within: 1.1,
    missing: null,
  },
  {
    code: 'vent.span',
    book: 'shop',
    stage: 'parts',
    inside: long(300),
    outside: long(301),
    within: 1.1,
    missing: null,
  },
  {
    // 45 mm across 69 leaves 12.
    code: 'foot.edge',
    book: 'shop',
    inside: footExample('140 x 69 x 3'),
    outside: footExample('140 x 68.8 x 3'),
    within: 0.2,
    missing: null,
  },
  {
    // 1.5 x 8 = 12: the plate's edge is 70 from its middle.
    code: 'foot.bolt-edge',
    book: 'shop',
    inside: footExample('140 x 100 x 3', '; bolts 2 x M8; bolts-at (forward 58, out 0), (aft 50, out 0)'),
    outside: footExample('140 x 100 x 3', '; bolts 2 x M8; bolts-at (forward 58.2, out 0), (aft 50, out 0)'),
    within: 0.21,
    missing: [footExample('140 x 100 x 3', '; bolts-at (forward 58, out 0), (aft 50, out 0)'), /bolts are not written/],
  },
  {
    // The side of the shell is at 300 + 240 = 540, the bar's surface 19 inside its axis.
    code: 'door.seat-gap',
    book: 'shop',
    stage: 'parts',
    inside: beside50('hip (275, 300, 262); slot-height 500', 609),
    outside: beside50('hip (275, 300, 262); slot-height 500', 608.8),
    within: 0.21,
    missing: [beside50('slots (90, 300, 750)', 609), /hip/],
  },
  {
    code: 'galvanized.sealed',
    book: 'shop',
    inside: dippedExample('galvanized', '; hole 24'),
    outside: CAP + dippedExample('galvanized', ''),
    within: 1,
    missing: null,
  },
  {
    // A quarter of the bore of 54 x 2.5 is 12.25.
    code: 'galvanized.hole',
    book: 'shop',
    stage: 'parts',
    inside: dipped('12.25'),
    outside: dipped('12.1'),
    within: 0.16,
    missing: null,
  },
  {
    // 33 mm of bore: sqrt 0.45 of it is 22.14.
    code: 'galvanized.foot',
    book: 'shop',
    inside: dippedExample('galvanized', '; hole 22.2', '; last open'),
    outside: dippedExample('galvanized', '; hole 21.9', '; last open'),
    within: 0.02,
    missing: null,
  },
  {
    // A brace of 38 square on the level top: the inside of its wall (16.5) asks for a cut of sqrt(22.5² - 16.5²) = 15.3 there.
    code: 'galvanized.weld',
    book: 'shop',
    inside: dippedStrut(31.5),
    outside: dippedStrut(35),
    within: 4,
    missing: null,
  },
];
