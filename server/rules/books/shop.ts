/**
 * What a good shop does without being told: mostly common practice without a source; what was read somewhere says where.
 * Never more than a warning (but for a closed bore that is galvanized: it bursts), and only information where it is a
 * figure to know. Drop and spread stand back where a chosen rulebook limits them itself.
 */
import type { Book, Limit } from '../rule';
import type { Where } from './limit';
import { atLeast, atMost, between, memory, own, practice, seen } from './limit';

const source = (citation: string, edition = ''): Where => ({ citation, edition });
const TOOLMAKER = source("a toolmaker's bending formulas");

const JOINTS: readonly Limit[] = [
  seen('joint.gap', atMost(4.8, 'mm'), source('AWS D1.1, fit-up of fillet welds, as quoted in its forum'), {
    severity: 'warning',
    why: 'Over 3/16 in no fillet is allowed to bridge it.',
    rows: ['FIT-1'],
  }),
  // A forum's builders are content with 1/8 in; a square cut through the usual walls leaves less.
  practice('joint.gap', atMost(3.2, 'mm'), {
    force: 'recommends',
    severity: 'information',
    why: 'The weld has to fill it: it takes more heat, and the tube draws.',
    rows: ['FIT-2'],
  }),
  // From the tangent on the bound is the tube's own diameter.
  practice('joint.toe-to-bend', atLeast(0, 'mm'), { rows: ['FIT-15'] }),
  practice('joint.toe-to-bend', own('mm'), { force: 'recommends', severity: 'information', rows: ['FIT-15'] }),
  practice('joint.toe-spacing', atLeast(12, 'mm'), { rows: ['FIT-16'] }),
  practice('joint.toe-spacing', own('mm'), { force: 'recommends', severity: 'information', rows: ['FIT-16'] }),
  memory('joint.od-ratio', atMost(1, '1'), 'rules for welded joints of round tubes', { rows: ['FIT-11'] }),
  seen('joint.od-ratio', atLeast(0.2, '1'), source('EN 1993-1-8, hollow-section joints, as an open summary has it'), {
    severity: 'information',
    rows: ['FIT-11'],
  }),
  practice('joint.eccentricity', own('mm'), { force: 'recommends', severity: 'information', rows: ['FIT-12'] }),
];

const BENDS: readonly Limit[] = [
  seen('bend.thinning', own('mm'), TOOLMAKER, { severity: 'information', rows: ['BEND-1'] }),
  seen('bend.difficulty', atMost(7, '1'), TOOLMAKER, {
    force: 'recommends',
    severity: 'information',
    rows: ['BEND-2'],
  }),
];

const HOLES_AND_PLATES: readonly Limit[] = [
  seen('vent.size', atLeast(1.6, 'mm'), source("a welder's notes on closed vessels", '2020'), {
    severity: 'warning',
    rows: ['VENT-2'],
  }),
  seen('vent.size', atLeast(3.2, 'mm'), source("a welder's notes, 1/8 in for each closed bore"), {
    of: ['open'],
    force: 'recommends',
    severity: 'information',
    rows: ['VENT-1'],
  }),
  // Rules of open road races, seen; no book here is theirs.
  seen('hole.place', atLeast(76.2, 'mm'), source('Rules of open road races, roll bars'), {
    force: 'recommends',
    severity: 'information',
    rows: ['ORR-I1'],
  }),
  practice('vent.bend', atMost(0, 'mm'), { force: 'wants', rows: ['VENT-11'] }),
  practice('vent.span', own('mm'), { force: 'recommends', severity: 'information', rows: ['VENT-11'] }),
  practice('foot.edge', atLeast(12, 'mm'), { rows: ['PLATE-2'] }),
  // One and a half diameters of the bolt.
  practice('foot.bolt-edge', own('mm'), { force: 'wants', rows: ['PLATE-2'] }),
  // From one and a half diameters of the bolt to the diameter of the tube.
  practice('fitting.stand-off', own('mm'), { force: 'wants', rows: [] }),
  practice('door.seat-gap', atLeast(50, 'mm'), { rows: ['DOOR-1'] }),
];

/** Hot-dip galvanizing, as the galvanizers' association puts ASTM A385 into figures. */
const DIPPED = source("ASTM A385, as the galvanizers' association has it", '2020');

const GALVANIZED: readonly Limit[] = [
  seen('galvanized.sealed', atLeast(1, '1'), source("a galvanizer's notes on safety"), { rows: ['VENT-10'] }),
  seen('galvanized.hole', own('mm'), DIPPED, { severity: 'warning', force: 'wants', rows: ['VENT-5'] }),
  seen('galvanized.foot', own('1'), DIPPED, { severity: 'warning', force: 'wants', rows: ['VENT-7'] }),
  seen('galvanized.weld', atMost(12, 'mm'), DIPPED, { severity: 'warning', rows: ['VENT-6'] }),
];

export const SHOP: Book = {
  name: 'shop',
  title: 'common shop practice',
  asksCage: false,
  texts: [],
  limits: [
    practice('strap.drop', between(0, 45, 'deg'), {
      why: 'A strap that runs steeply down presses on the spine when it loads; one that runs up lets the shoulders rise and the driver slide out under it.',
      standsBack: true,
      rows: [],
    }),
    practice('strap.drop', between(0, 10, 'deg'), {
      force: 'recommends',
      why: 'The flatter the strap runs, the less of its load goes down the spine.',
      standsBack: true,
      rows: [],
    }),
    practice('strap.spread', atMost(20, 'deg'), {
      why: 'A strap that runs wide slips off the shoulder, one that runs in presses on the neck.',
      standsBack: true,
      rows: [],
    }),
    practice('strap.skew', atMost(20, 'deg'), {
      force: 'wants',
      why: 'Webbing that does not meet the bar square walks along it and bunches up against the collar, where its edge carries all the load.',
      rows: [],
    }),
    // The lower limit is the strap's own hardware.
    practice('strap.free-run', own('mm'), {
      force: 'wants',
      why: 'An adjuster or slider that touches the bar or the seat bends, jams, or cannot be pulled tight.',
      rows: [],
    }),
    practice('strap.length', atMost(250, 'mm'), {
      force: 'recommends',
      severity: 'information',
      why: 'Webbing stretches in proportion to its length, and the driver moves forward by as much.',
      rows: ['SFI-3', 'HARN-B4'],
    }),
    practice('seat.gap', atLeast(50, 'mm'), {
      why: 'A slide or adjuster has to pass between the shell and the tube, and the shell moves back in a hit.',
      rows: ['HARN-C5'],
    }),
    ...JOINTS,
    ...BENDS,
    ...HOLES_AND_PLATES,
    ...GALVANIZED,
  ],
};
