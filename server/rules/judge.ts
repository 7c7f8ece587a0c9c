/** The findings of the chosen books: one for each book and reading that is broken, and what cannot be judged. */
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { Finding, FindingNote, Params } from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import { Kept } from '../geometry/kept';
import type { Shape } from '../geometry/shape';
import type { Assessment } from './assess';
import { assess, targetOf } from './assess';
import { Car } from './car';
import { booksOf, libraryOf } from './library';
import { ofBooks } from './of-books';
import { contradictions } from './roles';
import type { Book, Limit, Mend, Reading, Rule } from './rule';
import { isMissing } from './rule';

/** Mends of the run before: they are solved, and most cars stay as they are from one key to the next. */
export type MendCache = Kept<Mend>;
export const newMendCache = (): MendCache => new Kept();

const mendOf = (rule: Rule, reading: Reading, target: number | null, car: Car, mends: MendCache): Mend => {
  if (target === null) return rule.mend(reading, 0, car);
  if (reading.figures === null) return rule.mend(reading, target, car);
  return mends.get(`${rule.code} ${reading.subject} ${String(target)}`, [reading.figures, car.cage.units], () =>
    rule.mend(reading, target, car),
  );
};

/** What the book wants, as a part of the sentence. What is known from memory only says so, and what is borderline. */
function askFor(limit: Limit, mend: Mend, low: boolean, value: number): string {
  const near = limit.borderline !== undefined && value <= limit.borderline.upTo;
  const doubts = [
    ...(limit.source === 'from memory' ? ['from memory: check the current book'] : []),
    ...(near ? [`up to {borderline} it is borderline: ${limit.borderline?.says ?? ''}`] : []),
  ];
  const memory = doubts.length === 0 ? '' : ` (${doubts.join('; ')})`;
  if (mend.ask !== undefined) return `${mend.ask}${memory}`;
  if (limit.accepts !== undefined)
    return `, {book} ${limit.force === 'recommends' ? 'recommends' : 'accepts'} ${limit.accepts.join(', ')}${memory}`;
  const strict = limit.strict === true;
  // Nobody allows at least.
  const force = low && limit.force === 'allows' ? 'wants' : limit.force;
  return `, {book} ${force} ${low ? (strict ? 'more than' : 'at least') : strict ? 'less than' : 'at most'} {limit}${memory}`;
}

/** Where the limit stands in the car's own files. */
const writtenIn = ({ writtenAt, inherited }: Limit, book: Book): readonly FindingNote[] =>
  writtenAt === undefined
    ? []
    : [{ at: { kind: 'place', place: writtenAt }, message: `The limit of ${inherited ?? book.name} is written here.` }];

function brokenFinding(assessment: Assessment, car: Car, mends: MendCache): Finding | null {
  const { rule, book, item, verdict } = assessment;
  if (verdict.kind !== 'broken' || isMissing(item)) return null;
  const { limit, decision } = verdict;
  const { from, to, low, measured } = decision;
  const bound = { value: (low ? from : to) ?? 0, unit: measured.unit };
  const mend = decision.mend ?? mendOf(rule, item, targetOf(assessment), car, mends);
  const params: Params = {
    ...item.params,
    ...mend.params,
    book: limit.inherited === undefined ? book.name : `${book.name} (from ${limit.inherited})`,
    limit: bound,
    need: bound,
    ask: askFor(limit, mend, low, measured.value),
    ...(limit.borderline === undefined ? {} : { borderline: { value: limit.borderline.upTo, unit: measured.unit } }),
    mend: mend.says,
  };
  return {
    code: rule.code,
    severity: limit.severity,
    subject: item.subject,
    at: item.at,
    params,
    measured,
    allowed: { from, to, unit: measured.unit },
    rule: { book: book.name, citation: limit.citation, edition: limit.edition, source: limit.source },
    notes: [...item.notes, ...writtenIn(limit, book)],
    fixes: item.fixes,
  };
}

const once = (words: readonly string[]): readonly string[] => [...new Set(words)];

/**
 * What cannot be judged: one finding for each fact of a thing that is missing, with all books and rules that ask for it;
 * facts of the whole car together in one.
 */
function unknownFindings(assessments: readonly Assessment[]): readonly Finding[] {
  const groups = new Map<string, { readonly first: Assessment; readonly fact: string; readonly all: Assessment[] }>();
  for (const assessment of assessments) {
    if (assessment.verdict.kind !== 'unknown') continue;
    const { fact } = assessment.verdict;
    const { item } = assessment;
    const ofCar = isMissing(item) && item.ofCar === true;
    const key = ofCar ? 'car' : `${item.subject}\n${fact}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { first: assessment, fact, all: [assessment] });
    else group.all.push(assessment);
  }
  return [...groups.values()].map(({ first, fact, all }): Finding => {
    const limit = first.limits[0];
    const code: Code = 'rule.cannot-judge';
    return {
      code,
      severity: CODES[code].severity,
      subject: first.item.subject,
      at: first.item.at,
      params: {
        books: once(all.map(({ book }) => book.name)),
        rule: once(all.map(({ rule }) => rule.code)),
        fact: once(all.map(({ verdict }) => (verdict.kind === 'unknown' ? verdict.fact : fact))).join('; '),
      },
      ...(limit === undefined
        ? {}
        : {
            rule: {
              book: first.book.name,
              citation: limit.citation,
              edition: limit.edition,
              source: limit.source,
            },
          }),
      notes: [],
      fixes: [],
    };
  });
}

export { booksOf } from './library';

/** Codes that geometry tells by itself, where no chosen book asks for them: a book's word takes the place of practice. */
export const saidByBooks = (cage: Cage): ReadonlySet<Code> =>
  new Set(booksOf(cage).flatMap((book) => book.limits.map((limit) => limit.code)));

/**
 * Judges the car by the books of its `rules` line. A book changes no figure, only what is said about it. With `mends`
 * kept for the same car, the findings are the same.
 */
export function judge(cage: Cage, shape: Shape, mends: MendCache = newMendCache()): readonly Finding[] {
  const car = new Car(cage, shape);
  const library = libraryOf(cage);
  const books = booksOf(cage, library);
  const assessments = assess(car, books);
  const findings = [
    ...assessments.flatMap((assessment) => brokenFinding(assessment, car, mends) ?? []),
    ...unknownFindings(assessments),
    ...contradictions(car, books),
    ...ofBooks(car, books),
    ...library.findings,
  ];
  mends.sweep();
  return findings;
}
