/**
 * `rulebook NAME based on NAME { … }`: books of clubs, as they are written. Names are looked up and figures worked out
 * here; what a limit means for its quantity is known to the rules only.
 */
import type { Place, Span } from '../../grammar/finding';
import type { ReadFact } from '../../grammar/read';
import { allCaptured, captured, type Match } from '../../grammar/shape-check';
import type { Ref } from '../../grammar/tree';
import { readDay, WANTED_DAY } from './days';
import { asFigure, worth } from './evaluate';
import type { Bound } from './facts';
import { isValue } from './facts';
import type { Definition } from './names';
import type { Page } from './page';
import type { Quantity } from './quantity';
import type { Reporter } from './reporter';
import { placeIn } from './reporter';
import { tellBook } from './waivers';

/** A text with the place where it stands. */
export interface At<T> {
  readonly value: T;
  readonly place: Place;
}

/** `drop CODE`, and what `limit CODE` has in common with it. */
export interface OwnDrop {
  readonly code: At<string>;
  /** Only for these groups of things; empty: for all. */
  readonly of: readonly At<string>[];
}

/** `limit CODE from A to B`. A side that is not written is null. */
export interface OwnLimit extends OwnDrop {
  readonly from: At<Quantity> | null;
  readonly to: At<Quantity> | null;
  /** False where a figure is written that cannot be read, which is told: then nobody knows what is meant. */
  readonly read: boolean;
  readonly recommended: boolean;
  readonly cite: string | null;
  /** `accept CODE "…"`: the words that it accepts; null for `limit`. */
  readonly accepts: readonly At<string>[] | null;
  /** For cars homologated on this day or later, and before that one; null: whenever. */
  readonly since: string | null;
  readonly before: string | null;
}

export interface OwnBook {
  /** With the place of the name in the statement's head. */
  readonly name: At<string>;
  /** The book that it is based on: one of the tool's or another of these. Null: none, or none that there is, which is told. */
  readonly base: At<string> | null;
  readonly cite: string | null;
  readonly limits: readonly OwnLimit[];
  readonly drops: readonly OwnDrop[];
}

const dotted = (ref: Ref): string => ref.names.map(({ text }) => text).join('.');

/** Reads the rulebooks of a car's files. */
export class RulebookReader {
  private readonly own: readonly Definition[];
  private readonly byName: ReadonlyMap<string, Definition>;

  /**
   * @param definitions all that the files name
   * @param builtIn names of the books that the tool brings
   */
  constructor(
    definitions: readonly Definition[],
    private readonly builtIn: readonly string[],
    private readonly reporter: Reporter,
  ) {
    this.own = definitions.filter(({ space }) => space === 'book');
    // Of two of one name the first counts.
    this.byName = new Map([...this.own].reverse().map((one) => [one.name, one]));
  }

  /** Every book by its name. Of two of one name the first counts; one with the name of a book of the tool does not. */
  read(pageOf: (definition: Definition) => Page): ReadonlyMap<string, OwnBook> {
    const books = new Map<string, OwnBook>();
    for (const definition of this.own) {
      this.reporter.forget(definition, false, true);
      const page = pageOf(definition);
      const book = this.one(definition, page);
      if (this.builtIn.includes(definition.name)) {
        page.tell(definition.nameSpan, 'rulebook.built-in', { name: definition.name });
      } else if (!definition.repeated) books.set(definition.name, book);
    }
    return this.withoutCircles(books, pageOf);
  }

  private one(definition: Definition, page: Page): OwnBook {
    const { scope, read } = definition;
    const at = <T>(value: T, span: Span): At<T> => ({ value, place: placeIn(scope, span) });
    const lines = (name: string): readonly (ReadFact & { readonly match: Match })[] =>
      read.many.filter((one): one is ReadFact & { match: Match } => one.fact.name === name && one.match !== null);
    const drop = (match: Match): OwnDrop[] => {
      const code = captured(match, 'code')?.arg;
      if (code?.kind !== 'ref') return [];
      const of = allCaptured(match, 'groups').flatMap(({ arg }) =>
        arg.kind === 'string' ? [at(arg.value, arg.span)] : [],
      );
      return [{ code: at(dotted(code), code.span), of }];
    };
    const text = (match: Match | null): string | null => {
      const arg = match === null ? undefined : captured(match, 'text')?.arg;
      return arg?.kind === 'string' && arg.value.trim() !== '' ? arg.value : null;
    };
    const bound = (match: Match, slot: string): At<Quantity> | 'unread' | null => {
      const one = captured(match, slot);
      if (one === null) return null;
      const figure = isValue(one.arg) ? figureOf(one, page) : null;
      return figure === null ? 'unread' : at(figure, one.arg.span);
    };
    const day = (match: Match, slot: string): string | 'unread' | null => {
      const arg = captured(match, slot)?.arg;
      if (arg?.kind !== 'string') return null;
      const read = readDay(arg.value);
      if (read === null) page.tell(arg.span, 'fact.value', { fact: slot, wanted: WANTED_DAY });
      return read ?? 'unread';
    };
    const days = (match: Match): Pick<OwnLimit, 'since' | 'before' | 'read'> => {
      const [since, before] = [day(match, 'since'), day(match, 'before')];
      const late = captured(match, 'before')?.arg;
      const never = since !== null && before !== null && since !== 'unread' && before !== 'unread' && since >= before;
      if (never && late !== undefined)
        page.tell(late.span, 'fact.value', { fact: 'before', wanted: 'a day after that of since' });
      const read = since !== 'unread' && before !== 'unread' && !never;
      return { read, since: read ? since : null, before: read ? before : null };
    };
    const accepted = lines('accept').flatMap(({ match }) =>
      drop(match).map((line): OwnLimit => ({
        ...line,
        ...days(match),
        from: null,
        to: null,
        recommended: match.words.has('recommended'),
        cite: text(match),
        accepts: allCaptured(match, 'words').flatMap(({ arg }) =>
          arg.kind === 'string' ? [at(arg.value, arg.span)] : [],
        ),
      })),
    );
    const limits = lines('limit').flatMap(({ match }) =>
      drop(match).map((line): OwnLimit => {
        const when = days(match);
        const [from, to] = [bound(match, 'from'), bound(match, 'to')];
        return {
          ...line,
          from: from === 'unread' ? null : from,
          to: to === 'unread' ? null : to,
          ...when,
          read: from !== 'unread' && to !== 'unread' && when.read,
          recommended: match.words.has('recommended'),
          cite: text(match),
          accepts: null,
        };
      }),
    );
    return {
      name: at(definition.name, definition.nameSpan),
      base: this.baseOf(definition, page),
      cite: text(page.fact('cite')),
      limits: [...limits, ...accepted],
      drops: lines('drop').flatMap(({ match }) => drop(match)),
    };
  }

  private baseOf({ scope }: Definition, page: Page): At<string> | null {
    const bound = page.bound('', 'base');
    if (bound?.arg.kind !== 'ref') return null;
    const name = dotted(bound.arg);
    const known = this.builtIn.includes(name) || page.target(bound) !== null;
    if (known) return { value: name, place: placeIn(scope, bound.arg.span) };
    const elsewhere = this.byName.get(name)?.scope.file ?? null;
    const seen = elsewhere !== null ? [] : this.own.filter((one) => scope.sees.has(one.scope.file));
    tellBook(name, bound, page, [...this.builtIn, ...seen.map((one) => one.name)], elsewhere);
    return null;
  }

  /** Books that are based on themselves, by however many steps: told once, and based on nothing. */
  private withoutCircles(
    books: ReadonlyMap<string, OwnBook>,
    pageOf: (definition: Definition) => Page,
  ): ReadonlyMap<string, OwnBook> {
    const done = new Set<string>();
    const round = new Set<string>();
    for (const name of [...books.keys()].sort()) {
      const way = new Map<string, number>();
      for (let at: string | null = name; at !== null && !done.has(at); at = books.get(at)?.base?.value ?? null) {
        const before = way.get(at);
        if (before !== undefined) {
          const links = [...way.keys()].slice(before);
          this.tellCircle(links, pageOf);
          for (const link of links) round.add(link);
          break;
        }
        way.set(at, way.size);
      }
      for (const link of way.keys()) done.add(link);
    }
    if (round.size === 0) return books;
    return new Map([...books].map(([name, book]) => [name, round.has(name) ? { ...book, base: null } : book]));
  }

  private tellCircle(links: readonly string[], pageOf: (definition: Definition) => Page): void {
    const first = [...links].sort()[0] ?? '';
    const from = links.indexOf(first);
    const way = [...links.slice(from), ...links.slice(0, from), first];
    const definition = this.byName.get(first);
    if (definition === undefined) return;
    const page = pageOf(definition);
    const shown = way.length <= MOST_LINKS ? way : [...way.slice(0, MOST_LINKS - 1), '…', first];
    page.tellAt(page.bound('', 'base'), 'name.cycle', { links: shown.join(' -> ') });
  }
}

/** A sentence holds no more links than this. */
const MOST_LINKS = 12;

/** What a figure is worth, with whatever dimension it has; null where it cannot be told, which is said. */
function figureOf({ arg }: Bound, page: Page): Quantity | null {
  if (!isValue(arg)) return null;
  const value = worth(arg, page.reading);
  return value === null ? null : asFigure(value, arg.span, page.reading);
}
