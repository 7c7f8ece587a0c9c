/** What the car is, in a report: its facts, its tubes with their numbers, seats and straps, findings, waivers. */
import type { PlacedFinding } from '../../grammar/finding';
import type { LengthUnit } from '../../grammar/units';
import { degrees } from '../../grammar/units';
import { sayMeasure } from '../../grammar/print';
import type { Material } from '../cage/cage';
import type { Part } from '../geometry/shape';
import type { Car } from '../rules/car';
import { textFor } from '../rules/of-books';
import type { Book, Text } from '../rules/rule';
import type { Column, Markup, Row } from './html';
import { code, element, join, lines, paragraph, table, terms, words } from './html';
import type { Judged, Kind, ReportInput } from './judged';
import { kindOf, SOURCES, unusedLimits, VERDICTS } from './judged';
import type { TubeNumber } from './names';
import { bothSides } from './names';
import { sayBoth, sayLength, saySize } from './quantity';

const not = (how: string): string => `not written (${how})`;

const UNIT_WORDS: Readonly<Record<LengthUnit, string>> = { mm: 'mm', cm: 'cm', m: 'metres', in: 'inches', ft: 'feet' };

const KINDS = {
  cage: 'full cage: it has members before or beside the main hoop',
  bar: 'bare roll bar: a main hoop without members before it',
  none: 'neither cage nor roll bar: no tube has the role of a hoop',
} as const;

const CAGES = { 'self-built': 'self-built', asn: 'certified by a national club', fia: 'certified by the FIA' } as const;

/** The facts of the car that books ask for; what is missing says how to write it. */
export function carFacts(car: Car, files: ReportInput['files']): Markup {
  const { cage, shape } = car;
  const { vehicle, units } = cage;
  const basis = vehicle?.withDriver;
  const mass =
    vehicle === null || vehicle.mass === null
      ? not('vehicle { mass 980 kg without driver }')
      : `${sayBoth({ value: vehicle.mass, unit: 'kg' }, units)}, ${basis === null || basis === undefined ? 'with or without driver is not written' : basis ? 'with driver' : 'without driver'}${vehicle.driver === null ? '' : `; the driver ${sayBoth({ value: vehicle.driver, unit: 'kg' }, units)}`}`;
  const pairs: (readonly [string, Markup])[] = [
    ['Car', words(cage.title ?? not('cage "Title"'))],
    ['Structure', words(KINDS[car.kind()])],
    ['Mass of the car', words(mass)],
    ['Body', words(vehicle?.body ?? not('vehicle { body closed }'))],
    ['Homologated', words(vehicle?.homologated ?? not('vehicle { homologated "2006-04-01" }'))],
    ...(vehicle?.passport === undefined || vehicle.passport === null
      ? []
      : ([['Technical passport', words(vehicle.passport)]] as const)),
    ...(vehicle?.cage === undefined || vehicle.cage === null ? [] : ([['Cage', words(CAGES[vehicle.cage])]] as const)),
    ['Tubes', words(tubesLine(car))],
    ['Units of the file', words(`${UNIT_WORDS[units]}; the other tradition stands in brackets`)],
    ...(shape.mass === null
      ? []
      : ([['Mass of the new tubes', words(sayBoth({ value: shape.mass, unit: 'kg' }, units))]] as const)),
    ...files.map(({ name, sha256 }, i): readonly [string, Markup] => [
      i === 0 ? 'File' : 'Used file',
      lines([
        element('code', {}, words(name)),
        sha256 === null ? words('SHA-256 not taken') : join([words('SHA-256 '), element('code', {}, words(sha256))]),
      ]),
    ]),
  ];
  return terms(pairs);
}

function tubesLine(car: Car): string {
  const parts = [...car.shape.parts.values()];
  const existing = parts.filter(({ tube }) => tube.existing).length;
  const old = existing === 0 ? '' : `, ${String(existing)} of them in the car already`;
  return `${String(car.tubes().length)} in ${String(parts.length)} pieces${old}`;
}

/** What a book has to say of itself before anybody relies on it. */
const cautionsOf = (book: Book, text: Text | null, car: Car): readonly Markup[] => [
  ...(text === null || text.note === '' ? [] : [element('b', {}, words(text.note))]),
  ...(book.asksCage && car.kind() === 'bar'
    ? [element('b', {}, words('asks for a full cage: of a bare roll bar only the rows are judged that carry over'))]
    : []),
];

/** Which books judge the car, by which of their texts, and how well they are known. */
export function booksTable(books: readonly Book[], car: Car): Markup {
  const day = car.day();
  const rows = books.map((book): Row => {
    const text = textFor(book, day);
    const said =
      book.texts.length === 0
        ? 'one text'
        : day === null
          ? `hangs on the day of homologation, which is not written: ${book.texts.map(({ name, before }) => `${name}${before === null ? ' after that' : ` before ${before}`}`).join(', ')}`
          : `${text?.name ?? 'none'} text, by the day ${day}`;
    const editions = [...new Set(book.limits.map(({ edition }) => edition).filter((one) => one !== ''))].sort();
    const states = Object.entries(SOURCES).flatMap(([state, says]) => {
      const count = book.limits.filter(({ source }) => source === state).length;
      return count === 0 ? [] : [`${String(count)} ${says}`];
    });
    return {
      cells: [
        words(book.name),
        lines([
          words(book.title),
          ...(book.base === undefined || book.base === null
            ? []
            : [words(`based on ${book.base}, changed in the car's files`)]),
        ]),
        lines([words(said), ...cautionsOf(book, text, car)]),
        words(editions.length === 0 ? 'none seen' : editions.join(', ')),
        lines(states.map(words)),
      ],
    };
  });
  return table(
    'Books by which the car is judged',
    [
      ['Book', 12],
      ['Title', 18],
      ['Text that counts', 26],
      ['Editions in which figures were seen', 24],
      ['How well its limits are known', 20],
    ],
    rows,
  );
}

const KINDS_COUNTED: readonly (readonly [Kind, string, number])[] = [
  ['met', `${VERDICTS.met.shape} met`, 10],
  ['error', `${VERDICTS.broken.shape} broken, an error`, 13],
  ['warning', `${VERDICTS.broken.shape} broken, a warning`, 13],
  ['information', `${VERDICTS.broken.shape} broken, a remark only`, 13],
  ['waived', `${VERDICTS.waived.shape} waived`, 11],
  ['unknown', `${VERDICTS.unknown.shape} cannot be judged`, 12],
];

/** How many judgements of each kind, by book. */
export function countsTable(books: readonly Book[], judged: readonly Judged[], car: Car): Markup {
  const row = (name: string, of: readonly Judged[], unused: number): Row => ({
    cells: [
      words(name),
      ...KINDS_COUNTED.map(([kind]) => words(String(of.filter((one) => kindOf(one) === kind).length))),
      words(String(unused)),
    ],
  });
  const unused = books.map((book) => unusedLimits(book, judged, car).length);
  const rows = books.map((book, i) =>
    row(
      book.name,
      judged.filter(({ assessment }) => assessment.book === book),
      unused[i] ?? 0,
    ),
  );
  const all = row(
    'all',
    judged,
    unused.reduce((sum, one) => sum + one, 0),
  );
  return table(
    'Judgements, one for each quantity of a book and thing of the car; and limits that found nothing to judge',
    [['Book', 14], ...KINDS_COUNTED.map(([, head, share]): Column => [head, share]), ['Nothing in this car', 14]],
    books.length > 1 ? [...rows, all] : rows,
    'counts',
  );
}

const materialWords = (material: Material): string =>
  [material.name ?? 'mild steel, none named', material.kind ?? ''].filter((one) => one !== '').join(', ');

/** The key to the numbers on the drawings. */
export function tubesTable(car: Car, numbers: readonly TubeNumber[]): Markup {
  const { units } = car.cage;
  const rows = numbers.map(({ number, name, parts }): Row => {
    const known = parts.flatMap((one): readonly Part[] => {
      const part = car.shape.parts.get(one);
      return part === undefined ? [] : [part];
    });
    const first = known[0];
    const section = first?.tube.section ?? null;
    const bends = first?.bends ?? [];
    const radii = [...new Set(bends.map(({ radius }) => sayLength(radius, units)))];
    return {
      cells: [
        words(String(number)),
        lines([
          words(name),
          ...(bothSides(parts).some((one) => one.includes('both sides')) ? [words('on both sides')] : []),
          ...(first?.tube.existing === true ? [words('in the car already')] : []),
        ]),
        words(first?.role ?? ''),
        words(
          section === null
            ? 'not known'
            : saySize({ value: section.od, unit: 'mm' }, { value: section.wall, unit: 'mm' }, units),
        ),
        words(section === null ? 'not known' : materialWords(section.material)),
        words(bends.length === 0 ? 'straight' : `${String(bends.length)}, radius ${radii.join(', ')}`),
      ],
    };
  });
  return table(
    'Tubes, with their numbers on the drawings',
    [
      ['No.', 6],
      ['Tube', 19],
      ['Role', 17],
      ['Diameter x wall', 22],
      ['Material', 18],
      ['Bends', 18],
    ],
    rows,
  );
}

const angle = (value: number | null): string =>
  value === null ? 'not known' : sayMeasure({ value: degrees(value), unit: 'deg' }, 'mm');

/** Away from the seat's middle, or toward it. */
function spreadWords(spread: number | null): string {
  if (spread === null) return 'not known';
  const said = angle(Math.abs(spread));
  return said === '0°' ? said : `${said} ${spread < 0 ? 'inward' : 'outward'}`;
}

/** Straps and seats as measured, whatever the books make of it. */
export function strapsTable(car: Car): readonly Markup[] {
  const { shape } = car;
  const { units } = car.cage;
  const tables: Markup[] = [];
  if (shape.straps.length > 0)
    tables.push(
      table(
        'Shoulder straps',
        [
          ['Strap', 15],
          ['Seat, bar', 15],
          ['Drop', 9],
          ['Drop from the shoulder', 13],
          ['Spread in plan', 12],
          ['Skew on the bar', 10],
          ['Length', 13],
          ['Free run', 13],
        ],
        shape.straps.map((strap): Row => ({
          cells: [
            words(strap.name),
            words(`${strap.seat ?? 'not known'}, ${strap.tube ?? 'not known'}`),
            words(angle(strap.drop)),
            words(strap.dropFromShoulder === null ? 'shoulder not written' : angle(strap.dropFromShoulder)),
            words(spreadWords(strap.spread)),
            words(angle(strap.skew)),
            words(sayLength(strap.length, units)),
            words(sayLength(strap.freeRun, units)),
          ],
        })),
      ),
    );
  if (shape.seats.length > 0)
    tables.push(
      table(
        'Seats',
        [
          ['Seat', 20],
          ['Nearest tube behind it', 26],
          ['Distance to it', 24],
          ['Distance to the bar of its straps', 30],
        ],
        shape.seats.map((seat): Row => ({
          cells: [
            words(seat.name),
            words(seat.to ?? 'not known'),
            words(sayLength(seat.gap, units)),
            words(sayLength(seat.barGap, units)),
          ],
        })),
      ),
    );
  return tables;
}

/** All findings, in the order and in the words of the list that the tool gives everywhere. */
export function findingsTable({ findings, placeOf }: Pick<ReportInput, 'findings' | 'placeOf'>): Markup {
  if (findings.length === 0) return paragraph('No findings.');
  return table(
    'Findings, of books and of building, with what mends them',
    [
      ['Severity', 12],
      ['Where in the text', 19],
      ['Code', 17],
      ['What it is', 52],
    ],
    findings.map((finding: PlacedFinding): Row => ({
      kind: !finding.waived && finding.severity === 'error' ? 'serious' : '',
      cells: [
        words(finding.waived ? `waived (${finding.severity})` : finding.severity),
        words(placeOf(finding)),
        code(finding.code),
        lines([words(finding.message), ...finding.notes.map(({ message }) => words(message))]),
      ],
    })),
  );
}

/** Every waiver, with its reason, also one that covers nothing. */
export function waiversTable(waivers: ReportInput['waivers'], units: LengthUnit): Markup {
  if (waivers.length === 0) return paragraph('Nothing is waived.');
  return table(
    'Waivers that are written in the car',
    [
      ['Rule', 20],
      ['On', 18],
      ['Up to', 16],
      ['Reason', 34],
      ['Used', 12],
    ],
    waivers.map((waiver): Row => {
      const { upTo } = waiver;
      const unit = upTo?.kind === 'length' ? 'mm' : upTo?.kind === 'angle' ? 'deg' : '1';
      return {
        cells: [
          join([words(waiver.book === null ? '' : `${waiver.book} `), code(waiver.code)]),
          words(`${waiver.written}${waiver.end === null ? '' : `, ${waiver.end} end`}`),
          words(upTo === null ? 'no bound' : sayBoth({ value: upTo.value, unit }, units)),
          words(waiver.because),
          words(waiver.used ? 'yes' : 'no: it covers nothing'),
        ],
      };
    }),
  );
}
