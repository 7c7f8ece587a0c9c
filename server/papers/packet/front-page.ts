/** The front page of a packet: what the car is, what must not be cut yet, and where every paper lies. */
import { sayMeasure } from '../../../grammar/print';
import { svgElement } from '../../drawing/svg';
import type { Part } from '../../geometry/shape';
import { Car } from '../../rules/car';
import type { Markup, Row } from '../html';
import { element, figures, section, join, lines, paragraph, raw, table, terms, words } from '../html';
import { viewOf } from '../pictures';
import { onTape } from '../on-tape';
import { saySize } from '../quantity';
import { mainDimensions } from './dimensions';
import { shortHash } from './marks';
import type { PacketInput, Paper, PaperKind } from './paper';
import { KINDS } from './paper';
import { paperPage } from './paper-page';
import { stoppedParts } from './stopped';

export const FRONT_PAGE = 'index.html';

const KIND_WORDS: Readonly<Record<PaperKind, string>> = {
  'set-out': 'Setting out',
  template: 'Cope templates and ordinates',
  'two-cut': 'Saw and grinder: flat cuts to begin with',
  bend: 'Bend sheets',
  'cut-list': 'Cutting and buying',
  drill: 'Drilling',
  weld: 'Welding',
  order: 'Order of work',
  room: 'Will it go in?',
  other: 'Other papers',
};

const address = ({ path }: Paper): string => path.split('/').map(encodeURIComponent).join('/');

const link = (paper: Paper, says = paper.title): Markup => element('a', { href: address(paper) }, words(says));

/** A paper's title without the part's name, and without what a paper of its sort is for. */
function shortTitle({ title }: Paper, label: string): string {
  const short = title
    .replace(label, '')
    .split(': ')
    .filter((one) => one.trim() !== '')[0]
    ?.replace(/\s+/g, ' ')
    .replace(/ (?=,)/g, '')
    .trim();
  return short === undefined || short === '' ? title : short;
}

/** The same paper in several formats stands once: `Cope template, END 1 at root: A4 · US Letter · SVG`. */
function inRow(papers: readonly Paper[], label: string): Markup {
  const groups = new Map<string, { readonly paper: Paper; readonly format: string }[]>();
  for (const paper of papers) {
    const [, what = '', format = ''] = /^(.*), ([^,]*)$/.exec(shortTitle(paper, label)) ?? [
      '',
      shortTitle(paper, label),
    ];
    groups.set(what, [...(groups.get(what) ?? []), { paper, format }]);
  }
  return lines(
    [...groups].map(([what, of]) => {
      const [only] = of;
      if (only !== undefined && of.length === 1)
        return link(only.paper, only.format === '' ? what : `${what}, ${only.format}`);
      const formats = of.map(({ paper, format }) => link(paper, format === '' ? what : format));
      return join([figures(`${what}: `), join(formats, ' · ')]);
    }),
  );
}

/** Open errors, each once, with the parts that it stops. In red, in bold and behind a bar: a copy shows it too. */
function errors(input: PacketInput): readonly Markup[] {
  const open = input.findings.filter(({ severity, waived }) => severity === 'error' && !waived);
  if (open.length === 0) return [];
  const items = open.map((finding) =>
    element(
      'li',
      {},
      element('strong', {}, words(`${input.placeOf(finding)}: ${finding.message}`)),
      words(` (${finding.code})`),
    ),
  );
  const stopped = stoppedParts(input).map(({ labels, why }) =>
    element('li', {}, element('strong', {}, words(labels.join('; '))), words(`: ${why}`)),
  );
  return [
    element(
      'div',
      { class: 'stop', role: 'alert' },
      '\n',
      element('h2', {}, words(open.length === 1 ? 'An error is open' : `${String(open.length)} errors are open`)),
      '\n',
      element('ul', {}, join(items, '\n')),
      ...(stopped.length === 0
        ? []
        : [
            '\n',
            paragraph('Do not cut these parts: there is no template of them until the error is mended.', 'strong'),
            element('ul', {}, join(stopped, '\n')),
          ]),
      '\n',
    ),
  ];
}

/** What each section is, and in how many parts. */
function sections(input: PacketInput): readonly (readonly [string, Markup])[] {
  const found = new Map<string, { readonly size: string; count: number }>();
  for (const name of input.numbers.keys()) {
    const of = input.shape.parts.get(name)?.tube.section;
    if (of === null || of === undefined) continue;
    const size =
      of.od === null || of.wall === null
        ? 'not known'
        : saySize({ value: of.od, unit: 'mm' }, { value: of.wall, unit: 'mm' }, input.units);
    const seen = found.get(of.name);
    if (seen === undefined) found.set(of.name, { size, count: 1 });
    else seen.count++;
  }
  return [...found].map(([name, { size, count }]) => [
    `Section ${name}`,
    words(`${size}, ${String(count)} part${count === 1 ? '' : 's'}`),
  ]);
}

function partRow(part: Part, input: PacketInput, papers: readonly Paper[]): readonly Row[] {
  const number = input.numbers.get(part.name);
  if (number === undefined) return [];
  const { section: of } = part.tube;
  const stopped = input.touched.has(part.name);
  const own = papers.filter(({ parts }) => parts.length === 1 && parts[0] === part.name);
  const stop = element('strong', { class: 'red' }, words('Do not cut: an error is open'));
  return [
    {
      kind: stopped ? 'stopped' : '',
      cells: [
        words(number.label),
        words(of?.name ?? 'not known'),
        figures(stopped ? '' : onTape(part.cutLength, input.units)),
        words(String(part.bends.length)),
        join([...(stopped ? [stop] : []), ...(own.length === 0 ? [] : [inRow(own, number.label)])], '<br>'),
      ],
    },
  ];
}

function partsTable(input: PacketInput, papers: readonly Paper[]): Markup {
  const parts = [...input.numbers.keys()].flatMap((name) => input.shape.parts.get(name) ?? []);
  return table(
    'Parts that are made',
    [
      ['Part', 19],
      ['Section', 9],
      ['Cut length, over the points', 15],
      ['Bends', 8],
      ['Papers', 49],
    ],
    parts.flatMap((part) => partRow(part, input, papers)),
  );
}

/** Papers of the whole car, in the order of the work: one line for each sort. */
const carPapers = (papers: readonly Paper[]): Markup =>
  terms(
    KINDS.flatMap((kind) => {
      const of = papers.filter((paper) => paper.kind === kind && paper.parts.length !== 1);
      const links = join(
        of.map((paper) => link(paper)),
        ' · ',
      );
      return of.length === 0 ? [] : [[KIND_WORDS[kind], links] as const];
    }),
  );

/** So high that the side view stands below the dimensions, and the other two on one sheet, mm of paper. */
const VIEW = 88;

function drawings(input: PacketInput, car: Car): Markup {
  const numbers = [...input.numbers.values()].map(({ number, name }) => ({ number, name, parts: [name] }));
  return join(
    (['side', 'plan', 'front'] as const).map((name) => {
      const { scene } = viewOf(car, name, numbers, true, VIEW);
      return element('figure', {}, '\n', raw(svgElement(scene)), '\n');
    }),
    '\n',
  );
}

/** Looks of this page alone: what stops is red, and barred for a copy in grey. */
const STYLE = `
.stop { border: 0.8mm solid #b00000; border-left-width: 4mm; color: #b00000; padding: 2mm 3mm; margin: 3mm 0; }
.stop h2 { border: 0; margin: 0 0 1mm; }
.stop ul { margin: 0 0 2mm; padding-left: 5mm; }
.stop li { overflow-wrap: anywhere; }
.red { color: #b00000; }
.stopped th:first-child { border-left: 2mm solid #b00000; font-weight: bold; }
a { color: #000; white-space: nowrap; }

dl a { white-space: normal; }
.foot { border-top: 0.2mm solid #000; margin-top: 8mm; padding-top: 1mm; overflow-wrap: anywhere; }
@media print { .stop, .red { print-color-adjust: exact; -webkit-print-color-adjust: exact; } }
`;

/** Links what the other makers made; of a car that cannot be drawn it says so much as is known. */
export function frontPage(input: PacketInput, papers: readonly Paper[]): Paper {
  const car = new Car(input.cage, input.shape);
  const { mass } = input.shape;
  const body = [
    ...errors(input),
    section('papers', 'Papers of the whole car', carPapers(papers)),
    section(
      'car',
      'Main dimensions',
      terms([
        ...mainDimensions(input).map(([name, said]): readonly [string, Markup] => [name, words(said)]),
        ...sections(input),
        [
          'Mass of the tubes',
          words(mass === null ? 'not known' : sayMeasure({ value: mass, unit: 'kg' }, input.units)),
        ],
      ]),
    ),
    section('drawings', 'Drawings', drawings(input, car)),
    section('parts', 'Parts and their papers', partsTable(input, papers)),
    element(
      'p',
      { class: 'small foot' },
      words(
        `Every paper carries the first ${String(shortHash(input.hash).length)} signs of this: papers with others belong to another state of the file. SHA-256 ${input.hash}`,
      ),
    ),
  ];
  const content = paperPage(input, { title: 'Shop papers', what: 'shop papers', style: STYLE }, body);
  return { path: FRONT_PAGE, title: 'Front page', kind: 'other', parts: [], content };
}
