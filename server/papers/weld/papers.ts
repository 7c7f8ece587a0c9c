/** The weld list of a packet, as a page. */
import type { Row } from '../html';
import { element, figures, join, lines, paragraph, table, words } from '../html';
import { onTape } from '../on-tape';
import { endLabel } from '../packet/numbers';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { paperPage } from '../packet/paper-page';
import type { LengthUnit } from '../../../grammar/units';
import { UNITS } from '../../../grammar/units';
import { angleWords } from '../bend/words';
import { otherUnit } from '../quantity';
import type { WeldLine } from './list';
import { THROAT } from './list';
import { SHARP } from './reach';
import { torchOf } from './torch';
import type { NumberedWeld } from './turns';
import { weldOrder } from './turns';
import { reachWords } from './words';

const INCH = UNITS['in']?.factor ?? 25.4;

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
  return `Reach: a straight torch, ${sizes.map(([words]) => words).join(', ')}; every 15° round the tube, with all tubes, plates of feet and declared panels in. ${whose}`;
}

/** How the list is read. */
const TURNS =
  'Tack everything and tape it before the first weld. Then down the list: a tube before what is cut to it, left and right by turns, and no turn beside the one before where another is left, so that heat and pull are balanced (AWS D1.1, control of distortion, from memory). Let each turn cool, and tape again where it moves. First: what is welded out of its place, by the order of work.';

const notes = (input: PacketInput): readonly string[] => [
  `Throat: ${String(THROAT)} times the thinner wall, a fillet whose leg is that wall. Common practice, no source: the book and the welder decide.`,
  torchWords(input),
  `Gussets go in last, and what they will cover is told; a corner that the file does not tell is taken as the drawings have it. Heel: where the tubes close sharper than ${angleWords(SHARP)} no weld is counted on to reach the root without a trial (AWS D1.1, from memory): ask what the book wants there.`,
  'Hoses, hands, eyes and the shell that is not declared are not looked at; nor are welds of collars and gussets, and of plates to the car. The drop lets all made tubes down together; panels and tubes in the car stay.',
];

/** Throats are gauged, not taped: decimals in both systems, the file's first. */
function throatWords(throat: number | null, units: LengthUnit): string {
  if (throat === null) return 'not known';
  const [metric, inches] = [`${throat.toFixed(1)} mm`, `${(throat / INCH).toFixed(3)} in`];
  return otherUnit(units) === 'mm' ? `${inches} (${metric})` : `${metric} (${inches})`;
}

function rowOf({ part, end, on, length, throat, reach, number, turn }: NumberedWeld, input: PacketInput): Row {
  const { units, numbers, touched } = input;
  const stop = touched.get(part.name);
  const say = (name: string): string => numbers.get(name)?.label ?? name;
  const tubes = on.map((name) => (input.shape.parts.has(name) ? say(name) : `plate ${name}`)).join(', ');
  const stopped = stop === undefined ? reachWords(reach, units, say) : [`Do not weld: ${stop.why}`];
  const alarm = stop !== undefined || (reach !== null && reach.blocked > 0);
  return {
    ...(alarm ? { kind: 'serious' } : {}),
    cells: [
      words(`W${String(number)}`),
      words(turn === null ? 'first' : String(turn)),
      words(numbers.get(part.name)?.label ?? part.name),
      figures(endLabel(end)),
      words(tubes),
      figures(stop === undefined ? onTape(length, units) : ''),
      figures(stop === undefined ? throatWords(throat, units) : ''),
      lines(stopped.map(figures)),
      words('☐'),
    ],
  };
}

/** Of lengths that are known: the sum; and how many are not, or belong to parts that an open error stops. */
export function totalWords(
  all: readonly WeldLine[],
  { units, touched }: Pick<PacketInput, 'units' | 'touched'>,
): string {
  const stopped = all.filter(({ part }) => touched.has(part.name)).length;
  const open = all.filter(({ part }) => !touched.has(part.name));
  const known = open.flatMap(({ length }) => (length === null ? [] : [length]));
  const missing = open.length - known.length;
  const sum = known.reduce((total, one) => total + one, 0);
  return [
    `${String(all.length)} ${all.length === 1 ? 'weld' : 'welds'}`,
    known.length === 0 ? 'length not known' : `${onTape(sum, units)} together`,
    ...(missing === 0 || known.length === 0 ? [] : [`without ${String(missing)} whose length is not known`]),
    ...(stopped === 0 ? [] : [`without ${String(stopped)} that an open error stops`]),
  ].join(', ');
}

export const weldPapers: Maker = (input: PacketInput): readonly Paper[] => {
  const all = weldOrder(input);
  const body = [
    element('div', { class: 'small' }, lines(notes(input).map(figures))),
    all.length === 0
      ? paragraph('The file tells of no weld.')
      : join(
          [
            paragraph(totalWords(all, input), 'strong'),
            paragraph(TURNS),
            table(
              'Welds, joint by joint',
              [
                ['No.', 6],
                ['Turn', 7],
                ['Tube', 13],
                ['End', 14],
                ['On', 13],
                ['Length', 13],
                ['Throat', 10],
                ['Reach of the torch', 20],
                ['', 4],
              ],
              all.map((one) => rowOf(one, input)),
            ),
          ],
          '\n',
        ),
  ];
  const content = paperPage(input, { title: 'Weld list', what: 'weld list' }, body);
  return [{ path: 'weld-list.html', title: 'Weld list', kind: 'weld', parts: [], content }];
};
