/**
 * FIA Appendix J, Article 253: cage, harness. In our own words; the regulation itself and the scrutineer decide. Which
 * text counts goes by the car's homologation (national guidance on the texts of 2016, 2020 and 2021, seen; it says that
 * the first two agree on the essential points).
 */
import type { Book, Limit } from '../rule';
import { EVERY_CAGE } from './fia/every-cage';
import { HARNESS_AND_SEATS } from './fia/harness-and-seats';
import { MOUNTINGS } from './fia/mountings';
import { STRUCTURE } from './fia/structure';
import { TUBES } from './fia/tubes';

/** What a cage is like that comes with a certificate stands in that. */
const selfBuilt = (limit: Limit): Limit => ({ ...limit, selfBuilt: true });

export const FIA_253: Book = {
  name: 'fia-253',
  title: 'FIA Appendix J, Article 253',
  asksCage: true,
  certified:
    'the cage came with a certificate: its structure is not judged by 253-8.2 and 8.3, what stands in the certificate counts',
  texts: [
    { before: '2017-01-01', name: '2016', note: '' },
    { before: '2021-01-01', name: '2020', note: '' },
    {
      before: null,
      name: '2021',
      note: 'a car homologated from 2021 on needs a cage with a certificate: its geometry alone is not enough, whatever is found here',
    },
  ],
  limits: [...HARNESS_AND_SEATS, ...[...TUBES, ...STRUCTURE, ...MOUNTINGS].map(selfBuilt), ...EVERY_CAGE],
};
