/** The saw sheets of a packet: one for each part that is made. */
import { element, join, paragraph, words } from '../html';
import { CAUTIONS, footer, header, markupMark } from '../packet/marks';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { MARK, page } from '../page';
import type { KnownStarts } from './figures';
import { sayTube } from '../quantity';
import { sawSheet } from './sheet';

const CLOCK =
  'The clock: look from END 1 along the tube toward END 2, at both ends; it grows clockwise from the line TOP (or FRONT) of that end. Find that line as each end says, draw it, and look again before the saw runs: a cut at the wrong clock has top and bottom swapped.';

/** Parts that an open error touches have none: nobody should cut by it. */
export const sawPapers: Maker = (input: PacketInput): readonly Paper[] => {
  const known: KnownStarts = [];
  return [...input.numbers.values()].flatMap((number): readonly Paper[] => {
    const part = input.shape.parts.get(number.name);
    if (part === undefined || input.touched.has(part.name)) return [];
    const what = `saw sheet ${number.label}`;
    const body = join(
      [
        element('h1', {}, words(`Saw sheet ${number.label}`)),
        ...(number.hand === ''
          ? []
          : [element('p', { class: 'strong', style: 'font-size: 15pt' }, words(`${number.hand} HAND`))]),
        paragraph(`${input.title}: tube ${sayTube(part.tube.section, input.units)}`),
        element('div', { class: 'caution' }, join([...CAUTIONS, CLOCK].map((one) => paragraph(one)))),
        sawSheet(part, input, known),
        paragraph(footer(input), 'small'),
      ],
      '\n',
    );
    return [
      {
        path: `saw/${number.path}.html`,
        title: `Saw sheet ${number.label}: flat cuts that start a fish-mouth, and ends that are sawn`,
        kind: 'two-cut',
        parts: [part.name],
        content: page(header(input, what), body).replace(`<!-- ${MARK} -->`, markupMark),
      },
    ];
  });
};
