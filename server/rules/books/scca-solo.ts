/** SCCA Solo, appendix C: roll bars. Seen in forum quotations of known years only. In our own words. */
import type { Role } from '../../cage/cage';
import type { Book } from '../rule';
import { inches, inchPair, pounds, type SizeTable } from '../sizes';
import { atLeast, atMost, memory, own, seen } from './limit';

/** Appendix C.B.2, 2011, as far as it was seen: cars over 1500 lb. */
const SIZES: SizeTable = {
  basis: 'without',
  basisWords: 'mass without driver',
  rows: [
    { upTo: pounds(1500), pairs: [], steel: null },
    { upTo: null, pairs: [inchPair(1.5, 0.12), inchPair(1.75, 0.095)], steel: null },
  ],
  wallLess: 0,
  larger: null,
};
/** The time trials' safety levels 2 and 3, which withdrew the smaller size. Appendix C has this diameter over 1000 lb; its wall was cut off. */
const LIGHT: SizeTable = {
  basis: 'without',
  basisWords: 'mass without driver',
  rows: [
    { upTo: pounds(1500), pairs: [inchPair(1.25, 0.09)], steel: null },
    { upTo: null, pairs: [], steel: null },
  ],
  wallLess: 0,
  larger: null,
};
const BAR: readonly Role[] = ['main-rollbar', 'backstay'];
const C = (section: string, edition: string): { citation: string; edition: string } => ({
  citation: `Solo rules, appendix ${section}`,
  edition,
});

export const SCCA_SOLO: Book = {
  name: 'scca-solo',
  title: 'SCCA Solo rules, appendix C: roll bars',
  asksCage: false,
  texts: [],
  limits: [
    seen('tube.size', own('mm'), C('C.B.2', '2011'), { sizes: SIZES, of: BAR, rows: ['SOLO-T1'] }),
    seen(
      'tube.size',
      own('mm'),
      { citation: 'Time trials, safety levels 2 and 3; appendix C.B.2 names the diameter', edition: 'undated update' },
      { sizes: LIGHT, of: BAR, rows: ['SOLO-T2', 'SOLO-T1'] },
    ),
    seen('tube.material', own('1'), C('C.B.1', '2011'), {
      accepts: ['cold-drawn seamless', 'drawn over mandrel', 'resistance welded', '4130 alloy'],
      rows: ['SOLO-M1'],
    }),
    seen('hoop.missing', atLeast(1, '1'), C('C.A', '2011'), { rows: ['SOLO-G1'] }),
    seen('hoop.leg-spacing', atLeast(inches(15), 'mm'), C('C.A.4', '2011'), { rows: ['SOLO-G1'] }),
    seen('hoop.roof-gap', atMost(100, 'mm'), C('C.A.2', '2011'), {
      force: 'recommends',
      severity: 'information',
      rows: ['SOLO-H1'],
    }),
    seen(
      'helmet.clearance',
      atLeast(0, 'mm'),
      { citation: 'Solo rules 3.3.1', edition: '2004' },
      {
        of: ['open car with a harness'],
        rows: ['SOLO-H2'],
      },
    ),
    memory('helmet.clearance', atLeast(inches(2), 'mm'), 'Solo rules, appendix C.A.1', {
      of: ['open car'],
      rows: ['SOLO-H3'],
    }),
    memory('helmet.behind', atMost(inches(6), 'mm'), 'Solo rules, appendix C.A.1', {
      of: ['open car'],
      rows: ['SOLO-H3'],
    }),
    // How far below, each club sets itself.
    seen(
      'helmet.line',
      atLeast(0, 'mm'),
      { citation: 'Practice of clubs for open cars, as told in a forum', edition: '' },
      {
        of: ['windscreen header'],
        force: 'recommends',
        severity: 'information',
        rows: ['SOLO-B1'],
      },
    ),
    seen('padding.thickness', atLeast(inches(0.5), 'mm'), C('C.I', 'undated quotation'), {
      of: ['any car'],
      rows: ['SOLO-K1'],
    }),
    memory('backstay.missing', atLeast(2, '1'), 'Solo rules, appendix C', { rows: ['SOLO-R1'] }),
    memory('backstay.drop', atMost(inches(6), 'mm'), 'Solo rules, appendix C', { rows: ['SOLO-R1'] }),
    memory('backstay.hoop-angle', atLeast(30, 'deg'), 'Solo rules, appendix C', { rows: ['SOLO-R1'] }),
  ],
};
