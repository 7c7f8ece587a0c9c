/**
 * What a good shop does without being told: common practice, no source. Never more than a warning. Drop and spread
 * stand back where a chosen rulebook limits them itself.
 */
import type { Book } from '../rule';
import { atLeast, atMost, between, own, practice } from './limit';

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
  ],
};
