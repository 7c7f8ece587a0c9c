/**
 * NASA Club Codes and Regulations, 15.6 (cages), 11.4.7 (roll bars), 15.5 (harness). Seen in quotations of known years
 * only; the table of tube sizes is from memory. In our own words.
 */
import type { Book } from '../rule';
import { inches, inchPair, pounds, type SizeTable, squareInches } from '../sizes';
import type { Where } from './limit';
import { atLeast, atMost, between, memory, own, seen } from './limit';
import { REQUIRED } from './scca-gcr';

const ccr = (section: string, edition: string): Where => ({
  citation: `Club Codes and Regulations ${section}`,
  edition,
});
const M = (section: string): string => `Club Codes and Regulations ${section}`;

/** 15.6.18, from memory; a similar text of an off-road series has the basis and the allowance on the wall. */
const CAGE: SizeTable = {
  basis: 'without',
  basisWords: 'mass as raced, without fuel and driver',
  rows: [
    { upTo: pounds(1500), pairs: [inchPair(1.375, 0.095)], steel: null },
    { upTo: pounds(2500), pairs: [inchPair(1.5, 0.095)], steel: null },
    { upTo: pounds(3000), pairs: [inchPair(1.5, 0.12), inchPair(1.75, 0.095)], steel: null },
    { upTo: pounds(4000), pairs: [inchPair(1.75, 0.12)], steel: null },
    { upTo: null, pairs: [inchPair(2, 0.12)], steel: null },
  ],
  wallLess: inches(0.01),
  larger: null,
};
/** 11.4.7, 2011: the alloy's first row only was seen, so that the heavier cars' sizes hold for it too. */
const BAR: SizeTable = {
  basis: 'without',
  basisWords: 'mass as raced, without fuel and driver',
  rows: [
    { upTo: pounds(2000), pairs: [inchPair(1.5, 0.12)], steel: 'mild' },
    { upTo: pounds(3500), pairs: [inchPair(1.75, 0.12)], steel: 'mild' },
    { upTo: null, pairs: [inchPair(2, 0.12)], steel: 'mild' },
    { upTo: pounds(1500), pairs: [inchPair(1.375, 0.095)], steel: '4130' },
  ],
  wallLess: 0,
  larger: null,
};

export const NASA_CCR: Book = {
  name: 'nasa-ccr',
  title: 'NASA Club Codes and Regulations, roll cages and bars',
  asksCage: true,
  texts: [],
  limits: [
    memory('tube.size', own('mm'), M('15.6.18'), {
      sizes: CAGE,
      of: REQUIRED,
      structure: 'cage',
      rows: ['NASA-T1', 'NASA-X1'],
    }),
    memory('tube.size', own('mm'), M('15.6.18'), {
      sizes: CAGE,
      of: ['harness-bar'],
      structure: 'cage',
      rows: ['HARN-T1'],
    }),
    seen('tube.size', own('mm'), ccr('11.4.7', '2011'), {
      sizes: BAR,
      of: ['main-rollbar'],
      structure: 'bar',
      rows: ['NASA-RB1'],
    }),
    memory('tube.material', own('1'), M('15.6.18'), {
      accepts: ['cold-drawn seamless', 'drawn over mandrel', '4130 alloy'],
      structure: 'cage',
      rows: ['NASA-T1'],
    }),
    seen('tube.material', own('1'), ccr('11.4.7', '2011'), {
      accepts: ['cold-drawn seamless', 'drawn over mandrel', 'resistance welded', '4130 alloy'],
      structure: 'bar',
      rows: ['NASA-RB1'],
    }),
    seen('hoop.missing', atLeast(1, '1'), ccr('15.6.6', '2009'), { rows: ['NASA-H1'] }),
    seen('tube.pieces', atMost(1, '1'), ccr('15.6.6', '2009'), { of: ['main hoop'], rows: ['NASA-H1', 'NASA-RB1'] }),
    seen('hoop.bends', atMost(4, '1'), ccr('15.6.6', '2009'), { rows: ['NASA-H1'] }),
    seen('hoop.total-angle', between(170, 190, 'deg'), ccr('15.6.6', '2009'), { rows: ['NASA-H1'] }),
    // The text was seen; that it is this book's is from memory.
    memory('bend.radius', own('mm'), M('15.6.5'), { rows: ['NASA-B1'] }),
    seen('diagonal.missing', atLeast(1, '1'), ccr('15.6.7', '2010 to 2014'), { structure: 'cage', rows: ['NASA-D1'] }),
    seen('diagonal.corner', atMost(inches(12), 'mm'), ccr('15.6.7', '2010 to 2014'), { rows: ['NASA-D1'] }),
    seen('diagonal.in-plane', own('mm'), ccr('15.6.7', '2010 to 2014'), { rows: ['NASA-D1'] }),
    seen('diagonal.on-harness-bar', atMost(0, '1'), ccr('15.6.7', '2010 to 2014'), { rows: ['NASA-D1'] }),
    seen('harness.diagonal', own('mm'), ccr('15.6.7 and 15.6.8, as stated in a forum', ''), {
      severity: 'warning',
      rows: ['NASA-D2'],
    }),
    seen('backstay.missing', atLeast(2, '1'), ccr('15.6.11', 'about 2012'), { rows: ['NASA-R1'] }),
    seen('backstay.drop', atMost(inches(6), 'mm'), ccr('15.6.11', 'about 2012'), { rows: ['NASA-R1'] }),
    seen('backstay.plane-angle', atLeast(30, 'deg'), ccr('15.6.11', 'about 2012'), { rows: ['NASA-R1'] }),
    seen('tube.straight', atMost(0, '1'), ccr('15.6.11', 'about 2012'), {
      of: ['backstay'],
      severity: 'warning',
      why: 'The text says "normally".',
      rows: ['NASA-R1'],
    }),
    memory('door.bars', atLeast(2, '1'), M('15.6'), {
      structure: 'cage',
      of: ["the driver's side"],
      rows: ['NASA-S1'],
    }),
    memory('door.bars', atLeast(1, '1'), M('15.6'), {
      structure: 'cage',
      of: ["the passenger's side", 'an empty side', 'a side'],
      rows: ['NASA-S1'],
    }),
    seen('foot.area', atMost(squareInches(100), 'mm2'), ccr('15.6.14', 'about 2008'), { rows: ['NASA-P1'] }),
    seen('foot.area', atLeast(squareInches(9), 'mm2'), ccr('15.6.14', 'about 2008'), {
      force: 'recommends',
      severity: 'warning',
      rows: ['NASA-P1'],
    }),
    seen('foot.side', between(inches(2), inches(12), 'mm'), ccr('15.6.14', 'about 2008'), { rows: ['NASA-P1'] }),
    seen('foot.thickness', atLeast(inches(0.08), 'mm'), ccr('15.6.14', 'about 2008'), {
      of: ['hoop foot', 'backstay foot', 'other foot'],
      rows: ['NASA-P1'],
    }),
    memory('hole.inspection', atLeast(1, '1'), M('15.6'), { structure: 'cage', rows: ['NASA-I1'] }),
    memory('hole.inspection-size', atLeast(inches(3 / 16), 'mm'), M('15.6'), { structure: 'cage', rows: ['NASA-I1'] }),
    // High-density padding: no figure is named, so that any padding counts.
    seen('padding.thickness', atLeast(1, 'mm'), ccr('15.6.4', 'undated quotation'), {
      of: ['any car'],
      rows: ['NASA-K1'],
    }),
    seen('padding.certified', own('1'), ccr('15.6.4', 'undated quotation'), {
      of: ['any car'],
      accepts: ['sfi-45.1'],
      force: 'recommends',
      severity: 'information',
      rows: ['NASA-K1'],
    }),
    seen('strap.shoulder-angle', atMost(20, 'deg'), ccr('15.5.6', 'undated quotation'), { rows: ['NASA-HN1'] }),
  ],
};
