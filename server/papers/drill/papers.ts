/** The drill list of a packet: every hole, by the step before which it is drilled. */
import type { Markup } from '../html';
import { element, figures, join, lines, paragraph, table, withCode, words } from '../html';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { paperPage } from '../packet/paper-page';
import type { Drilling } from './holes';
import { drillingsOf, STEPS } from './holes';
import { beforeWords, inWords, sortWords, STEP_WORDS, whereWords } from './words';

/** Of what is drilled, and of what is welded over it, what an open error touches. */
const touchedIn = ({ part, closing }: Drilling, { touched }: PacketInput): string | null => {
  const name = [part, closing?.part ?? null].find((one) => one !== null && touched.has(one.name))?.name;
  return name === undefined ? null : `not given: an open error touches ${name}`;
};

const orderOf = ({ part }: Drilling, { numbers }: PacketInput): number =>
  part === null ? Infinity : (numbers.get(part.name)?.number ?? Infinity);

const stationOf = ({ where }: Drilling): number => (where.kind === 'tube' ? where.along.station : 0);

/** All holes in the order of the work: by step, then by part number, then along the part. */
export const inOrder = (input: PacketInput): readonly Drilling[] =>
  drillingsOf(input)
    .map((drilling, i) => ({ drilling, i, number: orderOf(drilling, input) }))
    .sort(
      (a, b) =>
        STEPS.indexOf(a.drilling.step) - STEPS.indexOf(b.drilling.step) ||
        (a.number === b.number ? 0 : a.number - b.number) ||
        stationOf(a.drilling) - stationOf(b.drilling) ||
        a.i - b.i,
    )
    .map(({ drilling }) => drilling);

function rowOf(drilling: Drilling, number: number, input: PacketInput): readonly Markup[] {
  const { units } = input;
  const stop = touchedIn(drilling, input);
  const [where, clock] = stop === null ? whereWords(drilling, units) : [[stop], ''];
  return [
    words(`D${String(number)}`),
    figures(sortWords(drilling, units)),
    figures(inWords(drilling, input)),
    lines(where.map((one) => (one.includes('`') ? withCode(one) : figures(one)))),
    figures(clock),
    figures(beforeWords(drilling, input)),
    words('☐'),
  ];
}

function body(input: PacketInput): Markup {
  const all = inOrder(input);
  const parts = STEPS.flatMap((step): readonly Markup[] => {
    const rows = all.flatMap((drilling, i) =>
      drilling.step === step ? [{ cells: rowOf(drilling, i + 1, input) }] : [],
    );
    if (rows.length === 0) return [];
    const [title, note] = STEP_WORDS[step];
    return [
      element('h2', {}, words(title)),
      paragraph(note, 'lead'),
      table(
        `${title}: ${String(rows.length)}`,
        [
          ['No.', 6],
          ['Hole', 14],
          ['In', 14],
          ['Where', 26],
          ['Clock', 18],
          ['Before', 17],
          ['', 5],
        ],
        rows,
        'long',
      ),
    ];
  });
  return parts.length === 0 ? paragraph('The file tells of no hole that is drilled.') : join(parts, '\n');
}

const NOTES = [
  'Distances along a tube are along its centreline. The long point is the farthest point of a coped or sawn end; from a bend they are taken where it begins or ends.',
  'Clock: seen along the tube from END 1 toward END 2, clockwise. 0° is TOP, on tubes near to upright FRONT.',
  'On a plate: forward and aft along its length, left and right across it, before it is turned; from its middle.',
  'Vents inside a joint are drilled square through the wall of the tube that runs through, where the axis of the other one meets it.',
  'Sizes of bolt holes: ISO 273 medium, or ASME B18.2.8 normal for inch bolts; from memory, the bolt in your hand decides.',
];

export const drillPapers: Maker = (input: PacketInput): readonly Paper[] => [
  {
    path: 'drill-list.html',
    title: 'Drill list',
    kind: 'drill',
    parts: [],
    content: paperPage(input, { title: 'Drill list', what: 'drill list' }, [
      element('div', { class: 'small' }, lines(NOTES.map(words))),
      body(input),
    ]),
  },
];
