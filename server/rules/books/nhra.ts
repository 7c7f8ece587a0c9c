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

const INSPECTION: Where = { citation: 'Practice of inspection by ultrasound, as told in a forum', edition: '' };
const OTHER_WAY = 'A hoop that is welded to the sill with plates of .125 in is the other way.';

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
    seen('tube.same-as-hoop', atMost(0, 'mm'), general('4:10', 'about 2008'), {
      of: ['backstay'],
      structure: 'bar',
      rows: ['NHRA-R1'],
    }),
    seen('tube.same-as-hoop', atMost(0, 'mm'), general('4:10', 'about 2008'), {
      of: ['backstay'],
      structure: 'cage',
      severity: 'warning',
      why: 'Of a cage the figure with the letters of its tubes, which was not seen, may allow a smaller one.',
      rows: ['NHRA-R1'],
    }),
    seen('backstay.missing', atLeast(2, '1'), general('4:10', 'about 2008'), { rows: ['NHRA-R1'] }),
    seen('backstay.drop', atMost(inches(5), 'mm'), general('4:10', 'about 2008'), { rows: ['NHRA-R1'] }),
    memory('backstay.angle', atLeast(30, 'deg'), 'General regulations 4:11', { structure: 'cage', rows: ['NHRA-R2'] }),
    seen('strap.shoulder-drop', between(0, inches(4), 'mm'), general('4:10', 'about 2008'), { rows: ['NHRA-C1'] }),
    seen('tube.measured-wall', atLeast(inches(0.118), 'mm'), INSPECTION, {
      of: ['mild'],
      force: 'wants',
      severity: 'information',
      rows: ['NHRA-T4', 'TUBE-4', 'TUBE-5', 'TUBE-7'],
    }),
    seen('tube.measured-wall', atLeast(inches(0.083), 'mm'), INSPECTION, {
      of: ['4130'],
      force: 'wants',
      severity: 'information',
      rows: ['NHRA-T4', 'TUBE-7'],
    }),
    // The helmet
    seen('helmet.clearance', atLeast(inches(3), 'mm'), general('4:10', 'about 2008'), {
      of: ['any car'],
      rows: ['NHRA-H2'],
    }),
    seen('helmet.reach', atMost(inches(6), 'mm'), general('4:10', 'about 2008'), { rows: ['NHRA-H1'] }),
    seen('hoop.width', atLeast(0, 'mm'), general('4:10', 'about 2008'), { rows: ['NHRA-H3'] }),
    seen(
      'padding.certified',
      own('1'),
      { citation: 'General regulations 4A, p. 5', edition: '2018' },
      {
        accepts: ['sfi-45.1'],
        of: ['9.99 s or quicker'],
        rows: ['NHRA-K1'],
      },
    ),
    seen(
      'padding.thickness',
      atLeast(1, 'mm'),
      { citation: 'General regulations 4A, p. 5', edition: '2018' },
      {
        of: ['9.99 s or quicker'],
        rows: ['NHRA-K1'],
      },
    ),
    // Beside the driver
    seen('door.shoulder', atMost(inches(2), 'mm'), general('4:10', 'about 2008'), {
      severity: 'warning',
      rows: ['NHRA-S1'],
    }),
    // Welds, holes, class
    seen('weld.alloy', own('1'), general('4:10', 'about 2008'), { of: ['4130'], accepts: ['tig'], rows: ['NHRA-W1'] }),
    seen('weld.alloy', own('1'), general('4:10', 'about 2008'), {
      of: ['mild'],
      accepts: ['tig', 'mig'],
      rows: ['NHRA-W1'],
    }),
    seen('weld.ground', atMost(0, '1'), general("4:10, by one reader's view of it", 'about 2008'), {
      severity: 'warning',
      rows: ['NHRA-W1'],
    }),
    memory('hole.inspection', atLeast(1, '1'), 'General regulations 4:11', {
      of: ['main hoop'],
      structure: 'cage',
      severity: 'information',
      why: 'It was looked for and not found: of all rows this one is known least.',
      rows: ['NHRA-I1'],
    }),
    seen('cage.class', own('1'), general('4:10 and rules by elapsed time', 'about 2010'), {
      of: ['any time'],
      rows: ['NHRA-E1'],
    }),
    seen('cage.class', own('1'), general('4:10 and rules by elapsed time', 'about 2010'), {
      of: ['10.00 to 10.99 s'],
      severity: 'warning',
      why: 'A closed car whose floor is as it was made may keep its bar down to 10.00 s.',
      rows: ['NHRA-E1'],
    }),
    // Feet
    seen('foot.frame', atLeast(1, '1'), general('4:10', 'about 2008'), { rows: ['NHRA-P2'] }),
    seen('foot.side', atLeast(inches(6), 'mm'), general('4:10, cars without a frame', 'about 2008'), {
      of: ['hoop foot'],
      structure: 'bar',
      noFrame: true,
      severity: 'warning',
      why: OTHER_WAY,
      rows: ['NHRA-P1'],
    }),
    seen('foot.thickness', atLeast(inches(0.125), 'mm'), general('4:10, cars without a frame', 'about 2008'), {
      of: ['hoop foot'],
      noFrame: true,
      rows: ['NHRA-P1'],
    }),
    seen('foot.bolts', atLeast(4, '1'), general('4:10, cars without a frame', 'about 2008'), {
      of: ['hoop foot'],
      structure: 'bar',
      ifBolted: true,
      noFrame: true,
      severity: 'warning',
      why: OTHER_WAY,
      rows: ['NHRA-P1'],
    }),
    seen('foot.bolt-size', atLeast(inches(3 / 8), 'mm'), general('4:10, cars without a frame', 'about 2008'), {
      of: ['hoop foot'],
      structure: 'bar',
      ifBolted: true,
      noFrame: true,
      severity: 'warning',
      rows: ['NHRA-P1'],
    }),
    seen('foot.welded', atLeast(1, '1'), general('4:11, cars without a frame, as told in a forum', 'undated'), {
      of: ['hoop foot'],
      structure: 'cage',
      noFrame: true,
      severity: 'warning',
      rows: ['NHRA-P1'],
    }),
    seen('foot.counter-plate', atLeast(1, '1'), general('4:10, cars without a frame', 'about 2008'), {
      of: ['hoop foot'],
      structure: 'bar',
      noFrame: true,
      severity: 'warning',
      rows: ['NHRA-P1'],
    }),
  ],
};
