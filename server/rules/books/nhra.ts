/** NHRA general regulations 4:10 (roll bars) and 4:11 (roll cages). Seen in quotations of about 2008 to 2010. In our own words. */
import type { Book } from '../rule';
import { inches, inchPair, type SizeRow, type SizeTable } from '../sizes';
import type { Where } from './limit';
import { atLeast, between, memory, own, seen, atMost } from './limit';

const general = (section: string, edition: string): Where => ({ citation: `General regulations ${section}`, edition });

const measured = (mild: SizeRow['pairs'], alloy: SizeRow['pairs']): SizeTable => ({
  basis: null,
  basisWords: 'walls as measured, not nominal',
  rows: [
    { upTo: null, pairs: mild, steel: 'mild' },
    { upTo: null, pairs: alloy, steel: '4130' },
  ],
  wallLess: 0,
  larger: null,
});
const BAR = measured([inchPair(1.75, 0.118)], [inchPair(1.75, 0.083)]);
const CAGE = measured([inchPair(1.625, 0.118)], [inchPair(1.625, 0.083)]);
const HARNESS = measured([inchPair(1.25, 0.118)], [inchPair(1.25, 0.065)]);

export const NHRA: Book = {
  name: 'nhra',
  title: 'NHRA general regulations, roll bars and cages',
  asksCage: false,
  texts: [],
  limits: [
    seen('tube.size', own('mm'), general('4:10', 'about 2008'), {
      sizes: BAR,
      of: ['main-rollbar'],
      structure: 'bar',
      rows: ['NHRA-T1'],
    }),
    seen('tube.size', own('mm'), general('4:11', 'undated quotation'), {
      sizes: CAGE,
      of: ['main-rollbar', 'front-rollbar', 'lateral-rollbar', 'half-lateral', 'longitudinal', 'transverse'],
      structure: 'cage',
      rows: ['NHRA-T2'],
    }),
    memory('tube.size', own('mm'), 'General regulations 4:11', {
      sizes: HARNESS,
      of: ['harness-bar'],
      rows: ['HARN-T1'],
    }),
    seen('hoop.missing', atLeast(1, '1'), general('4:10', 'about 2008'), { rows: ['NHRA-T1'] }),
    seen('tube.same-as-hoop', atMost(0, 'mm'), general('4:10', 'about 2008'), { of: ['backstay'], rows: ['NHRA-R1'] }),
    seen('backstay.missing', atLeast(2, '1'), general('4:10', 'about 2008'), { rows: ['NHRA-R1'] }),
    seen('backstay.drop', atMost(inches(5), 'mm'), general('4:10', 'about 2008'), { rows: ['NHRA-R1'] }),
    memory('backstay.angle', atLeast(30, 'deg'), 'General regulations 4:11', { structure: 'cage', rows: ['NHRA-R2'] }),
    seen('strap.shoulder-drop', between(0, inches(4), 'mm'), general('4:10', 'about 2008'), { rows: ['NHRA-C1'] }),
    seen('foot.side', atLeast(inches(6), 'mm'), general('4:10, cars without a frame', 'about 2008'), {
      of: ['hoop foot'],
      severity: 'warning',
      why: 'A hoop that is welded to the sill with plates of .125 in is the other way.',
      rows: ['NHRA-P1'],
    }),
    seen('foot.thickness', atLeast(inches(0.125), 'mm'), general('4:10, cars without a frame', 'about 2008'), {
      of: ['hoop foot'],
      rows: ['NHRA-P1'],
    }),
    seen('foot.bolts', atLeast(4, '1'), general('4:10, cars without a frame', 'about 2008'), {
      of: ['hoop foot'],
      severity: 'warning',
      why: 'A hoop that is welded to the sill with plates of .125 in is the other way.',
      rows: ['NHRA-P1'],
    }),
    seen('foot.bolt-size', atLeast(inches(3 / 8), 'mm'), general('4:10, cars without a frame', 'about 2008'), {
      of: ['hoop foot'],
      severity: 'warning',
      rows: ['NHRA-P1'],
    }),
  ],
};
