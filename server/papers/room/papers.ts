/** Will it go in? One page for all bars that are put in between tubes that stand. */
import type { Row } from '../html';
import { element, join, lines, paragraph, table, words } from '../html';
import { HANDS } from '../../geometry/room/play';
import { HOME } from '../../geometry/room/travel';
import { onTape } from '../on-tape';
import { CAUTIONS, footer, header, markupMark } from '../packet/marks';
import { endLabel } from '../packet/numbers';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { MARK, page } from '../page';
import type { Advice } from './advice';
import { adviceOf, OPEN } from './advice';
import type { Inside } from './rooms';
import { wayWords } from './words';

const notes = ({ units }: PacketInput): readonly string[] => [
  'Bars whose both ends are coped to tubes, in the order in which they go in: each when its hosts and what comes before it in the file stand where they are drawn, tight, and cut as drawn. Computed from the true cuts, for a cut without a gap; bends as short chords. Spring of the tubes is not counted on.',
  `Length over the points: in a straight line. Clear width: the shortest line along the bar, within its thickness, from tube to tube. Too long: so much would have to come off, at one end or at both together. Least play: what is left before the last ${onTape(HOME, units)} of the way, where cut and tube come to touch. Hands want about ${onTape(HANDS, units)} (common practice, no source).`,
  `Straight: looked at every 10° round the bar. Tilted: one end in first, up to 60°, the other from every 15° round it. Along its hosts: in where they stand wider apart. A neighbour counts as in the way where the bar would pass it by less than ${onTape(HANDS, units)}. Ends are left open ${onTape(OPEN, units)} at most (common practice, no source). The shell, panels, plates, padding and hands are not looked at: how the bar comes into the car is yours to see.`,
];

interface Line {
  readonly inside: Inside;
  readonly advice: Advice;
}

function rowOf({ inside, advice }: Line, input: PacketInput): Row {
  const { units, numbers, touched } = input;
  const { part, room } = inside;
  const label = (name: string): string => numbers.get(name)?.label ?? name;
  const stop = touched.get(part.name);
  const alarm = stop !== undefined || !advice.goes;
  const sizes =
    room === null
      ? ['not known']
      : [
          `${onTape(room.overPoints, units)} over the points`,
          room.clear === null ? 'its hosts do not stand opposite each other' : `${onTape(room.clear, units)} clear`,
        ];
  const cell = (kind: 'straight' | 'tilted' | 'slid'): ReturnType<typeof words> => {
    if (room === null) return words('not computed');
    return lines(wayWords(room, room.ways[kind], label, units).map(words));
  };
  return {
    ...(alarm ? { kind: 'serious' } : {}),
    cells: [
      lines([words(label(part.name)), ...part.ends.map((end) => words(endLabel(end)))]),
      lines(sizes.map(words)),
      cell('straight'),
      cell('tilted'),
      cell('slid'),
      element('b', {}, lines((stop === undefined ? advice.says : [`Do not cut: ${stop.why}`]).map(words))),
    ],
  };
}

const COLUMNS = [
  ['Bar', 13],
  ['Length, width', 13],
  ['Straight', 17],
  ['Tilted', 20],
  ['Along its hosts', 17],
  ['Do this', 20],
] as const;

export const roomPapers: Maker = (input: PacketInput): readonly Paper[] => {
  const { bars } = input.rooms();
  const all = bars
    .filter(({ part }) => input.numbers.has(part.name))
    .map((inside): Line => ({ inside, advice: adviceOf(inside, input) }));
  const some = all.filter(({ advice }) => !advice.goes);
  const rest = all.filter(({ advice }) => advice.goes);
  const tableOf = (caption: string, of: readonly Line[]): readonly ReturnType<typeof words>[] =>
    of.length === 0
      ? []
      : [
          table(
            caption,
            COLUMNS,
            of.map((line) => rowOf(line, input)),
          ),
        ];
  const body = [
    element('h1', {}, words('Will it go in?')),
    paragraph(input.title),
    element('div', { class: 'caution' }, join(CAUTIONS.map((one) => paragraph(one)))),
    ...(all.length === 0
      ? [paragraph('No tube of the file is cut to other tubes at both ends.')]
      : [
          ...tableOf('Look here first: bars that do not go in as the order stands', some),
          ...tableOf('Bars that go in', rest),
        ]),
    element('div', { class: 'small' }, lines(notes(input).map(words))),
    paragraph(footer(input), 'small'),
  ];
  const content = page(header(input, 'will it go in?'), join(body, '\n')).replace(`<!-- ${MARK} -->`, markupMark);
  return [{ path: 'will-it-go-in.html', title: 'Will it go in?', kind: 'room', parts: [], content }];
};
