/** What lies in the front page's place until all papers are in theirs. */
import { paragraph } from '../html';
import type { PacketInput } from './paper';
import { paperPage } from './paper-page';

/** A page without links: there is nothing here yet to go by. */
export const unfinishedPage = (input: PacketInput): string =>
  paperPage(input, { title: 'STOP: these papers are not whole', what: 'shop papers, not whole' }, [
    paragraph(
      'The run that wrote them was broken off, or is still writing. Papers in this folder may belong to two states of the file: do not cut, bend or drill by any of them.',
      'strong',
    ),
    paragraph('Make the packet again. Once all papers are here, the front page lies in the place of this one.'),
  ]);
