/** Will it go in? One page for all bars that are put in between tubes that stand. */
import { HANDS } from '../../geometry/room/play';
import { HOME } from '../../geometry/room/travel';
import { KINDS } from '../../geometry/room/ways';
import type { Column, Markup, Row } from '../html';
import { element, join, lines, paragraph, table, words } from '../html';
import { onTape } from '../on-tape';
import { endLabel } from '../packet/numbers';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { paperPage } from '../packet/paper-page';
import type { Advice } from './advice';
import { adviceOf, NAMES, OPEN } from './advice';
import type { Inside } from './rooms';
import { shortWords, wayWords } from './words';

const notes = ({ units }: PacketInput): readonly string[] => [
  'Bars whose both ends are cut to tubes, in the order of work: each when its hosts and all that comes before it stand where they are drawn. Cut without a gap, as a hole saw leaves it or to the outer edge with a bevel: so its points are longest. Spring of the tubes is not counted on.',
  `Over the points: in a straight line from end to end. Clear: the shortest line along the bar, within its thickness, from host to host. Too long: so much would have to come off, at one end or at both together; good to about 0.2 mm. Play: what is left until the last ${onTape(HOME, units)} of the way, where cut and tube come to touch. Hands want about ${onTape(HANDS, units)} (common practice, no source).`,
  `Straight: looked at every 10° round the bar, of a bent one also as its end legs run; from above: let down across the bar. Tilted: one end in first, up to 60°, the other from every 15° round it. Along its hosts: in where they stand wider apart, or past their ends, but not through a plate. In the way: the bar would pass it by less than ${onTape(HANDS, units)}. Other ways may be left, but none that was looked at: a no is no proof, a yes was followed in steps of at most 5 mm. No end is left open wider than ${onTape(OPEN, units)} (common practice, no source).`,
  'The shell, panels, plates, padding and hands are not looked at: how the bar comes into the car is yours to see.',
];

interface Line {
  readonly inside: Inside;
  readonly advice: Advice;
  /** Its image on the other side, of which the same is said. */
  readonly twin: Inside | null;
}

type LabelOf = (name: string) => string;

/** True where the same ways are told of both, and nothing stands in the one that does not stand in the other. */
function isAlike(a: Inside, b: Inside): boolean {
  const [one, two] = [a.room, b.room];
  if (a.before.length !== b.before.length) return false;
  if (one === null || two === null || one.bar !== two.bar || one.mirrored === two.mirrored) return false;
  return KINDS.every((kind) => {
    const [of, other] = [one.ways[kind], two.ways[kind]];
    return of?.way === other?.way && (of?.blockers.length ?? 0) === (other?.blockers.length ?? 0);
  });
}

/** Twins of which the same is said stand in one line, told of the first. */
function together(all: readonly Line[], isStopped: (inside: Inside) => boolean): readonly Line[] {
  const gone = new Set<Line>();
  return all.flatMap((line, i) => {
    if (gone.has(line)) return [];
    if (isStopped(line.inside)) return [line];
    const twin = all.slice(i + 1).find(({ inside }) => isAlike(line.inside, inside) && !isStopped(inside));
    if (twin === undefined) return [line];
    gone.add(twin);
    return [{ ...line, twin: twin.inside }];
  });
}

const sizes = ({ room }: Inside, { units }: PacketInput): readonly string[] =>
  room === null
    ? ['not known']
    : [
        `${onTape(room.overPoints, units)} over the points`,
        room.clear === null ? 'hosts not opposite each other' : `${onTape(room.clear, units)} clear`,
      ];

/** A bar that needs somebody's thought: what to do first, then every way with what is in it. */
function card({ inside, advice, twin }: Line, input: PacketInput, labelOf: LabelOf): Markup {
  const { part, room } = inside;
  const stop = input.touched.get(part.name);
  const too = twin === null ? '' : ` (${labelOf(twin.part.name)}: mirrored)`;
  const head = element('h3', {}, words(`${labelOf(part.name)}${too}: ${part.ends.map(endLabel).join(', ')}`));
  const [first = '', ...rest] = advice.says;
  if (stop !== undefined) return element('section', {}, head, paragraph(`STOP: do not cut: ${stop.why}`, 'strong'));
  const rows =
    room === null
      ? []
      : KINDS.map((kind): Row => {
          const [goes = '', ...how] = wayWords(room, room.ways[kind], labelOf, input.units);
          return { cells: [words(NAMES[kind]), words(goes), words(how.join(' '))] };
        });
  return element(
    'section',
    { style: 'break-inside: avoid' },
    head,
    paragraph(first, 'strong'),
    ...rest.map((one) => paragraph(`Or: ${one}`)),
    ...(rows.length === 0
      ? []
      : [
          table(
            sizes(inside, input).join('; '),
            [
              ['Way', 16],
              ['Goes in?', 34],
              ['How', 50],
            ],
            rows,
          ),
        ]),
  );
}

const COLUMNS: readonly Column[] = [
  ['Bar', 16],
  ['Length, width', 17],
  ['Straight', 10],
  ['From above', 10],
  ['Tilted', 10],
  ['Along hosts', 10],
  ['Put it in', 27],
];

function rowOf({ inside, advice, twin }: Line, input: PacketInput, labelOf: LabelOf): Row {
  const { part, room } = inside;
  const cell = (kind: (typeof KINDS)[number]): Markup =>
    words(room === null ? 'not computed' : shortWords(room.ways[kind], labelOf, input.units));
  const labels = [labelOf(part.name), ...(twin === null ? [] : [`${labelOf(twin.part.name)}: mirrored`])];
  return {
    cells: [
      lines(labels.map(words)),
      lines(sizes(inside, input).map(words)),
      ...KINDS.map(cell),
      element('b', {}, lines(advice.says.map(words))),
    ],
  };
}

export const roomPapers: Maker = (input: PacketInput): readonly Paper[] => {
  const labelOf: LabelOf = (name) => input.numbers.get(name)?.label ?? name;
  const isStopped = ({ part }: Inside): boolean => input.touched.has(part.name);
  const all = input
    .rooms()
    .bars.filter(({ part }) => input.numbers.has(part.name))
    .map((inside): Line => ({ inside, advice: adviceOf(inside, input), twin: null }));
  const isPlain = ({ inside, advice }: Line): boolean => advice.goes && !isStopped(inside);
  const some = together(
    all.filter((line) => !isPlain(line)),
    isStopped,
  );
  const rest = together(all.filter(isPlain), isStopped);
  const content = [
    ...(all.length === 0 ? [paragraph('No tube of the file is cut to other tubes at both ends.')] : []),
    ...(some.length === 0
      ? []
      : [
          element('h2', {}, words('Look here first: bars that do not go in as the file has them')),
          join(
            some.map((line) => card(line, input, labelOf)),
            '\n',
          ),
        ]),
    ...(rest.length === 0
      ? []
      : [
          table(
            'Bars that go in',
            COLUMNS,
            rest.map((line) => rowOf(line, input, labelOf)),
          ),
        ]),
    element('div', { class: 'small' }, join(notes(input).map((one) => paragraph(one)))),
  ];
  return [
    {
      path: 'will-it-go-in.html',
      title: 'Will it go in?',
      kind: 'room',
      parts: [],
      content: paperPage(input, { title: 'Will it go in?', what: 'will it go in?' }, content),
    },
  ];
};
