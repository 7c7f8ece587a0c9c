/** The weld list of a packet, as a page. */
import type { Row } from '../html';
import { element, join, lines, paragraph, table, words } from '../html';
import { onTape } from '../on-tape';
import { CAUTIONS, footer, header, markupMark } from '../packet/marks';
import { endLabel } from '../packet/numbers';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { MARK, page } from '../page';
import { angleWords } from '../bend/words';
import type { WeldLine } from './list';
import { THROAT } from './list';
import { torchOf } from './torch';
import { reachWords } from './words';

/** What the torch measures, and which of it the file tells. */
function torchWords({ cage, units }: PacketInput): string {
  const { nozzle, reach, stickOut, lean } = torchOf(cage.torch);
  const sizes = [
    [`nozzle ${onTape(nozzle, units)} across`, 'nozzle'],
    [`${onTape(reach, units)} from the weld to hand and hose`, 'reach'],
    [`beginning ${onTape(stickOut, units)} from the weld`, 'stickOut'],
    [`up to ${angleWords(lean)} from the middle of the groove`, 'lean'],
  ] as const;
  const assumed = sizes.flatMap(([words, name]) => ((cage.torch?.[name] ?? null) === null ? [words] : []));
  const whose =
    assumed.length === 0
      ? 'Sizes as the file tells them.'
      : assumed.length === sizes.length
        ? 'Assumed sizes, common practice: measure your own, and write them as torch { nozzle …; reach … }.'
        : `Not told, and assumed (common practice): ${assumed.join(', ')}.`;
  return `Reach: a straight torch, ${sizes.map(([words]) => words).join(', ')}; every 15° round the tube, with all tubes and declared panels in. ${whose}`;
}

const notes = (input: PacketInput): readonly string[] => [
  `Throat: ${String(THROAT)} times the thinner wall, a fillet whose leg is that wall. Common practice, no source: the book and the welder decide.`,
  torchWords(input),
  'Hoses, hands, eyes and the shell that is not declared are not looked at; nor are welds on plates, collars and gussets. The drop lets all made tubes down together; panels and tubes in the car stay.',
];

function rowOf({ part, end, on, length, throat, reach }: WeldLine, input: PacketInput): Row {
  const { units, numbers, touched } = input;
  const stop = touched.get(part.name);
  const tubes = on.map((name) => numbers.get(name)?.label ?? name).join(', ');
  const stopped = stop === undefined ? reachWords(reach, units) : `Do not weld: ${stop.why}`;
  const alarm = stop !== undefined || (reach !== null && reach.blocked > 0);
  return {
    ...(alarm ? { kind: 'serious' } : {}),
    cells: [
      words(numbers.get(part.name)?.label ?? part.name),
      words(endLabel(end)),
      words(tubes),
      words(onTape(length, units)),
      words(throat === null ? 'not known' : `${throat.toFixed(1)} mm (${(throat / 25.4).toFixed(3)} in)`),
      words(stopped),
      words('☐'),
    ],
  };
}

/** Of lengths that are known: the sum; and how many are not. */
export function totalWords(all: readonly WeldLine[], { units }: Pick<PacketInput, 'units'>): string {
  const known = all.flatMap(({ length }) => (length === null ? [] : [length]));
  const missing = all.length - known.length;
  const sum = known.reduce((total, one) => total + one, 0);
  return `${String(all.length)} welds, ${onTape(sum, units)} together${missing === 0 ? '' : `, without ${String(missing)} whose length is not known`}`;
}

export const weldPapers: Maker = (input: PacketInput): readonly Paper[] => {
  const all = input.welds();
  const body = [
    element('h1', {}, words('Weld list')),
    paragraph(input.title),
    element('div', { class: 'caution' }, join(CAUTIONS.map((one) => paragraph(one)))),
    element('div', { class: 'small' }, lines(notes(input).map(words))),
    all.length === 0
      ? paragraph('The file tells of no weld.')
      : join(
          [
            paragraph(totalWords(all, input), 'strong'),
            table(
              'Welds, joint by joint',
              [
                ['Tube', 16],
                ['End', 16],
                ['On', 16],
                ['Length', 12],
                ['Throat', 10],
                ['Reach of the torch', 25],
                ['', 5],
              ],
              all.map((one) => rowOf(one, input)),
            ),
          ],
          '\n',
        ),
    paragraph(footer(input), 'small'),
  ];
  const content = page(header(input, 'weld list'), join(body, '\n')).replace(`<!-- ${MARK} -->`, markupMark);
  return [{ path: 'weld-list.html', title: 'Weld list', kind: 'weld', parts: [], content }];
};
