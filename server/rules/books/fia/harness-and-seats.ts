/** Appendix J, Article 253-6.2 and 253-16: harness, its anchorages, and seats. */
import type { Limit } from '../../rule';
import { inches } from '../../sizes';
import { atLeast, atMost, between, memory, own, seen } from '../limit';
import { OTHER } from './tubes';
import { at, text } from './where';

export const HARNESS_AND_SEATS: readonly Limit[] = [
  // Straps
  seen('strap.drop', between(0, 45, 'deg'), text('253-6.2', '2013'), {
    why: 'A strap that runs steeply down presses on the spine when it loads; one that runs up lets the shoulders rise and the driver slide out under it.',
    rows: ['253-6.2-side', '253-6.2-higher', 'FIA-HN1'],
  }),
  // A recommendation would be information by itself; over ten degrees is what a scrutineer remarks on, so it is a warning.
  seen('strap.drop', between(0, 10, 'deg'), text('253-6.2', '2013'), {
    force: 'recommends',
    severity: 'warning',
    why: 'The flatter the strap runs, the less of its load goes down the spine.',
    rows: ['253-6.2-side'],
  }),
  // The same article of a harness bar: by the letter both leave ten degrees alone.
  seen(
    'strap.bar-drop',
    atLeast(10, 'deg'),
    { citation: `${at('253-6.2')}, as told in a forum and by a national rule`, edition: '' },
    { severity: 'information', rows: ['253-6.2-bar-height'] },
  ),
  seen('strap.spread', atMost(20, 'deg'), text('253-6.2', '1996'), {
    why: 'A strap that runs wide slips off the shoulder, one that runs in presses on the neck; both pull sideways on the seat slot.',
    rows: ['253-6.2-plan', 'FIA-HN1'],
  }),
  seen(
    'strap.shoulder-angle',
    between(0, 20, 'deg'),
    { citation: 'Advice of dealers and scrutineers on head restraints', edition: '2017' },
    {
      of: ['with yoke'],
      force: 'recommends',
      severity: 'information',
      rows: ['253-6.2-FHR'],
    },
  ),
  // Harness bar
  memory('harness.ends', own('1'), at('253-6.2'), {
    accepts: ['backstay', 'main-rollbar', 'backstay-diagonal', 'diagonal', 'shell'],
    rows: ['253-6.2-loop', '253-8.2-harnessbar'],
  }),
  seen('tube.size', own('mm'), text('253-6.2', '2026 national rule with the same figures'), {
    sizes: OTHER,
    of: ['harness-bar'],
    rows: ['253-6.2-bar-size', 'FIA-HB1'],
  }),
  memory('fitting.on-harness-bar', atMost(0, '1'), at('253-8.3.2.2.5 and 253-6.2'), { rows: ['253-6.2-bar-joint'] }),
  memory('strap.insert', atLeast(1, '1'), at('253-6.2'), { rows: ['253-6.2-bar-insert'] }),
  // M12, or 7/16 in UNF.
  memory('strap.bolt', atLeast(inches(7 / 16), 'mm'), at('253-6.2'), { rows: ['253-6.2-bar-insert'] }),
  memory('bolt.grade', atLeast(800, 'MPa'), at('253-6.2'), { of: ['strap'], rows: ['253-6.2-bar-insert'] }),
  // Anchorages
  memory('anchor.load', atLeast(14700, 'N'), at('253-6.2'), {
    of: ['lap anchor', 'shoulder anchor', 'anchor'],
    rows: ['253-6.2-load', '253-6.2-two'],
  }),
  memory('anchor.load', atLeast(7200, 'N'), at('253-6.2'), { of: ['crotch anchor'], rows: ['253-6.2-load'] }),
  seen(
    'anchor.shared',
    atMost(1, '1'),
    { citation: `${at('253-6.2')}, as quoted in a forum`, edition: '' },
    {
      rows: ['253-6.2-two'],
    },
  ),
  memory('anchor.plate-area', atLeast(4000, 'mm2'), at('253-6.2'), { rows: ['253-6.2-plate'] }),
  memory('anchor.plate-thickness', atLeast(3, 'mm'), at('253-6.2'), { rows: ['253-6.2-plate'] }),
  memory('anchor.through-seat', atLeast(1, '1'), at('253-6.3'), { rows: ['253-6.3-pelvis'] }),
  // Seats
  seen('seat-mount.points', atLeast(4, '1'), text('253-16.2', '2010 and 2014'), {
    rows: ['253-16-4pt', '253-16-route'],
  }),
  seen('seat-mount.bolt-size', atLeast(8, 'mm'), text('253-16.2', '2010 and 2014'), {
    of: ['shell'],
    rows: ['253-16-4pt'],
  }),
  seen('seat-mount.bolt-size', atLeast(8, 'mm'), text('253-16.4', '2014'), { of: ['seat'], rows: ['253-16-seat4'] }),
  seen('seat-mount.seat-bolts', atLeast(4, '1'), text('253-16.4', '2014'), { rows: ['253-16-seat4'] }),
  seen('seat-mount.area', atLeast(4000, 'mm2'), text('253-16.2', '2014'), { rows: ['253-16-area'] }),
  seen('seat-mount.thickness', atLeast(3, 'mm'), text('253-16.5', '2014'), { of: ['steel'], rows: ['253-16-thick'] }),
  seen('seat-mount.thickness', atLeast(5, 'mm'), text('253-16.5', '2014'), {
    of: ['aluminium'],
    rows: ['253-16-thick'],
  }),
  seen('seat-mount.length', atLeast(60, 'mm'), text('253-16.5', '2014'), { rows: ['253-16-thick'] }),
  memory('seat-mount.load', atLeast(15000, 'N'), at('253-16.4'), { rows: ['253-16-load'] }),
  memory('seat-mount.quick-release', atLeast(18000, 'N'), at('253-16.3'), { rows: ['253-16-qr'] }),
  seen('bolt.grade', atLeast(800, 'MPa'), text('253-16, drawing 253-65B', '2010'), {
    of: ['seat mount'],
    severity: 'warning',
    rows: ['253-16-65B'],
  }),
  memory('seat.cushion', atMost(50, 'mm'), at('253-16.6'), { rows: ['253-16-cushion'] }),
];
