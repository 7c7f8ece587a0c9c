/**
 * FIA Appendix J, Article 253, as far as it is judged now: shoulder straps. In our own words; the regulation itself
 * and the scrutineer decide.
 *
 * Drop: 0 to 45 degrees below horizontal, at most 10 recommended (253-6.2, seen in an excerpt of the 2013 text).
 * Spread: at most 20 degrees divergent or convergent to the seat's centreline (253-6.2, seen in a quotation of the 1996 text).
 */
import type { Book } from '../rule';

const CITATION = 'Appendix J, Article 253-6.2';

export const FIA_253: Book = {
  name: 'fia-253',
  title: 'FIA Appendix J, Article 253',
  limits: [
    {
      code: 'strap.drop',
      allowed: { from: 0, to: 45, unit: 'deg' },
      force: 'allows',
      severity: 'error',
      citation: CITATION,
      edition: '2013',
      source: 'published',
      why: 'A strap that runs steeply down presses on the spine when it loads; one that runs up lets the shoulders rise and the driver slide out under it.',
      standsBack: false,
    },
    {
      // A recommendation would be information by itself; over ten degrees is what a scrutineer remarks on, so it is a warning.
      code: 'strap.drop',
      allowed: { from: 0, to: 10, unit: 'deg' },
      force: 'recommends',
      severity: 'warning',
      citation: CITATION,
      edition: '2013',
      source: 'published',
      why: 'The flatter the strap runs, the less of its load goes down the spine.',
      standsBack: false,
    },
    {
      code: 'strap.spread',
      allowed: { from: null, to: 20, unit: 'deg' },
      force: 'allows',
      severity: 'error',
      citation: CITATION,
      edition: '1996',
      source: 'published',
      why: 'A strap that runs wide slips off the shoulder, one that runs in presses on the neck; both pull sideways on the seat slot.',
      standsBack: false,
    },
  ],
};
