/** Appendix J, Article 253-8.3.3 and 8.3.4: sizes, steel, bends and welds of the tubes. */
import type { Role } from '../../../cage/cage';
import type { Limit } from '../../rule';
import { inchPair, mmPair, type SizeTable } from '../../sizes';
import { atLeast, atMost, memory, own, seen } from '../limit';
import { at, text } from './where';

const one = (pairs: SizeTable['rows'][number]['pairs']): SizeTable => ({
  basis: null,
  basisWords: '',
  rows: [{ upTo: null, pairs, steel: null }],
  wallLess: 0,
  larger: null,
});
/** 1.75 x 0.095 in fails both metric comparisons and is accepted by name; 2.0 x 0.083 in passes by its figures. */
const MAIN = one([mmPair(45, 2.5), mmPair(50, 2), inchPair(1.75, 0.095, true), inchPair(2, 0.083, true)]);
/** 1.5 x 0.095 in fails on its wall and is accepted by name. */
export const OTHER = one([mmPair(38, 2.5), mmPair(40, 2), inchPair(1.5, 0.095, true), inchPair(1.6, 0.083, true)]);
const MAIN_HOOPS: readonly Role[] = ['main-rollbar', 'lateral-rollbar'];
const OTHERS: readonly string[] = [
  'front-rollbar',
  'half-lateral',
  'longitudinal',
  'transverse',
  'transverse below the roof',
  'backstay',
  'diagonal',
  'backstay-diagonal',
  'door-bar',
  'roof-bar',
  'pillar-bar',
  'dash-bar',
  'sill-bar',
  'front-extension',
  'brace',
];

export const TUBES: readonly Limit[] = [
  // Tubes
  seen('tube.size', own('mm'), text('253-8.3.3', '2009'), {
    sizes: MAIN,
    of: MAIN_HOOPS,
    since: '1995-01-01',
    rows: ['253-8.3.3-main', '253-8.3.3-date'],
  }),
  seen('tube.size', own('mm'), text('253-8.3.3', '2009'), {
    sizes: OTHER,
    of: MAIN_HOOPS,
    before: '1995-01-01',
    rows: ['253-8.3.3-date'],
  }),
  // Two sources give 1995, a third 1994: the year between is told only.
  seen(
    'tube.size',
    own('mm'),
    { citation: `${at('253-8.3.3')}, as a national page dates it`, edition: '' },
    {
      sizes: MAIN,
      of: MAIN_HOOPS,
      since: '1994-01-01',
      before: '1995-01-01',
      severity: 'information',
      rows: ['253-8.3.3-date'],
    },
  ),
  seen('tube.size', own('mm'), text('253-8.3.3', '2009'), { sizes: OTHER, of: OTHERS, rows: ['253-8.3.3-other'] }),
  seen('tube.material', own('1'), text('253-8.3.3', '2009'), {
    accepts: ['cold-drawn seamless'],
    rows: ['253-8.3.3-mat'],
  }),
  seen('tube.strength', atLeast(350, 'MPa'), text('253-8.3.3', '2009'), { rows: ['253-8.3.3-350'] }),
  seen('bend.radius', own('mm'), text('253-8.3.3', '2016'), { rows: ['253-8.3.3-R', 'BEND-9'] }),
  memory('tube.pieces', atMost(1, '1'), at('253-8.3.1'), {
    of: ['main hoop', 'hoop', 'member'],
    rows: ['253-8.3.1-onepiece', '253-8.2.3', '253-8.2.4'],
  }),
  memory('tube.straight', atMost(0, '1'), at('253-8.3.1 and 253-8.3.2.1.1'), {
    of: ['backstay', 'diagonal'],
    rows: ['253-8.3.1-bs-straight', '253-8.3.2.1.1-straight', '253-8.2-backstay'],
  }),
  memory('steel.analysis', atMost(0.3, '1'), at('253-8.3.3'), { of: ['carbon'], rows: ['253-8.3.3-mat'] }),
  seen('steel.analysis', atMost(1.7, '1'), text('253-8.3.3', '2016'), { of: ['manganese'], rows: ['253-8.3.3-alloy'] }),
  seen('steel.analysis', atMost(0.6, '1'), text('253-8.3.3', '2016'), {
    of: ['any other element'],
    rows: ['253-8.3.3-alloy'],
  }),
  // Welds
  seen('weld.round', own('1'), text('253-8.3.4', '2016'), { accepts: ['round'], rows: ['253-8.3.4-perim'] }),
  seen('weld.process', own('1'), text('253-8.3.4', '2016'), {
    accepts: ['tig', 'mig'],
    force: 'recommends',
    severity: 'information',
    rows: ['253-8.3.4-pen'],
  }),
];
