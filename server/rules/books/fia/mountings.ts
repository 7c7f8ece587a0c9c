/** Appendix J, Article 253-8.3.2.6: how the cage stands on the shell. */
import type { Limit } from '../../rule';
import { atLeast, memory, own, seen } from '../limit';
import { at, text } from './where';

export const MOUNTINGS: readonly Limit[] = [
  // Feet
  seen('foot.missing', atLeast(1, '1'), text('253-8.3.2.6', '2016'), { rows: ['253-8.3.2.6-count'] }),
  seen(
    'foot.area',
    atLeast(12000, 'mm2'),
    { citation: `${at('253-8.3.2.6')}, as quoted in a forum`, edition: '2007 and later' },
    {
      of: ['hoop foot'],
      onShell: true,
      rows: ['253-8.3.2.6-plate-area', '253-8.3.2.6-contact', '253-8.2.13', 'PLATE-1'],
    },
  ),
  memory('foot.area', atLeast(6000, 'mm2'), at('253-8.3.2.6'), { of: ['backstay foot'], rows: ['253-8.3.2.6-bs2'] }),
  seen(
    'foot.thickness',
    atLeast(3, 'mm'),
    { citation: `${at('253-8.3.2.6')}, as quoted in a forum`, edition: '2007 and later' },
    {
      of: ['hoop foot'],
      onShell: true,
      rows: ['253-8.3.2.6-plate-t', 'PLATE-1'],
    },
  ),
  seen(
    'foot.bolts',
    atLeast(3, '1'),
    { citation: `${at('253-8.3.2.6')}, as quoted in a forum`, edition: '2007 and later' },
    {
      of: ['hoop foot'],
      rows: ['253-8.3.2.6-bolts', 'PLATE-1'],
    },
  ),
  memory('foot.bolts', atLeast(2, '1'), at('253-8.3.2.6'), { of: ['backstay foot'], rows: ['253-8.3.2.6-bs2'] }),
  seen(
    'foot.bolt-size',
    atLeast(8, 'mm'),
    { citation: `${at('253-8.3.2.6')}, in a national course sheet`, edition: '' },
    {
      of: ['hoop foot'],
      rows: ['253-8.3.2.6-M8'],
    },
  ),
  memory('foot.bolt-size', atLeast(8, 'mm'), at('253-8.3.2.6'), { of: ['backstay foot'], rows: ['253-8.3.2.6-bs2'] }),
  seen(
    'bolt.grade',
    atLeast(800, 'MPa'),
    { citation: `${at('253-8.3.2.6')}, in a national course sheet`, edition: '' },
    { of: ['hoop foot'], rows: ['253-8.3.2.6-M8'] },
  ),
  memory('foot.bolt-angle', atLeast(60, 'deg'), at('253-8.3.2.6'), { of: ['hoop foot'], rows: ['253-8.3.2.6-60deg'] }),
  memory('fitting.bush', own('1'), at('253-8.3.2.6'), {
    accepts: ['double shear with a bush'],
    rows: ['253-8.3.2.6-bs1'],
  }),
  seen(
    'foot.held',
    own('1'),
    { citation: `${at('253-8.3.2.6')}, in a paraphrase`, edition: '' },
    { accepts: ['bonded', 'bolted'], severity: 'warning', rows: ['253-8.3.2.6-nonsteel'] },
  ),
];
