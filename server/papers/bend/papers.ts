/** The bend sheets of a packet: one for each tube that has a bend. */
import { element, join, paragraph, words } from '../html';
import { CAUTIONS, footer, header, markupMark } from '../packet/marks';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { MARK, page } from '../page';
import { bentParts } from './figures';
import { bendSheet } from './sheet';

/** Parts that an open error touches have none: nobody should bend by it. */
export const bendPapers: Maker = (input: PacketInput): readonly Paper[] =>
  bentParts(input.shape).flatMap((part): readonly Paper[] => {
    const number = input.numbers.get(part.name);
    if (number === undefined || input.touched.has(part.name)) return [];
    const title = header(input, `bend sheet ${number.label}`);
    const body = join(
      [
        element('h1', {}, words(`Bend sheet ${number.label}`)),
        paragraph(input.title),
        element('div', { class: 'caution' }, join(CAUTIONS.map((one) => paragraph(one)))),
        bendSheet(part, input),
        paragraph(footer(input), 'small'),
      ],
      '\n',
    );
    return [
      {
        path: `bend/${number.path}.html`,
        title: `Bend sheet ${number.label}`,
        kind: 'bend',
        parts: [part.name],
        content: page(title, body).replace(`<!-- ${MARK} -->`, markupMark),
      },
    ];
  });
