/**
 * A club's book put together: what its base says, changed by what it says itself. Figures are replaced, never merged:
 *
 * - `drop` leaves out what the base says of a quantity.
 * - `limit` takes the place of the base's limits on that quantity, on the sides that are written: `to 20` leaves the
 *   base's lower limits standing, with their own citation. One that is recommended replaces recommendations only.
 * - `of` does so for some groups of things; what is said of a group counts before what is said of all.
 */
import type { Code, RuleCode } from '../../grammar/codes';
import { CODES, RULE_CODES } from '../../grammar/codes';
import type { Allowed, Finding, FindingNote, MeasureUnit, Params, Place } from '../../grammar/finding';
import { meant, nearestWord } from '../../grammar/nearest';
import type { Dimension } from '../../grammar/units';
import { ANGLE, AREA, degrees, FORCE, LENGTH, MASS, PLAIN, STRESS } from '../../grammar/units';
import { ROLES } from '../../grammar/vocabulary';
import { as, failed, type Quantity } from '../cage/quantity';
import type { At, OwnBook, OwnDrop, OwnLimit } from '../cage/rulebooks';
import { BOOKS } from './books';
import type { Days } from './limit-parts';
import { leftOf, meet, split, splitByDays } from './limit-parts';
import type { Book, Limit, Rule } from './rule';
import { RULES } from './rules';

const DIMENSIONS: Readonly<Record<MeasureUnit, Dimension>> = {
  mm: LENGTH,
  deg: ANGLE,
  kg: MASS,
  N: FORCE,
  MPa: STRESS,
  '1': PLAIN,
  mm2: AREA,
};

const isRuleCode = (code: string): code is RuleCode => Object.hasOwn(RULE_CODES, code);

/** What a line of a club's book can say of one quantity. */
interface Measured {
  readonly unit: MeasureUnit;
  /** The groups of things that are told apart for it; where they go by role, every role. */
  readonly groups: readonly string[];
  /** What it is that no range can limit; null: it is a figure like others. */
  readonly noRange: string | null;
  /** Where it goes by words: those that there are. */
  readonly words: readonly string[];
}

export type Quantities = ReadonlyMap<string, Measured>;

function measured({ code, unit, groups: read = [] }: Rule, limits: readonly Limit[]): readonly [string, Measured] {
  const groups = new Set([...read, ...limits.flatMap(({ of }) => of ?? [])]);
  const byRole = [...groups].some((group) => Object.hasOwn(ROLES, group));
  const table = limits.some(({ sizes }) => sizes !== undefined);
  const words = limits.length > 0 && limits.every(({ accepts }) => accepts !== undefined);
  return [
    code,
    {
      unit,
      groups: [...new Set([...groups, ...(byRole ? Object.keys(ROLES) : [])])].sort(),
      noRange: table ? 'a table of sizes' : words ? 'a list of words' : null,
      words: words ? [...new Set(limits.flatMap(({ accepts = [] }) => accepts))].sort() : [],
    },
  ];
}

/** All quantities that the tool measures for books, by code. */
export function quantities(): Quantities {
  const limits = new Map<string, Limit[]>();
  for (const limit of BOOKS.flatMap((book) => book.limits)) {
    const list = limits.get(limit.code);
    if (list === undefined) limits.set(limit.code, [limit]);
    else list.push(limit);
  }
  return new Map(RULES.map((rule) => measured(rule, limits.get(rule.code) ?? [])));
}

/** The unit of a quantity; null: no rule measures it. */
export const unitOf = (code: string, all: Quantities = quantities()): MeasureUnit | null => all.get(code)?.unit ?? null;

/** The groups of things that are told apart for a quantity. */
export const groupsOf = (code: string, all: Quantities = quantities()): readonly string[] =>
  all.get(code)?.groups ?? [];

/** Quantities that a club's book can limit by a range. */
export const canBeLimited = (code: string, all: Quantities = quantities()): boolean => all.get(code)?.noRange === null;

/** The words of a quantity that goes by words. */
export const wordsOf = (code: string, all: Quantities = quantities()): readonly string[] => all.get(code)?.words ?? [];

/** Quantities of which a club's book can say which words it accepts. */
export const canBeAccepted = (code: string, all: Quantities = quantities()): boolean => wordsOf(code, all).length > 0;

/** Quantities that a club's book can leave out. */
export const canBeDropped = (code: string, all: Quantities = quantities()): boolean => all.has(code);

interface Written extends Days {
  readonly code: RuleCode;
  readonly of: readonly string[];
}

const covers = (a: Written, b: Written): boolean =>
  a.code === b.code &&
  (a.of.length === 0 ? b.of.length === 0 : a.of.some((group) => b.of.includes(group))) &&
  meet(a, b);

/** How a book counts and measures, which is no matter of its figure. */
const HOW = ['counts', 'onShell'] as const;
/** For which cars it speaks. */
const FOR = ['structure', 'cars', 'noFrame', 'ifBolted', 'selfBuilt'] as const;

/** A limit that takes the place of others: it counts as they do, and for the cars for which all of them are. */
function inPlaceOf(own: Limit, replaced: readonly Limit[]): Limit {
  const [first] = replaced;
  if (first === undefined) return own;
  const how = HOW.filter((key) => own[key] === undefined).flatMap((key) => {
    const value = replaced.find((one) => one[key] !== undefined)?.[key];
    return value === undefined ? [] : [[key, value] as const];
  });
  const same = FOR.filter((key) => replaced.every((one) => JSON.stringify(one[key]) === JSON.stringify(first[key])));
  const scope = same.flatMap((key) => (first[key] === undefined ? [] : [[key, first[key]] as const]));
  return { ...own, ...Object.fromEntries([...how, ...scope]) };
}

/** The limits with one more that takes its place among them. */
function withLimit(limits: readonly Limit[], own: Limit): readonly Limit[] {
  const kept: Limit[] = [];
  const replaced: Limit[] = [];
  for (const limit of limits) {
    if (limit.code !== own.code || (own.force === 'recommends' && limit.force !== 'recommends')) {
      kept.push(limit);
      continue;
    }
    const { hit: ofThem, rest } = split(limit, own.of ?? []);
    if (rest !== null) kept.push(rest);
    if (ofThem === null) continue;
    const { hit, rest: otherDays } = splitByDays(ofThem, own);
    kept.push(...otherDays);
    if (hit === null) continue;
    replaced.push(hit);
    const left = leftOf(hit, own.allowed);
    if (left !== null) kept.push(left);
  }
  return [...kept, inPlaceOf(own, replaced)];
}

/** The limits without what is dropped. */
const without = (limits: readonly Limit[], drop: Written): readonly Limit[] =>
  limits.flatMap((limit) => (limit.code === drop.code ? (split(limit, drop.of).rest ?? []) : [limit]));

const SEVERITIES = ['error', 'warning', 'information'] as const;

/** Of limits on one quantity the first that is broken is told: the strictest consequence goes first. */
const strictestFirst = (limits: readonly Limit[]): readonly Limit[] =>
  [...limits].sort((a, b) => SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity));

/** Puts one club's book together, and says what is wrong with its lines. */
class Binding {
  readonly findings: Finding[] = [];

  constructor(
    private readonly own: OwnBook,
    private readonly base: Book | null,
    /** What the base hands down. */
    private readonly inherited: readonly Limit[],
    private readonly all: Quantities,
  ) {}

  private tell(code: Code, place: Place, params: Params, notes: readonly FindingNote[] = []): void {
    const { severity } = CODES[code];
    const subject = this.own.name.value;
    this.findings.push({ code, severity, subject, at: { kind: 'place', place }, params, notes, fixes: [] });
  }

  /** The quantity and the groups of a line; null: there is no such quantity, which is told. */
  private written(
    { code, of }: OwnDrop,
    fit: (code: string, all: Quantities) => boolean,
    byWords = false,
  ): Written | null {
    const { value } = code;
    if (!isRuleCode(value) || !this.all.has(value) || (byWords && !fit(value, this.all))) {
      const fitting = Object.keys(RULE_CODES).filter((one) => fit(one, this.all));
      const nearest = nearestWord(value, fitting);
      const why = this.all.has(value)
        ? 'goes by a figure or a table, not by words'
        : Object.hasOwn(CODES, value)
          ? 'is no matter of a rulebook'
          : 'is no quantity that the tool measures';
      this.tell('rulebook.code', code.place, { code: value, why, hint: meant(nearest), nearest });
      return null;
    }
    const groups = groupsOf(value, this.all);
    const unknown = of.filter((group) => !groups.includes(group.value));
    for (const { value: name, place } of unknown) {
      const nearest = nearestWord(name, groups);
      const list = groups.length === 0 ? `: it is one for all things` : `: there are ${groups.join(', ')}`;
      const hint = nearest === null ? list : meant(nearest);
      const params = { code: value, name, hint, nearest: nearest === null ? null : `"${nearest}"` };
      this.tell('rulebook.group', place, params);
    }
    return unknown.length > 0 ? null : { code: value, of: of.map((group) => group.value) };
  }

  /** True where a line of the same kind has said the same before, which is told. */
  private again(before: readonly (Written & { readonly at: Place })[], now: Written, fact: string, at: Place): boolean {
    const first = before.find((one) => covers(one, now));
    if (first === undefined) return false;
    const note = { at: { kind: 'place' as const, place: first.at }, message: 'the first one' };
    this.tell('fact.twice', at, { name: `${fact} ${now.code}` }, [note]);
    return true;
  }

  private figure(bound: At<Quantity> | null, unit: MeasureUnit): number | null | 'wrong' {
    if (bound === null) return null;
    if (unit === '1' && bound.value.share) {
      const hint = ': write the number alone';
      this.tell('unit.dimension', bound.place, { found: 'a share in %', wanted: 'a plain number', hint });
      return 'wrong';
    }
    const value = as(bound.value, DIMENSIONS[unit]);
    if (!failed(value)) return unit === 'deg' ? degrees(value) : value;
    this.tell(value.code, bound.place, value.params);
    return 'wrong';
  }

  /** The range of a line; null: it is none, which is told. */
  private range(line: OwnLimit, code: RuleCode): Allowed | null {
    const { unit, noRange: why } = this.all.get(code) ?? { unit: null, noRange: null };
    if (unit === null || !line.read) return null;
    if (why !== null) {
      const words = this.all.get(code)?.words ?? [];
      const say =
        words.length === 0 ? '' : `accept ${code} ${words.map((word) => `"${word}"`).join(', ')} says which it takes; `;
      const mend = `${say}drop ${code} leaves it to the scrutineer`;
      this.tell('rulebook.no-range', line.code.place, { code, why, mend });
      return null;
    }
    if (line.from === null && line.to === null) {
      this.tell('fact.value', line.code.place, {
        fact: 'limit',
        wanted: 'from A, to B, or from A to B behind the code',
      });
      return null;
    }
    const [from, to] = [this.figure(line.from, unit), this.figure(line.to, unit)];
    if (from === 'wrong' || to === 'wrong') return null;
    if (from !== null && to !== null && line.to !== null && from > to) {
      this.tell('rulebook.range', line.to.place, { code, from: { value: from, unit }, to: { value: to, unit } });
      return null;
    }
    return { from, to, unit };
  }

  /** The words of an `accept` line; null: there is one that is none, which is told. */
  private accepted(words: readonly At<string>[], code: RuleCode): readonly string[] | null {
    const known = wordsOf(code, this.all);
    const unknown = words.filter(({ value }) => !known.includes(value));
    for (const { value: name, place } of unknown) {
      const nearest = nearestWord(name, known);
      const hint = nearest === null ? `: there are ${known.join(', ')}` : meant(nearest);
      this.tell('rulebook.word', place, { code, name, hint, nearest: nearest === null ? null : `"${nearest}"` });
    }
    return unknown.length > 0 ? null : words.map(({ value }) => value);
  }

  /** What a line asks for: words, or a range; null: it is neither, which is told. */
  private asked(line: OwnLimit, code: RuleCode): Pick<Limit, 'allowed' | 'accepts'> | null {
    if (line.accepts === null) {
      const allowed = this.range(line, code);
      return allowed === null ? null : { allowed };
    }
    const accepts = line.read ? this.accepted(line.accepts, code) : null;
    return accepts === null ? null : { allowed: { from: null, to: null, unit: '1' }, accepts };
  }

  private limits(): readonly Limit[] {
    const { own } = this;
    const told: (Written & { readonly at: Place; readonly force: string })[] = [];
    return own.limits.flatMap((line): Limit[] => {
      const at = line.code.place;
      const words = line.accepts !== null;
      const named = this.written(line, words ? canBeAccepted : canBeLimited, words);
      const asked = named === null ? null : this.asked(line, named.code);
      if (named === null || asked === null) return [];
      const days: Days = {
        ...(line.since === null ? {} : { since: line.since }),
        ...(line.before === null ? {} : { before: line.before }),
      };
      const written: Written = { ...named, ...days };
      const force = line.recommended ? 'recommends' : asked.allowed.to === null ? 'wants' : 'allows';
      const alike = told.filter((one) => (one.force === 'recommends') === line.recommended);
      if (this.again(alike, written, words ? 'accept' : 'limit', at)) return [];
      told.push({ ...written, at, force });
      return [
        {
          code: written.code,
          ...asked,
          ...(written.of.length === 0 ? {} : { of: written.of }),
          ...days,
          force,
          severity: line.recommended ? 'information' : 'error',
          citation: line.cite ?? own.cite ?? `rulebook ${own.name.value} in ${own.name.place.file}`,
          edition: '',
          source: 'written here',
          why: '',
          standsBack: false,
          rows: [],
          writtenAt: at,
        },
      ];
    });
  }

  private drops(inherited: readonly Limit[]): readonly Written[] {
    const { base } = this;
    const told: (Written & { readonly at: Place })[] = [];
    return this.own.drops.flatMap((line): Written[] => {
      const at = line.code.place;
      const written = this.written(line, canBeDropped);
      if (written === null || this.again(told, written, 'drop', at)) return [];
      told.push({ ...written, at });
      const found = inherited.some((limit) => limit.code === written.code && split(limit, written.of).hit !== null);
      if (!found) {
        const who = base === null ? 'this book is based on no other' : `${base.name} does not limit it`;
        const of = written.of.length === 0 ? '' : ` of ${written.of.join(', ')}`;
        this.tell('rulebook.nothing-to-drop', at, { code: written.code, of, who });
      }
      return [written];
    });
  }

  book(): Book {
    const { own, base, inherited } = this;
    const dropped = this.drops(inherited).reduce(without, inherited);
    // What is said of a group counts before what is said of all, and a must before a recommendation.
    const rank = ({ of, force }: Limit): number => (of === undefined ? 0 : 2) + (force === 'recommends' ? 1 : 0);
    const limits = [...this.limits()].sort((a, b) => rank(a) - rank(b)).reduce(withLimit, dropped);
    return {
      name: own.name.value,
      title: own.cite ?? "a club's own book",
      asksCage: base?.asksCage ?? false,
      ...(base?.certified === undefined ? {} : { certified: base.certified }),
      texts: base?.texts ?? [],
      limits: limits === inherited ? inherited : strictestFirst(limits),
      base: base?.name ?? null,
    };
  }
}

/** What a base hands down to books that are based on it. */
export const handedDown = ({ name, limits }: Book): readonly Limit[] =>
  strictestFirst(limits.map((limit) => ({ ...limit, inherited: limit.inherited ?? name })));

/**
 * A club's book on its base, with what is to be said of its lines.
 * @param inherited what the base hands down
 */
export function bind(
  own: OwnBook,
  base: Book | null,
  inherited: readonly Limit[],
  all: Quantities,
): { readonly book: Book; readonly findings: readonly Finding[] } {
  const binding = new Binding(own, base, inherited, all);
  const book = binding.book();
  return { book, findings: binding.findings };
}
