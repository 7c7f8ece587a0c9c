/** Appendix J, Article 253-8.2 and 8.3.1 to 8.3.2.5: the structure of a cage that is built by the text of the book. */
import type { Limit } from '../../rule';
import { atLeast, atMost, between, memory, own, seen } from '../limit';
import { at, text } from './where';

/**
 * "Less than 100 mm". The drawing that shows how it is measured was not seen: from axis to axis is the careful reading,
 * from edge to edge a tube of 38 to 50 mm measures less.
 */
const NEAR = {
  strict: true,
  borderline: { upTo: 125, says: 'how the drawing measures was not seen' },
} as const;

export const STRUCTURE: readonly Limit[] = [
  // Hoops
  memory('hoop.missing', atLeast(1, '1'), at('253-8.3.1'), { rows: ['253-8.3.1-253-1', '253-8.2.2'] }),
  memory('hoop.flat', atMost(5, 'mm'), at('253-8.2.3'), { rows: ['253-8.2.3'] }),
  memory('hoop.tilt', atMost(10, 'deg'), at('253-8.2.3'), { rows: ['253-8.2.3'] }),
  memory('hoop.leg-bends', atMost(1, '1'), at('253-8.3.1'), { of: ['main leg'], rows: ['253-8.3.1-mainleg'] }),
  memory('hoop.leg-bends', atMost(1, '1'), at('253-8.3.1'), { of: ['front leg'], rows: ['253-8.3.1-frontleg'] }),
  memory('hoop.rear-leg', atMost(5, 'mm'), at('253-8.2.5'), { rows: ['253-8.2.5'] }),
  memory('hoop.front-foot', atMost(0, 'mm'), at('253-8.3.1'), {
    severity: 'information',
    rows: ['253-8.3.1-frontfoot'],
  }),
  memory('structure.missing', atMost(0, '1'), at('253-8.3.1'), {
    structure: 'cage',
    rows: ['253-8.3.1-253-1', '253-8.3.1-253-2', '253-8.3.1-253-3', '253-8.2.1', '253-8.2.7', '253-8.2.8'],
  }),
  memory('structure.roof-level', own('mm'), at('253-8.3.1'), {
    structure: 'cage',
    rows: ['253-8.3.1-roofjoin', '253-8.2.6'],
  }),
  // Backstays
  memory('backstay.missing', atLeast(2, '1'), at('253-8.3.1'), { rows: ['253-8.3.1-bs-both'] }),
  memory('backstay.angle', atLeast(30, 'deg'), at('253-8.3.1'), { rows: ['253-8.3.1-bs-angle'] }),
  memory('backstay.rearward', atLeast(0, 'mm'), at('253-8.3.1'), { rows: ['253-8.3.1-bs-rear'] }),
  memory('backstay.crown', atMost(100, 'mm'), at('253-8.3.1'), {
    severity: 'information',
    rows: ['253-8.3.1-bs-attach'],
  }),
  // Diagonals
  memory('diagonal.missing', atLeast(1, '1'), at('253-8.3.2.1.1'), {
    structure: 'bar',
    counts: ['backstay-diagonal'],
    rows: ['253-8.3.2.1.1-old'],
  }),
  memory('diagonal.missing', atLeast(1, '1'), at('253-8.3.2.1.1'), {
    structure: 'cage',
    counts: ['backstay-diagonal'],
    before: '2002-01-01',
    rows: ['253-8.3.2.1.1-old', '253-8.2.9'],
  }),
  memory('diagonal.missing', atLeast(2, '1'), at('253-8.3.2.1.1'), {
    structure: 'cage',
    since: '2002-01-01',
    rows: ['253-8.3.2.1.1-new'],
  }),
  memory('diagonal.cross', atLeast(1, '1'), at('253-8.3.2.1.1'), {
    structure: 'cage',
    since: '2002-01-01',
    rows: ['253-8.3.2.1.1-new'],
  }),
  memory('diagonal.top', atMost(100, 'mm'), at('253-8.3.2.1.1'), { ...NEAR, rows: ['253-8.3.2.1.1-top'] }),
  memory('diagonal.bottom', atMost(100, 'mm'), at('253-8.3.2.1.1'), { ...NEAR, rows: ['253-8.3.2.1.1-bot'] }),
  memory('diagonal.feet', atMost(300, 'mm'), at('253-8.3.2.1.1'), { rows: ['253-8.3.2.1.1-253-6'] }),
  // Doors
  memory('door.bars', atLeast(2, '1'), at('253-8.3.2.1.2'), {
    structure: 'cage',
    of: ["the driver's side", "the passenger's side", 'a side'],
    since: '2007-01-01',
    rows: ['253-8.3.2.1.2-count'],
  }),
  seen(
    'door.bars',
    atLeast(1, '1'),
    { citation: `${at('253-8.3.2.1.2')}, as quoted in a forum`, edition: '' },
    {
      structure: 'cage',
      of: ["the driver's side", "the passenger's side", 'a side'],
      severity: 'warning',
      rows: ['253-8.3.2.1.2-count', '253-8.2-doorbar'],
    },
  ),
  memory('door.alike', atMost(0, '1'), at('253-8.3.2.1.2'), { rows: ['253-8.3.2.1.2-sym'] }),
  // Roof and pillars
  memory('roof.bars', atLeast(2, '1'), at('253-8.3.2.1.3'), {
    structure: 'cage',
    of: ['two seats'],
    since: '2005-01-01',
    rows: ['253-8.3.2.1.3'],
  }),
  memory('roof.bars', atLeast(1, '1'), at('253-8.3.2.1.3'), {
    structure: 'cage',
    of: ['one seat'],
    since: '2005-01-01',
    rows: ['253-8.3.2.1.3', '253-8.3.2.1.3-curve'],
  }),
  memory('roof.form', own('1'), at('253-8.3.2.1.3'), {
    structure: 'cage',
    of: ['two bars'],
    accepts: ['X', 'V to the front', 'V to the rear'],
    since: '2005-01-01',
    rows: ['253-8.3.2.1.3'],
  }),
  memory('roof.form', own('1'), at('253-8.3.2.1.3'), {
    structure: 'cage',
    of: ['one seat'],
    accepts: ["one diagonal to the driver's front corner"],
    since: '2005-01-01',
    rows: ['253-8.3.2.1.3-curve'],
  }),
  memory('roof.gap', atMost(100, 'mm'), at('253-8.3.2.1.3'), {
    structure: 'cage',
    since: '2005-01-01',
    rows: ['253-8.3.2.1.3-V'],
  }),
  memory('roof.ends', atMost(100, 'mm'), at('253-8.3.2.1.3'), {
    ...NEAR,
    structure: 'cage',
    rows: ['253-8.3.2.1.3-ends'],
  }),
  memory('pillar.missing', atMost(200, 'mm'), at('253-8.3.2.1.4'), {
    structure: 'cage',
    since: '2006-01-01',
    rows: ['253-8.3.2.1.4'],
  }),
  memory('pillar.bend', atMost(20, 'deg'), at('253-8.3.2.1.4'), { rows: ['253-8.3.2.1.4-bend'] }),
  memory('pillar.side-view', atMost(2, 'mm'), at('253-8.3.2.1.4'), { rows: ['253-8.3.2.1.4-bend'] }),
  memory('pillar.top', atMost(100, 'mm'), at('253-8.3.2.1.4'), {
    ...NEAR,
    structure: 'cage',
    rows: ['253-8.3.2.1.4-top'],
  }),
  memory('pillar.bottom', atMost(100, 'mm'), at('253-8.3.2.1.4'), {
    ...NEAR,
    structure: 'cage',
    rows: ['253-8.3.2.1.4-bot'],
  }),
  // Crossings and gussets
  memory('cross.whole', atLeast(1, '1'), at('253-8.3.1'), { of: ['diagonals'], rows: ['253-8.3.1-onepiece'] }),
  memory('cross.whole', atLeast(1, '1'), at('253-8.3.2.1.2'), {
    of: ['doors'],
    force: 'recommends',
    severity: 'information',
    rows: ['253-8.3.2.1.2-X'],
  }),
  memory('gusset.missing', atLeast(2, '1'), at('253-8.3.2.1.5'), {
    of: ['diagonals', 'doors', 'door and pillar'],
    rows: ['253-8.3.2.1.5'],
  }),
  memory('gusset.missing', atLeast(2, '1'), at('253-8.3.2.1.5'), {
    of: ['roof'],
    since: '2007-01-01',
    rows: ['253-8.3.2.1.5'],
  }),
  memory('gusset.kind', own('1'), at('253-8.2.14'), { of: ['corner'], accepts: ['sheet'], rows: ['253-8.2.14-t'] }),
  memory('gusset.kind', own('1'), at('253-8.3.2.1.5'), {
    of: ['door and pillar, not in one plane'],
    accepts: ['sheet', 'flat'],
    rows: ['253-8.3.2.1.5-plane'],
  }),
  memory('gusset.thickness', atLeast(1, 'mm'), at('253-8.2.14'), { rows: ['253-8.2.14-t', '253-8.3.2.2.6'] }),
  memory('gusset.legs', between(2, 4, '1'), at('253-8.2.14'), { rows: ['253-8.2.14-len'] }),
  memory('gusset.cut-out', atMost(1.5, '1'), `${at('253-8.2.14')}, texts from about 2012 on`, {
    rows: ['253-8.2.14-cut'],
  }),
  memory('gusset.hole', atMost(1, '1'), `${at('253-8.2.14')}, texts from about 2012 on`, { rows: ['253-8.2.14-cut'] }),
  // Whether a tube is such a reinforcement only the drawings tell: told, and no more.
  memory('brace.half-way', atMost(0.5, '1'), at('253-8.3.2.2.6'), {
    severity: 'information',
    rows: ['253-8.3.2.2.6'],
  }),
  memory('backstay-diagonal.form', own('1'), at('253-8.3.2.2.3'), {
    structure: 'cage',
    of: ['roof V to the rear'],
    accepts: ['V'],
    since: '2014-01-01',
    rows: ['253-8.3.2.2.3-253-22'],
  }),
  // What the cage must leave free
  seen('door.height', atMost(0.5, '1'), text('253-8.3.2.5, drawing 253-49, dimension E', '2016'), {
    rows: ['253-8.3.2.5-253-49E', '253-8.3.2.1.2-height', '253-8.3.2.1.2-intersect'],
  }),
  memory('dash.height', atMost(0, 'mm'), at('253-8.3.2.2.5'), { rows: ['253-8.3.2.2.5-dash'] }),
  memory('dash.column', atMost(0, 'mm'), at('253-8.3.2.2.5'), { since: '2007-01-01', rows: ['253-8.3.2.2.5-dash'] }),
  memory('extension.reach', atMost(60, 'mm'), at('253-8.3.2.2.4'), { rows: ['253-8.3.2.2.4'] }),
  memory('cage.length', atMost(0, 'mm'), at('253-8.3.2.5'), { structure: 'cage', rows: ['253-8.3.2.5-long'] }),
  // Joints that come apart
  memory('fitting.drawing', own('1'), at('253-8.3.2.4'), {
    of: ['basic structure'],
    accepts: ['253-38', '253-39', '253-41', '253-42', '253-44', '253-45'],
    rows: ['253-8.3.2.4-type', '253-8.3.2.4-where', '253-8.2.10'],
  }),
  memory('fitting.drawing', own('1'), at('253-8.3.2.4'), {
    of: ['other member'],
    accepts: Array.from({ length: 11 }, (_, i) => `253-${String(37 + i)}`),
    rows: ['253-8.3.2.4-type'],
  }),
  memory('fitting.welded', atMost(0, '1'), at('253-8.3.2.4'), { rows: ['253-8.3.2.4-type'] }),
  memory('fitting.at-roof', atMost(4, '1'), at('253-8.3.1'), { rows: ['253-8.3.1-4joints'] }),
  memory('bolt.grade', atLeast(800, 'MPa'), at('253-8.3.2.4'), { of: ['removable joint'], rows: ['253-8.3.2.4-bolt'] }),
];
