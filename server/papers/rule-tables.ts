/** One table a book: every judgement with figure, limit and source; and the limits that found nothing in this car. */
import type { LengthUnit } from '../../grammar/units';
import { boundsFor, holdsOn, standsBack } from '../rules/assess';
import type { Car } from '../rules/car';
import { findBook, libraryOf } from '../rules/library';
import { allowedWords, limitWords, scopeWords, sourceWords } from '../rules/limit-words';
import type { Book, Item, Limit } from '../rules/rule';
import { isMissing } from '../rules/rule';
import type { Column, Markup, Row } from './html';
import { code, element, join, lines, paragraph, raw, table, withCode, words } from './html';
import type { Judged, Word } from './judged';
import { asked, holding, kindOf, unusedLimits, VERDICTS, wordOf } from './judged';
import { bothSides } from './names';
import { inBoth, sayBoth, saySize } from './quantity';

const ORDER: readonly Word[] = ['broken', 'unknown', 'waived', 'met'];

/** The figure of a thing: a word where it is one, a tube's size as a pair. */
export function measuredWords(item: Item, limits: readonly Limit[], units: LengthUnit): string {
  if (isMissing(item)) return '';
  if (item.word !== undefined && limits.some(({ accepts }) => accepts !== undefined)) return item.word;
  const { od, wall } = item.params;
  if (
    typeof od === 'object' &&
    od !== null &&
    'unit' in od &&
    typeof wall === 'object' &&
    wall !== null &&
    'unit' in wall
  )
    return saySize(od, wall, units);
  return sayBoth(item.measured, units);
}

/** For which cars a limit holds by their day. That it holds for this thing and structure the line says by itself. */
const dayWords = ({ of: _of, notOf: _notOf, structure: _structure, selfBuilt: _selfBuilt, ...limit }: Limit): string =>
  scopeWords(limit);

/** What the limit asks of this thing; its own bound where the limit leaves it to the thing. */
function askedOf(limit: Limit, item: Item, units: LengthUnit): string {
  const force = limit.force === 'recommends' ? 'recommended: ' : '';
  const open = limit.allowed.from === null && limit.allowed.to === null && limit.sizes === undefined;
  if (open && limit.accepts === undefined && !isMissing(item) && item.limit !== null) {
    const bounds = { ...boundsFor(limit, item), unit: item.measured.unit };
    return force + inBoth((unit) => allowedWords(bounds, unit), units);
  }
  return force + inBoth((unit) => limitWords(limit, unit), units) + dayWords(limit);
}

const SEVERE = { error: 'an error', warning: 'a warning', information: 'a remark only' } as const;

function verdictCell(judged: Judged, word: Word): Markup {
  const { verdict } = judged.assessment;
  const { shape, says } = VERDICTS[word];
  const mark = element('span', { class: 'mark', 'aria-hidden': 'true' }, words(shape));
  const said = join([mark, raw(' '), words(says)]);
  return word === 'broken' && verdict.kind === 'broken'
    ? lines([said, element('span', { class: 'small' }, words(SEVERE[verdict.limit.severity]))])
    : said;
}

/** What stands beside the figure: the fact that is missing, or why it was waived. */
function remarks({ assessment, waiver }: Judged, units: LengthUnit): readonly Markup[] {
  const { verdict } = assessment;
  const said: Markup[] = [];
  if (verdict.kind === 'unknown') said.push(join([element('b', {}, 'Missing: '), withCode(verdict.fact)]));
  if (waiver !== null && verdict.kind !== 'met') {
    const { upTo } = waiver;
    const unit = upTo?.kind === 'length' ? 'mm' : upTo?.kind === 'angle' ? 'deg' : '1';
    const bound = upTo === null ? '' : `, up to ${sayBoth({ value: upTo.value, unit }, units)}`;
    said.push(join([element('b', {}, words(`Waived${bound}: `)), words(waiver.because)]));
  }
  return said;
}

/** What stands out of the table: what is broken by more than a remark, and what cannot be judged. */
const rowKind = (judged: Judged): string => {
  const kind = kindOf(judged);
  return kind === 'error' || kind === 'warning' ? 'serious' : kind;
};

interface Line {
  readonly word: Word;
  readonly first: Judged;
  readonly subjects: string[];
}

/** Several limits, and where they are written, find each other by number. */
const numbered = (said: readonly string[]): readonly Markup[] =>
  said.map((one, i) => words(said.length < 2 ? one : `${String(i + 1)}) ${one}`));

/** Judgements that read the same but for the thing are one line with all its things. */
function linesOf(judged: readonly Judged[], car: Car): readonly (Line & { readonly row: Row })[] {
  const { units } = car.cage;
  const byText = new Map<string, Line & { readonly cells: readonly Markup[] }>();
  for (const one of judged) {
    const { assessment } = one;
    const word = wordOf(one);
    const limits = holding(one, car);
    // The broken limit stands first.
    const broken = assessment.verdict.kind === 'broken' ? assessment.verdict.limit : null;
    const sorted = broken === null ? limits : [broken, ...limits.filter((limit) => limit !== broken)];
    const rest = [
      lines(
        [words(measuredWords(assessment.item, sorted, units)), ...remarks(one, units)].filter((said) => said !== ''),
      ),
      lines(numbered(sorted.map((limit) => askedOf(limit, assessment.item, units)))),
      lines(numbered(sorted.map(sourceWords))),
    ];
    const cells = [verdictCell(one, word), code(assessment.rule.code), ...rest];
    const key = cells.join('\n');
    const line = byText.get(key);
    if (line === undefined) byText.set(key, { word, first: one, subjects: [assessment.item.subject], cells });
    else line.subjects.push(assessment.item.subject);
  }
  return [...byText.values()].map((line) => {
    const [verdict, rule, ...rest] = line.cells;
    const subjects = words(bothSides(line.subjects).join(', '));
    return {
      ...line,
      row: { kind: rowKind(line.first), cells: [verdict ?? subjects, rule ?? subjects, subjects, ...rest] },
    };
  });
}

/** Why a limit has no line. */
function whyUnused(limit: Limit, book: Book, books: readonly Book[], car: Car): string {
  if (standsBack(limit, book, books)) return 'left to another chosen book that writes it down';
  if (limit.structure !== undefined && limit.structure !== car.kind())
    return limit.structure === 'cage' ? 'for full cages only' : 'for bare roll bars only';
  if (limit.cars !== undefined && !limit.cars.includes(car.cage.vehicle?.kind ?? 'production'))
    return `for ${limit.cars.map((kind) => kind.replace('-', ' ')).join(' and ')} cars only`;
  if (limit.noFrame === true && car.cage.vehicle?.frame === true) return 'for cars without a frame only';
  if (limit.selfBuilt === true && car.certified()) return 'its certificate counts instead';
  const day = car.day();
  if (day !== null && !holdsOn(limit, day)) return 'not for a car of its day';
  return 'nothing in this car that it measures';
}

/** The limits without a line, under why they have none. */
function unusedList(book: Book, books: readonly Book[], judged: readonly Judged[], car: Car): readonly Markup[] {
  const unused = unusedLimits(book, judged, car);
  if (unused.length === 0) return [];
  const { units } = car.cage;
  const byReason = new Map<string, Markup[]>();
  for (const limit of unused) {
    const force = limit.force === 'recommends' ? 'recommended ' : '';
    const said = ` ${force}${limitWords(limit, units)}${scopeWords(limit)} (${sourceWords(limit)})`;
    const item = element('li', {}, code(limit.code), words(said));
    const why = whyUnused(limit, book, books, car);
    const list = byReason.get(why);
    if (list === undefined) byReason.set(why, [item]);
    else list.push(item);
  }
  return [
    element('h4', {}, words(`Limits of ${book.name} with nothing to judge (${String(unused.length)})`)),
    ...[...byReason].flatMap(([why, items]) => [
      paragraph(`${why.charAt(0).toUpperCase()}${why.slice(1)}:`, 'reason'),
      element('ul', { class: 'rest' }, '\n', join(items, '\n'), '\n'),
    ]),
  ];
}

/** What a book that is written in the car's files leaves out of the one that it is based on. */
function droppedLine(book: Book, car: Car): readonly Markup[] {
  if (book.base === undefined || book.base === null) return [];
  const base = findBook(libraryOf(car.cage), book.base);
  const own = new Set(book.limits.map(({ code: one }) => one));
  const dropped = [...new Set((base?.limits ?? []).map((limit) => limit.code).filter((one) => !own.has(one)))];
  if (dropped.length === 0) return [];
  return [paragraph(`${book.name} drops from ${book.base}: ${dropped.join(', ')}. These are not judged.`)];
}

const COLUMNS: readonly Column[] = [
  ['Verdict', 12],
  ['Rule', 16],
  ['Of', 16],
  ['Measured', 18],
  ['Allowed', 20],
  ['Written where, known how', 18],
];

/** Everything that one book says of the car. */
export function bookSection(book: Book, books: readonly Book[], judged: readonly Judged[], car: Car): Markup {
  const own = asked(judged, car).filter(({ assessment }) => assessment.book === book);
  const rows = [...linesOf(own, car)]
    .sort((a, b) => ORDER.indexOf(a.word) - ORDER.indexOf(b.word))
    .map(({ row }) => row);
  const title = element('h3', { id: `book-${book.name}` }, words(`${book.name}: ${book.title}`));
  return join(
    [
      title,
      ...droppedLine(book, car),
      rows.length === 0
        ? paragraph('Nothing in this car is measured by a limit of this book.')
        : table(`What ${book.name} says of this car`, COLUMNS, rows),
      ...unusedList(book, books, judged, car),
    ],
    '\n',
  );
}

/** The codes on which something was judged, with how each is measured. */
export function measuredHow(judged: readonly Judged[]): readonly (readonly [string, Markup])[] {
  const rules = new Map(judged.map(({ assessment: { rule } }) => [rule.code, rule]));
  return [...rules.values()].map((rule) => [rule.code, withCode(rule.explanation.measured)]);
}
