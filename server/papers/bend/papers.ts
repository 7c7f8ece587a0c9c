/** The bend sheets of a packet: one for each tube that has a bend. */
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { paperPage } from '../packet/paper-page';
import { bentParts } from './figures';
import { bendSheet } from './sheet';

/** Parts that an open error touches have none: nobody should bend by it. */
export const bendPapers: Maker = (input: PacketInput): readonly Paper[] =>
  bentParts(input.shape).flatMap((part): readonly Paper[] => {
    const number = input.numbers.get(part.name);
    if (number === undefined || input.touched.has(part.name)) return [];
    const { label, hand, path, name } = number;
    const head = { title: `Bend sheet ${label}`, what: `bend sheet ${label}`, hand };
    return [
      {
        path: `bend/${path}.html`,
        title: `Bend sheet ${label}`,
        kind: 'bend',
        parts: [name],
        content: paperPage(input, head, [bendSheet(part, input)]),
      },
    ];
  });
