/**
 * The report for the scrutineer: one self-contained page of HTML that says of every rule of the chosen books whether the
 * car meets it, with the figures, the drawings and the sources. The same car and books give the same bytes.
 */
import { bookSection, measuredHow } from './rule-tables';
import { booksTable, carFacts, countsTable, findingsTable, strapsTable, tubesTable, waiversTable } from './car-tables';
import type { Markup } from './html';
import { element, section, join, paragraph, terms, words } from './html';
import type { Judged, Kind, ReportInput } from './judged';
import { asked, kindOf } from './judged';
import { tubeNumbers } from './names';
import { page } from './page';
import { pictures } from './pictures';

const CAUTIONS = [
  'This report is an aid, not an approval. The current printed rulebook of the event and the scrutineer decide, and licensed practice where a weld or a structure is concerned.',
  'It measures the text of the file, not the car: how the cage was welded, bent, fixed and finished is not seen by it. Measure on the car what you rely on.',
  'A limit marked “from memory” was not seen in its book, and one marked “common practice” stands in none: look it up before you rely on it. Books change every year; the edition in which a figure was seen stands beside it.',
  'A rule that is met here is met as far as this tool measures it. A rule that cannot be judged is not met.',
];

const caution = element(
  'div',
  { class: 'caution', role: 'note' },
  '\n',
  join(
    CAUTIONS.map((said, i) => paragraph(said, i === 0 ? 'strong' : '')),
    '\n',
  ),
  '\n',
);

const many = (count: number, word: string): string => `${String(count)} ${word}${count === 1 ? '' : 's'}`;

function verdictLine(judged: readonly Judged[], findings: ReportInput['findings']): string {
  const count = (kind: Kind): number => judged.filter((one) => kindOf(one) === kind).length;
  const broken = [
    many(count('error'), 'error'),
    many(count('warning'), 'warning'),
    many(count('information'), 'remark'),
  ];
  const errors = findings.filter(({ waived, severity }) => !waived && severity === 'error').length;
  return `${String(count('met'))} met; broken: ${broken.join(', ')}; ${String(count('waived'))} waived; ${String(count('unknown'))} cannot be judged. ${many(findings.length, 'finding')} in all, ${String(errors)} of them to be mended before anything else.`;
}

/** Books of the `rules` line that nobody knows: by them nothing is judged. */
function unknownBooks({ car, books }: ReportInput): readonly Markup[] {
  const unknown = car.cage.rules.filter((name) => !books.some((book) => book.name === name));
  return unknown.length === 0
    ? []
    : [paragraph(`Not known, so nothing is judged by it: ${unknown.join(', ')}.`, 'strong')];
}

/** Lines to sign on. The tool signs nothing. */
function signatures(date: string | null): Markup {
  const fields = [
    date === null ? 'Date' : `Date: ${date}`,
    'Event, start number',
    'Entrant: name and signature',
    'Scrutineer: name and signature',
  ];
  return element(
    'div',
    { class: 'sign' },
    '\n',
    join(
      fields.map((field) => element('div', {}, words(field))),
      '\n',
    ),
    '\n',
  );
}

/** The whole page. Whatever is not known is said to be; never throws. */
export function scrutineerReport(input: ReportInput): string {
  const { car, books, waivers, maker, date } = input;
  const judged = asked(input.judged, car);
  const title = car.cage.title ?? car.cage.file;
  const numbers = tubeNumbers(car.shape);
  const how = measuredHow(judged);
  const body = join(
    [
      element('h1', {}, words('Report for the scrutineer')),
      paragraph(title, 'strong'),
      caution,
      section(
        'summary',
        'Summary',
        paragraph(verdictLine(judged, input.findings), 'strong'),
        ...(books.length === 0
          ? [paragraph('No book that the tool knows is chosen, so nothing is judged.')]
          : [countsTable(books, judged, car)]),
      ),
      section(
        'car',
        'Car',
        carFacts(car, input.files),
        ...(books.length === 0 ? [] : [booksTable(books, car)]),
        ...unknownBooks(input),
      ),
      section('drawings', 'Drawings', pictures(car, numbers), tubesTable(car, numbers), ...strapsTable(car)),
      section('rules', 'Rules, book by book', ...books.map((book) => bookSection(book, books, judged, car))),
      section('findings', 'All findings', findingsTable(input)),
      section('waivers', 'Waivers', waiversTable(waivers, car.cage.units)),
      ...(how.length === 0 ? [] : [section('measured', 'How it was measured', terms(how))]),
      section(
        'sign',
        'For the scrutineer',
        caution,
        signatures(date),
        paragraph(`Made by ${maker} from the files named above.`, 'small'),
      ),
    ],
    '\n',
  );
  return page(`Report for the scrutineer: ${title}`, body);
}
