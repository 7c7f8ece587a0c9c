/** The findings of the chosen books: one for each book and reading that is broken, and what cannot be judged. */
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { Finding, FindingNote, Params } from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import { samePlain } from '../cage/same';
import { Kept, sameItems } from '../geometry/kept';
import type { Shape } from '../geometry/shape';
import type { AskedRule, Assessment } from './assess';
import { askedRules, assessItems, targetOf } from './assess';
import { Car } from './car';
import { hintIn } from './inch-hints';
import type { Library } from './library';
import { booksOf, libraryOf } from './library';
import { Memory } from './memory';
import { ofBooks } from './of-books';
import { contradictions } from './roles';
import type { Book, Item, Limit, Mend } from './rule';
import { isMissing } from './rule';

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

function brokenFinding(assessment: Assessment, car: Car): Finding | null {
  const { rule, book, item, verdict } = assessment;
  if (verdict.kind !== 'broken' || isMissing(item)) return null;
  const { limit, decision } = verdict;
  const { from, to, low, measured } = decision;
  const bound = { value: (low ? from : to) ?? 0, unit: measured.unit };
  const mend = decision.mend ?? rule.mend(item, targetOf(assessment) ?? 0, car);
  const params: Params = {
    ...item.params,
    ...mend.params,
    book: limit.inherited === undefined ? book.name : `${book.name} (from ${limit.inherited})`,
    limit: bound,
    need: bound,
    ask: askFor(limit, mend, low, measured.value),
    ...(limit.borderline === undefined ? {} : { borderline: { value: limit.borderline.upTo, unit: measured.unit } }),
    mend: hintIn(mend.says, car.cage.units),
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

/** What some items of a rule give: findings, and what could not be judged. */
interface Said {
  readonly broken: readonly Finding[];
  readonly unknown: readonly Assessment[];
}

const NOTHING: Said = { broken: [], unknown: [] };

function saidOf(assessments: readonly Assessment[], car: Car): Said {
  const broken = assessments.flatMap((assessment) => brokenFinding(assessment, car) ?? []);
  const unknown = assessments.filter(({ verdict }) => verdict.kind === 'unknown');
  return broken.length + unknown.length === 0 ? NOTHING : { broken, unknown };
}

/** What is said by one rule. Made once for a choice of books: what it works out is kept by what it is. */
function sayer({ rule, here }: AskedRule): (car: Car) => Said {
  const said = (items: readonly Item[], car: Car): Said =>
    items.length === 0 ? NOTHING : saidOf(assessItems(rule, car.keep(here), items, car), car);
  const { byThing } = rule.read;
  if (byThing === undefined) return (car) => (car.keep(here).length === 0 ? NOTHING : said(car.keep(rule.read), car));
  const ofThing = (thing: unknown, car: Car): Said => said(byThing.one(thing, car), car);
  return (car) => {
    if (car.keep(here).length === 0) return NOTHING;
    const all = car.forEach(byThing.things(car), ofThing).filter((one) => one !== NOTHING);
    return { broken: all.flatMap(({ broken }) => broken), unknown: all.flatMap(({ unknown }) => unknown) };
  };
}

const once = (words: readonly string[]): readonly string[] => [...new Set(words)];

/** What cannot be judged for want of one fact. */
interface Lack {
  readonly fact: string;
  readonly all: [Assessment, ...Assessment[]];
}

/** What cannot be judged: by each fact of a thing that is missing; facts of the whole car together. */
function lacksOf(assessments: readonly Assessment[]): ReadonlyMap<string, Lack> {
  const lacks = new Map<string, Lack>();
  for (const assessment of assessments) {
    if (assessment.verdict.kind !== 'unknown') continue;
    const { fact } = assessment.verdict;
    const { item } = assessment;
    const ofCar = isMissing(item) && item.ofCar === true;
    const key = ofCar ? 'car' : `${item.subject}\n${fact}`;
    const lack = lacks.get(key);
    if (lack === undefined) lacks.set(key, { fact, all: [assessment] });
    else lack.all.push(assessment);
  }
  return lacks;
}

/** One finding for all books and rules that ask for the same. */
function lackFinding({ fact, all }: Lack): Finding {
  const [first] = all;
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
}

export { booksOf } from './library';

/** What is said of a car, and of which codes a chosen book has spoken: its word takes the place of practice. */
export interface Judgement {
  readonly findings: readonly Finding[];
  readonly asked: ReadonlySet<Code>;
}

/** The books by which a car is judged, made ready. */
interface Chosen {
  readonly books: readonly Book[];
  readonly asked: ReadonlySet<Code>;
  readonly sayers: readonly ((car: Car) => Said)[];
}

const chosenOf = (books: readonly Book[]): Chosen => ({
  books,
  asked: new Set(books.flatMap((book) => book.limits.map((limit) => limit.code))),
  sayers: askedRules(books).map(sayer),
});

/** All findings of a car. */
function findingsOf(car: Car, { books, sayers }: Chosen, library: Library, lacks: Kept<Finding>): readonly Finding[] {
  const said = sayers.map((say) => car.keep(say));
  return [
    ...said.flatMap(({ broken }) => broken),
    ...[...lacksOf(said.flatMap(({ unknown }) => unknown))].map(([key, lack]) =>
      lacks.get(key, lack.all, () => lackFinding(lack)),
    ),
    ...contradictions(car, books),
    ...ofBooks(car, books),
    ...library.findings,
  ];
}

/** Judges one car again and again: of what has not changed since, what was said is kept. Bounded by what one car needs. */
export class Judging {
  private readonly memory = new Memory<Car>();
  private readonly lacks = new Kept<Finding>();
  private own: Cage['ownBooks'] | null = null;
  private library: Library | null = null;
  private chosen: Chosen | null = null;

  /** How often a reading or what it hangs on was really worked out since this was last asked. */
  takeRuns(): number {
    return this.memory.takeMade();
  }

  /** How many results are kept. */
  get size(): number {
    return this.memory.size;
  }

  /**
   * Judges the car by the books of its `rules` line. A book changes no figure, only what is said about it. What was
   * kept saves work, and changes nothing.
   */
  judge(cage: Cage, shape: Shape): Judgement {
    const library = this.libraryOf(cage);
    const chosen = this.choose(booksOf(cage, library));
    const findings = findingsOf(new Car(cage, shape, this.memory), chosen, library, this.lacks);
    this.lacks.sweep();
    this.memory.end();
    return { findings, asked: chosen.asked };
  }

  private libraryOf(cage: Cage): Library {
    if (this.library === null || this.own === null || !samePlain([...this.own], [...cage.ownBooks]))
      this.library = libraryOf(cage);
    this.own = cage.ownBooks;
    return this.library;
  }

  private choose(books: readonly Book[]): Chosen {
    if (this.chosen === null || !sameItems(this.chosen.books, books)) this.chosen = chosenOf(books);
    return this.chosen;
  }
}

/** Judges a car once: nothing is kept, and nothing noted. */
export function judge(cage: Cage, shape: Shape): readonly Finding[] {
  const library = libraryOf(cage);
  return findingsOf(new Car(cage, shape), chosenOf(booksOf(cage, library)), library, new Kept());
}
