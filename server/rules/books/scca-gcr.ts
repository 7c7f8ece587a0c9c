/**
 * SCCA General Competition Rules, cages (9.4, older numbering section 18) and driver restraint (9.3). Seen in forum
 * quotations of known years only; no current book was seen. In our own words.
 */
import type { Role } from '../../cage/cage';
import type { Book, CarKind } from '../rule';
import { inches, inchPair, pounds, type SizeTable, squareInches } from '../sizes';
import type { Where } from './limit';
import { atLeast, atMost, between, memory, own, seen } from './limit';

const gcr = (section: string, edition: string): Where => ({
  citation: `General Competition Rules ${section}`,
  edition,
});

/** In force from 2008, quoted 2009; the middle row seen again in March 2023. The listed mass includes the driver. */
const SIZES: SizeTable = {
  basis: 'with',
  basisWords: 'mass with driver',
  rows: [
    { upTo: pounds(1700), pairs: [inchPair(1.375, 0.08)], steel: null },
    { upTo: pounds(2699), pairs: [inchPair(1.5, 0.095), inchPair(1.625, 0.08)], steel: null },
    { upTo: null, pairs: [inchPair(1.75, 0.095), inchPair(1.625, 0.12)], steel: null },
  ],
  wallLess: 0,
  larger: { by: inches(0.25), wall: inches(0.08) },
};

/** 9.4.5.E, 2008: formula cars and sports racers. The text as it was quoted does not name its basis; the book's is with the driver. */
const FORMULA: SizeTable = {
  basis: 'with',
  basisWords: 'mass with driver',
  rows: [
    { upTo: pounds(1500), pairs: [inchPair(1.375, 0.095)], steel: null },
    { upTo: pounds(2500), pairs: [inchPair(1.5, 0.095)], steel: null },
    { upTo: null, pairs: [inchPair(1.5, 0.12), inchPair(1.625, 0.12), inchPair(1.75, 0.095)], steel: null },
  ],
  wallLess: 0,
  larger: null,
};

const OPEN_WHEELS: readonly CarKind[] = ['formula', 'sports-racer'];

/** The required members of a cage. */
export const REQUIRED: readonly Role[] = [
  'main-rollbar',
  'front-rollbar',
  'lateral-rollbar',
  'half-lateral',
  'longitudinal',
  'transverse',
  'backstay',
  'diagonal',
  'door-bar',
];

export const SCCA_GCR: Book = {
  name: 'scca-gcr',
  title: 'SCCA General Competition Rules, roll cages',
  asksCage: true,
  texts: [],
  limits: [
    seen('tube.size', own('mm'), gcr('9.4.F', '2008, quoted 2009'), {
      sizes: SIZES,
      of: REQUIRED,
      cars: ['production'],
      rows: ['SCCA-T1', 'SCCA-T2'],
    }),
    seen('tube.size', own('mm'), gcr('9.4.5.E', '2008'), {
      sizes: FORMULA,
      of: REQUIRED,
      cars: OPEN_WHEELS,
      rows: ['SCCA-T3'],
    }),
    memory('tube.size', own('mm'), 'General Competition Rules 9.4', {
      sizes: SIZES,
      of: ['harness-bar'],
      cars: ['production'],
      rows: ['HARN-T1'],
    }),
    memory('tube.size', own('mm'), 'General Competition Rules 9.4.5', {
      sizes: FORMULA,
      of: ['harness-bar'],
      cars: OPEN_WHEELS,
      rows: ['HARN-T1'],
    }),
    seen('tube.material', own('1'), gcr('section 18 and 9.4', 'about 2003'), {
      accepts: ['cold-drawn seamless', 'drawn over mandrel', '4130 alloy'],
      rows: ['SCCA-M1'],
    }),
    seen('tube.pieces', atMost(1, '1'), gcr('9.4.F.1', 'January 2024'), { of: ['main hoop'], rows: ['SCCA-B1'] }),
    seen('bend.radius', own('mm'), gcr('9.4.F.1', 'January 2024'), { rows: ['SCCA-B2'] }),
    // The figures are those of another series; that this book has the same is one poster's word.
    memory('hoop.bends', atMost(4, '1'), 'General Competition Rules 9.4', { rows: ['SCCA-B3'] }),
    memory('hoop.total-angle', between(170, 190, 'deg'), 'General Competition Rules 9.4', { rows: ['SCCA-B3'] }),
    seen('hoop.missing', atLeast(1, '1'), gcr('9.4.F.1', 'January 2024'), { rows: ['SCCA-B1'] }),
    seen('backstay.missing', atLeast(2, '1'), gcr('section 18', 'about 1995'), { rows: ['SCCA-R1'] }),
    seen('backstay.drop', atMost(inches(6), 'mm'), gcr('section 18', 'about 1995'), { rows: ['SCCA-R1'] }),
    seen('backstay.hoop-angle', atLeast(30, 'deg'), gcr('section 18', 'about 1995'), { rows: ['SCCA-R2'] }),
    memory('tube.straight', atMost(0, '1'), 'General Competition Rules 9.4', { of: ['backstay'], rows: ['SCCA-R3'] }),
    // It may run from the top of one brace to the bottom of the other.
    seen('diagonal.missing', atLeast(1, '1'), gcr('roll cages', '2004'), {
      counts: ['backstay-diagonal'],
      rows: ['SCCA-D1'],
    }),
    seen('tube.same-as-hoop', atMost(0, 'mm'), gcr('roll cages', '2004'), { of: ['diagonal'], rows: ['SCCA-D1'] }),
    seen('door.bars', atLeast(2, '1'), gcr('side protection', '2007'), {
      structure: 'cage',
      cars: ['production'],
      rows: ['SCCA-S1'],
    }),
    seen('dash.bar', atLeast(1, '1'), gcr('9.4.2.E.5', '2007'), {
      structure: 'cage',
      force: 'recommends',
      severity: 'information',
      rows: ['SCCA-S3'],
    }),
    seen('foot.area', atMost(squareInches(144), 'mm2'), gcr('roll cages', '2008'), { rows: ['SCCA-P2'] }),
    seen('foot.side', atMost(inches(15), 'mm'), gcr('roll cages', '2008'), { rows: ['SCCA-P2'] }),
    seen('foot.side', atLeast(inches(2), 'mm'), gcr('roll cages', '2006'), {
      severity: 'warning',
      why: 'The newer text, as it was quoted, names no least side.',
      rows: ['SCCA-P1'],
    }),
    seen('foot.thickness', atLeast(inches(0.08), 'mm'), gcr('roll cages', '2006'), {
      of: ['hoop foot', 'backstay foot', 'other foot'],
      rows: ['SCCA-P3'],
    }),
    seen('foot.thickness', atLeast(inches(3 / 16), 'mm'), gcr('roll cages', '2006'), {
      of: ['bolted'],
      ifBolted: true,
      severity: 'warning',
      why: 'The text of March 2023 asks for the wall of the tube only.',
      rows: ['SCCA-P3'],
    }),
    seen('foot.thickness', atMost(inches(0.25), 'mm'), gcr('roll cages, some classes', 'about 2015'), {
      of: ['hoop foot', 'backstay foot', 'other foot'],
      severity: 'information',
      rows: ['SCCA-P5'],
    }),
    seen('foot.count', atMost(8, '1'), gcr('roll cages, some classes', 'about 2015'), {
      severity: 'information',
      rows: ['SCCA-P5'],
    }),
    seen('foot.tube-wall', own('mm'), gcr('p. 99', 'March 2023'), { rows: ['SCCA-P4'] }),
    seen('foot.counter-plate', atLeast(1, '1'), gcr('p. 99', 'March 2023'), { rows: ['SCCA-P4', 'SCCA-P3'] }),
    seen('foot.bolts', atLeast(3, '1'), gcr('roll cages', '2006'), { ifBolted: true, rows: ['SCCA-P6'] }),
    seen('foot.bolt-size', atLeast(inches(3 / 8), 'mm'), gcr('roll cages', '2006'), {
      ifBolted: true,
      rows: ['SCCA-P6'],
    }),
    // SAE grade 5; a metric 8.8 is its equal.
    seen('bolt.grade', atLeast(800, 'MPa'), gcr('roll cages', '2006'), {
      of: ['hoop foot', 'backstay foot', 'other foot'],
      rows: ['SCCA-P6'],
    }),
    seen('gusset.thickness', atMost(inches(0.125), 'mm'), gcr('roll cages, some classes', '2006'), {
      severity: 'information',
      rows: ['SCCA-G1'],
    }),
    seen('gusset.count', atMost(2, '1'), gcr('roll cages, some classes', '2006'), {
      severity: 'information',
      rows: ['SCCA-G1'],
    }),
    seen('weld.round', own('1'), gcr('9.4.F, welds to AWS D1.1:2002 chapter 10', 'January 2024'), {
      accepts: ['round'],
      rows: ['SCCA-W1', 'FIT-13'],
    }),
    seen('hole.inspection', atLeast(1, '1'), gcr('roll cages', '2006'), {
      of: ['main hoop', 'main hoop of alloy'],
      severity: 'warning',
      rows: ['SCCA-I1'],
    }),
    seen('hole.inspection-size', between(inches(3 / 16), inches(1 / 4), 'mm'), gcr('roll cages', '2006'), {
      severity: 'warning',
      rows: ['SCCA-I1'],
    }),
    memory('hoop.roof-gap', atMost(100, 'mm'), 'General Competition Rules 9.4', {
      severity: 'information',
      cars: ['production'],
      rows: ['SCCA-H1'],
    }),
    memory('hoop.pillar-gap', atMost(100, 'mm'), 'General Competition Rules 9.4', {
      severity: 'information',
      cars: ['production'],
      rows: ['SCCA-H1'],
    }),
    seen('helmet.clearance', atLeast(inches(2), 'mm'), gcr('9.4.5, p. 110', '2011'), {
      of: ['any car'],
      cars: OPEN_WHEELS,
      rows: ['SCCA-H2'],
    }),
    seen('helmet.clearance', atLeast(inches(2), 'mm'), gcr('low hoops of production cars', '2004'), {
      of: ['open car'],
      cars: ['production'],
      rows: ['SCCA-H2'],
    }),
    seen('helmet.line', atLeast(0, 'mm'), gcr('9.4.5, p. 110', '2011'), {
      of: ['front hoop'],
      cars: OPEN_WHEELS,
      rows: ['SCCA-H2'],
    }),
    seen('helmet.line', atLeast(0, 'mm'), gcr('low hoops of production cars', '2004'), {
      of: ['front hoop of an open car'],
      cars: ['production'],
      rows: ['SCCA-H2'],
    }),
    seen('padding.thickness', atLeast(inches(1), 'mm'), gcr('padding', '2006'), { of: ['any car'], rows: ['SCCA-K1'] }),
    seen('padding.certified', own('1'), gcr('padding', '2006'), {
      of: ['any car'],
      accepts: ['sfi-45.1', 'sfi-45.2', 'fia-8857'],
      force: 'recommends',
      severity: 'information',
      rows: ['SCCA-K1'],
    }),
    seen('strap.shoulder-angle', atMost(20, 'deg'), gcr('9.3', 'about 2007'), { rows: ['GCR-HN1'] }),
    seen('strap.spacing', between(inches(4), inches(6), 'mm'), gcr('figure 1, p. 80', '2007'), { rows: ['GCR-HN3'] }),
  ],
};
