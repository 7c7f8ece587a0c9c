/**
 * Every chosen book against every figure of the car: met, broken, or not to be judged because a fact is missing. The
 * findings are made from it, and so is whatever lists all rules of a car.
 */
import type { Measure } from '../../grammar/finding';
import type { Car } from './car';
import { hintIn } from './inch-hints';
import type { Book, Decision, Item, Limit, Reading, Rule } from './rule';
import { isMissing } from './rule';
import { RULES } from './rules';

/** One book's judgement of one thing by one rule. */
export interface Assessment {
  readonly rule: Rule;
  readonly book: Book;
  readonly item: Item;
  /** The limits of the book that hold for this thing, the strictest consequence first. */
  readonly limits: readonly Limit[];
  readonly verdict: Verdict;
}

export type Verdict =
  | { readonly kind: 'met' }
  | { readonly kind: 'broken'; readonly limit: Limit; readonly decision: Extract<Decision, { kind: 'broken' }> }
  | { readonly kind: 'unknown'; readonly fact: string };

const HOMOLOGATED = "the day of the car's homologation is not written, and the limit hangs on it";

/** The limit as it holds for this reading: a thing's own limit (its hardware) takes the place of an open one. */
export const boundsFor = (
  limit: Limit,
  reading: Reading,
): { readonly from: number | null; readonly to: number | null } => ({
  from: limit.allowed.from ?? reading.limit?.from ?? null,
  to: limit.allowed.to ?? reading.limit?.to ?? null,
});

const MET = { kind: 'met' } as const;

const broken = (measured: Measure, from: number | null, to: number | null, low: boolean): Decision => ({
  kind: 'broken',
  measured,
  from,
  to,
  low,
});

/**
 * By how much a figure may be over a bound and still be on it, in the rule's unit. What is as near to a strict bound as
 * nobody can tell the two apart is on it: too much already.
 */
export const slackOf = (rule: Rule, limit: Limit): number => (limit.strict === true ? -rule.slack : rule.slack);

/** What one limit says of one reading, where it is a range or a list of words. */
function plainDecision(rule: Rule, limit: Limit, reading: Reading): Decision {
  if (limit.accepts !== undefined && reading.word !== undefined) {
    return limit.accepts.includes(reading.word) ? MET : broken(reading.measured, null, null, false);
  }
  const { from, to } = boundsFor(limit, reading);
  const { value } = reading.measured;
  const slack = slackOf(rule, limit);
  if (from !== null && value < from - slack) return broken(reading.measured, from, to, true);
  if (to !== null && value > to + slack) return broken(reading.measured, from, to, false);
  return MET;
}

export const decide = (rule: Rule, limit: Limit, reading: Reading, car: Car): Decision =>
  rule.decide === undefined ? plainDecision(rule, limit, reading) : rule.decide(limit, reading, car);

/** The first limit that is broken; else the first that cannot be judged. */
function firstOf(rule: Rule, limits: readonly Limit[], reading: Reading, car: Car): Verdict {
  let unknown: Verdict | null = null;
  for (const limit of limits) {
    const decision = decide(rule, limit, reading, car);
    if (decision.kind === 'broken') return { kind: 'broken', limit, decision };
    if (decision.kind === 'unknown') unknown ??= decision;
  }
  return unknown ?? MET;
}

export const holdsOn = (limit: Limit, day: string): boolean =>
  (limit.since === undefined || day >= limit.since) && (limit.before === undefined || day < limit.before);

/**
 * Limits that hang on the day of homologation. Where it is not written every day is tried on which something changes:
 * what is met on all of them is met, what is broken on all of them is broken, the rest hangs on the fact that is missing.
 */
function dated(rule: Rule, limits: readonly Limit[], reading: Reading, car: Car): Verdict {
  const day = car.day();
  if (day !== null) {
    return firstOf(
      rule,
      limits.filter((limit) => holdsOn(limit, day)),
      reading,
      car,
    );
  }
  const days = [...new Set(['', ...limits.flatMap(({ since, before }) => [since ?? '', before ?? ''])])].sort();
  const verdicts = days.map((one) =>
    firstOf(
      rule,
      limits.filter((limit) => holdsOn(limit, one)),
      reading,
      car,
    ),
  );
  const first = verdicts[0] ?? MET;
  if (verdicts.every(({ kind }) => kind === first.kind)) return first;
  return { kind: 'unknown', fact: HOMOLOGATED };
}

/** True where a practice limit stands back because another chosen book limits the same quantity by more than practice. */
export const standsBack = (limit: Limit, book: Book, books: readonly Book[]): boolean =>
  limit.standsBack &&
  books.some((other) => other !== book && other.limits.some((rival) => rival.code === limit.code && !rival.standsBack));

/** True of a foot that is welded and has no bolts. */
const isWelded = (car: Car, subject: string): boolean => {
  const foot = car.cage.things.get(subject);
  return foot?.kind === 'foot' && foot.bolts === null && foot.welded === true;
};

/** True where the limit is about this kind of car. */
const isAbout = (limit: Limit, car: Car): boolean =>
  (limit.structure === undefined || limit.structure === car.kind()) &&
  (limit.cars === undefined || limit.cars.includes(car.cage.vehicle?.kind ?? 'production')) &&
  !(limit.noFrame === true && car.cage.vehicle?.frame === true) &&
  !(limit.selfBuilt === true && car.certified());

/** True where the limit is about this thing. */
const concerns = (limit: Limit, item: Item, car: Car): boolean =>
  (limit.of === undefined || (item.group !== null && limit.of.includes(item.group))) &&
  (limit.notOf === undefined || item.group === null || !limit.notOf.includes(item.group)) &&
  !(limit.ifBolted === true && isWelded(car, item.subject));

function assessOne(rule: Rule, book: Book, limits: readonly Limit[], item: Item, car: Car): Assessment | null {
  const day = car.day();
  // What is missing is asked for only by limits that hold for this car.
  const asked = limits.filter(
    (limit) => concerns(limit, item, car) && (day === null || !isMissing(item) || holdsOn(limit, day)),
  );
  if (asked.length === 0) return null;
  const verdict: Verdict = isMissing(item)
    ? { kind: 'unknown', fact: item.fact }
    : asked.some(({ since, before }) => since !== undefined || before !== undefined)
      ? dated(rule, asked, item, car)
      : firstOf(rule, asked, item, car);
  const told = verdict.kind === 'unknown' ? { ...verdict, fact: hintIn(verdict.fact, car.cage.units) } : verdict;
  return { rule, book, item, limits: asked, verdict: told };
}

/** What one book asks of a quantity. */
interface Asking {
  readonly book: Book;
  readonly limits: readonly Limit[];
}

/** What the books ask, by the code of the quantity, in the order of the books. */
function askedBy(books: readonly Book[]): ReadonlyMap<string, readonly Asking[]> {
  const asked = new Map<string, Asking[]>();
  for (const book of books) {
    const byCode = new Map<string, Limit[]>();
    for (const limit of book.limits) {
      if (standsBack(limit, book, books)) continue;
      const list = byCode.get(limit.code);
      if (list === undefined) byCode.set(limit.code, [limit]);
      else list.push(limit);
    }
    for (const [code, limits] of byCode) {
      const list = asked.get(code);
      if (list === undefined) asked.set(code, [{ book, limits }]);
      else list.push({ book, limits });
    }
  }
  return asked;
}

/** A rule with what some books ask of its quantity. */
export interface AskedRule {
  readonly rule: Rule;
  /** What is asked of this kind of car; where it is nothing, nothing has to be measured. */
  readonly here: (car: Car) => readonly Asking[];
}

/** The rules of which these books ask something, in their order. */
export function askedRules(books: readonly Book[], rules: readonly Rule[] = RULES): readonly AskedRule[] {
  const asked = askedBy(books);
  return rules.flatMap((rule) => {
    const asking = asked.get(rule.code);
    if (asking === undefined) return [];
    const here = (car: Car): readonly Asking[] =>
      asking.flatMap(({ book, limits }): readonly Asking[] => {
        const about = limits.filter((limit) => isAbout(limit, car));
        return about.length === 0 ? [] : [{ book, limits: about }];
      });
    return [{ rule, here }];
  });
}

/** What is asked of some items, item by item. */
export function assessItems(
  rule: Rule,
  here: readonly Asking[],
  items: readonly Item[],
  car: Car,
): readonly Assessment[] {
  const assessments: Assessment[] = [];
  for (const item of items) {
    for (const { book, limits } of here) {
      const assessment = assessOne(rule, book, limits, item, car);
      if (assessment !== null) assessments.push(assessment);
    }
  }
  return assessments;
}

/** What judges cars by these books and rules. */
export function assessor(books: readonly Book[], rules: readonly Rule[] = RULES): (car: Car) => readonly Assessment[] {
  const asked = askedRules(books, rules);
  return (car) =>
    asked.flatMap(({ rule, here }) => {
      const asking = here(car);
      return asking.length === 0 ? [] : assessItems(rule, asking, rule.read(car), car);
    });
}

/** All that the books say of the car, rule by rule. Books change no figure: each reading is taken once for all of them. */
export const assess = (car: Car, books: readonly Book[], rules: readonly Rule[] = RULES): readonly Assessment[] =>
  assessor(books, rules)(car);

/** Where a mend should bring the reading: inside the strictest of the book's limits on that side. */
export function targetOf({ rule, limits, item, verdict }: Assessment): number | null {
  if (verdict.kind !== 'broken' || isMissing(item)) return null;
  const { low } = verdict.decision;
  const own = low ? verdict.decision.from : verdict.decision.to;
  const ends = limits
    .filter(({ sizes, accepts, since, before }) => !sizes && !accepts && since === undefined && before === undefined)
    .map((limit) => boundsFor(limit, item))
    .map((bounds) => (low ? bounds.from : bounds.to));
  const inside = verdict.limit.strict === true ? (low ? 2 : -2) * rule.slack : 0;
  const known = [own === null ? null : own + inside, ...ends].filter((end): end is number => end !== null);
  if (known.length === 0) return null;
  return low ? Math.max(...known) : Math.min(...known);
}
