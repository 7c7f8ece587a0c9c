/**
 * What a good shop does without being told: common practice, no source. Never more than a warning. Drop and spread
 * stand back where a chosen rulebook limits them itself.
 */
import type { Limit, Book } from '../rule';

type Practice = Pick<Limit, 'code' | 'allowed' | 'force' | 'severity' | 'why' | 'standsBack'>;

const practice = (limit: Practice): Limit => ({
  ...limit,
  citation: 'common practice, no source',
  edition: '',
  source: 'common practice',
});

export const SHOP: Book = {
  name: 'shop',
  title: 'common shop practice',
  limits: [
    practice({
      code: 'strap.drop',
      allowed: { from: 0, to: 45, unit: 'deg' },
      force: 'allows',
      severity: 'warning',
      why: 'A strap that runs steeply down presses on the spine when it loads; one that runs up lets the shoulders rise and the driver slide out under it.',
      standsBack: true,
    }),
    practice({
      code: 'strap.drop',
      allowed: { from: 0, to: 10, unit: 'deg' },
      force: 'recommends',
      severity: 'warning',
      why: 'The flatter the strap runs, the less of its load goes down the spine.',
      standsBack: true,
    }),
    practice({
      code: 'strap.spread',
      allowed: { from: null, to: 20, unit: 'deg' },
      force: 'allows',
      severity: 'warning',
      why: 'A strap that runs wide slips off the shoulder, one that runs in presses on the neck.',
      standsBack: true,
    }),
    practice({
      code: 'strap.skew',
      allowed: { from: null, to: 20, unit: 'deg' },
      force: 'wants',
      severity: 'warning',
      why: 'Webbing that does not meet the bar square walks along it and bunches up against the collar, where its edge carries all the load.',
      standsBack: false,
    }),
    practice({
      code: 'strap.free-run',
      // The lower limit is the strap's own hardware.
      allowed: { from: null, to: null, unit: 'mm' },
      force: 'wants',
      severity: 'warning',
      why: 'An adjuster or slider that touches the bar or the seat bends, jams, or cannot be pulled tight.',
      standsBack: false,
    }),
    practice({
      code: 'strap.length',
      allowed: { from: null, to: 250, unit: 'mm' },
      force: 'recommends',
      severity: 'information',
      why: 'Webbing stretches in proportion to its length, and the driver moves forward by as much.',
      standsBack: false,
    }),
    practice({
      code: 'seat.gap',
      allowed: { from: 50, to: null, unit: 'mm' },
      force: 'wants',
      severity: 'warning',
      why: 'A slide or adjuster has to pass between the shell and the tube, and the shell moves back in a hit.',
      standsBack: false,
    }),
  ],
};
