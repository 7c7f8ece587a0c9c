/** The chosen books against the car's figures: one finding for each book and reading that is broken. */
import type { Finding, Params } from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import { Kept } from '../geometry/kept';
import type { Shape } from '../geometry/shape';
import { bookNamed } from './books';
import type { Book, Limit, Mend, Reading, Rule } from './rule';
import { RULES } from './rules';

interface Bounds {
  readonly from: number | null;
  readonly to: number | null;
}

/** The limit as it holds for this reading: a thing's own limit (its hardware) takes the place of an open one. */
const boundsFor = (limit: Limit, reading: Reading): Bounds => ({
  from: limit.allowed.from ?? reading.limit?.from ?? null,
  to: limit.allowed.to ?? reading.limit?.to ?? null,
});

const under = (value: number, bounds: Bounds, slack: number): boolean =>
  bounds.from !== null && value < bounds.from - slack;
const over = (value: number, bounds: Bounds, slack: number): boolean => bounds.to !== null && value > bounds.to + slack;

/** Where a mend should bring the reading: inside the strictest of the book's limits on that side. */
const targetFor = (limits: readonly Limit[], reading: Reading, low: boolean): number | null => {
  const ends = limits.map((limit) => boundsFor(limit, reading)).map((bounds) => (low ? bounds.from : bounds.to));
  const known = ends.filter((end): end is number => end !== null);
  if (known.length === 0) return null;
  return low ? Math.max(...known) : Math.min(...known);
};

const askFor = (limit: Limit, low: boolean): string =>
  limit.source === 'common practice' && limit.force === 'wants'
    ? `, {book} wants ${low ? 'at least' : 'at most'} {limit}`
    : `, {book} ${limit.force} ${low ? 'at least' : 'at most'} {limit}`;

const findingOf = (
  rule: Rule,
  book: Book,
  limit: Limit,
  bounds: Bounds,
  reading: Reading,
  low: boolean,
  mend: Mend,
): Finding => {
  const bound = low ? bounds.from : bounds.to;
  const params: Params = {
    ...reading.params,
    ...mend.params,
    book: book.name,
    limit: { value: bound ?? 0, unit: rule.unit },
    need: { value: bound ?? 0, unit: rule.unit },
    ask: mend.ask ?? askFor(limit, low),
    mend: mend.says,
  };
  return {
    code: rule.code,
    severity: limit.severity,
    subject: reading.subject,
    at: reading.at,
    params,
    measured: reading.measured,
    allowed: { from: bounds.from, to: bounds.to, unit: rule.unit },
    rule: { book: book.name, citation: limit.citation, edition: limit.edition, source: limit.source },
    notes: reading.notes,
    fixes: reading.fixes,
  };
};

/** Mends of the run before: they are solved, and most cars stay as they are from one key to the next. */
export type MendCache = Kept<Mend>;
export const newMendCache = (): MendCache => new Kept();

const NOTHING: Mend = { says: '', params: {} };

const keptMend = (rule: Rule, reading: Reading, target: number, cage: Cage, shape: Shape, mends: MendCache): Mend =>
  mends.get(`${rule.code} ${reading.subject} ${String(target)}`, [reading.figures, cage.units], () =>
    rule.mend(reading, target, cage, shape),
  );

/** The first of a book's limits on one quantity that a reading breaks, as a finding; null: none is broken. */
const judgeReading = (
  rule: Rule,
  book: Book,
  limits: readonly Limit[],
  reading: Reading,
  cage: Cage,
  shape: Shape,
  mends: MendCache,
): Finding | null => {
  for (const limit of limits) {
    const bounds = boundsFor(limit, reading);
    const value = reading.measured.value;
    const low = under(value, bounds, rule.slack);
    if (!low && !over(value, bounds, rule.slack)) continue;
    const target = targetFor(limits, reading, low);
    const mend = target === null ? NOTHING : keptMend(rule, reading, target, cage, shape, mends);
    return findingOf(rule, book, limit, bounds, reading, low, mend);
  }
  return null;
};

/** True where a practice limit stands back because another chosen book limits the same quantity. */
export const standsBack = (limit: Limit, book: Book, books: readonly Book[]): boolean =>
  limit.standsBack && books.some((other) => other !== book && other.limits.some((rival) => rival.code === limit.code));

/**
 * Judges the car by the books of its `rules` line. An unknown book is passed over here: it has a finding of its own.
 * A book changes no figure, only what is said about it. With `mends` kept for the same car, the findings are the same.
 */
export function judge(cage: Cage, shape: Shape, mends: MendCache = newMendCache()): readonly Finding[] {
  const books = [...new Set(cage.rules)].map(bookNamed).filter((book): book is Book => book !== null);
  const findings: Finding[] = [];
  for (const rule of RULES) {
    const asking = books
      .map((book) => ({
        book,
        limits: book.limits.filter((limit) => limit.code === rule.code && !standsBack(limit, book, books)),
      }))
      .filter(({ limits }) => limits.length > 0);
    if (asking.length === 0) continue;
    for (const reading of rule.read(cage, shape)) {
      for (const { book, limits } of asking) {
        const finding = judgeReading(rule, book, limits, reading, cage, shape, mends);
        if (finding !== null) findings.push(finding);
      }
    }
  }
  mends.sweep();
  return findings;
}
