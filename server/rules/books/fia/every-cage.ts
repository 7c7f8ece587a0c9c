/** Appendix J, Article 253-8.1 and 8.3.5: what holds for every cage, also for one with a certificate. */
import type { Limit } from '../../rule';
import { atLeast, atMost, memory, own, seen } from '../limit';
import { at, text } from './where';

export const EVERY_CAGE: readonly Limit[] = [
  // Holes
  seen(
    'hole.existing',
    atMost(0, '1'),
    { citation: at('253-8.1'), edition: 'about 2013' },
    {
      severity: 'warning',
      rows: ['253-8.1-mod', '253-8.1-holes'],
    },
  ),
  seen(
    'cage.route',
    own('1'),
    { citation: at('253-8.1'), edition: 'guidance on the texts of 2016, 2020 and 2021' },
    {
      structure: 'cage',
      accepts: ['asn', 'fia'],
      since: '2021-01-01',
      rows: ['253-8.1-route', '253-8.1-edition'],
    },
  ),
  seen('cage.identified', atLeast(1, '1'), text('253-8.1', '2016'), { of: ['asn', 'fia'], rows: ['253-8.1-id'] }),
  seen('cage.modified', atMost(0, '1'), text('253-8.1', 'about 2013'), { severity: 'warning', rows: ['253-8.1-mod'] }),
  memory('hole.sleeve', atLeast(1, '1'), at('253-8'), { severity: 'information', rows: ['253-8.1-holes'] }),
  memory('tube.carries', atMost(0, '1'), at('253-8.1'), { rows: ['253-8.1-fluid'] }),
  memory('tube.finish', own('1'), at('253-8.1'), {
    accepts: ['bare', 'paint', 'powder', 'zinc', 'galvanized'],
    rows: ['253-8.1-chrome'],
  }),
  // Padding
  seen('padding.missing', atLeast(1, '1'), text('253-8.3.5', '24 April 2018, quoted'), {
    structure: 'cage',
    of: ['roof reinforcement'],
    severity: 'warning',
    rows: ['253-8.3.5-new'],
  }),
  seen('padding.missing', atLeast(1, '1'), text('253-8.3.5', 'up to April 2018, quoted'), {
    of: ['where a helmet reaches'],
    severity: 'warning',
    rows: ['253-8.3.5-old'],
  }),
  // Which tubes the drawing marks was not seen.
  seen('padding.missing', atLeast(1, '1'), text('253-8.3.5, drawing 253-68', '24 April 2018, quoted'), {
    structure: 'cage',
    of: ['tube at the roof'],
    severity: 'information',
    rows: ['253-8.3.5-new'],
  }),
  seen('padding.standard', own('1'), text('253-8.3.5', '24 April 2018, quoted'), {
    of: ['roof reinforcement', 'tube at the roof', 'where a helmet reaches'],
    accepts: ['fia-8857'],
    severity: 'warning',
    rows: ['253-8.3.5-new', '253-8.3.5-old'],
  }),
  memory('padding.flame', atLeast(1, '1'), at('253-8.3.5'), { rows: ['253-8.3.5-body'] }),
  memory('padding.fixed', atLeast(1, '1'), at('253-8.3.5'), { rows: ['253-8.3.5-fix'] }),
];
