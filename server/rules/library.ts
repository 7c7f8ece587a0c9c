/** The books by which a car can be judged: those of the tool, and those that are written in its files. */
import type { Finding } from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import { BOOKS, bookNamed } from './books';
import { bind, handedDown, quantities } from './own-book';
import type { Book, Limit } from './rule';

export interface Library {
  /** The tool's own first. */
  readonly books: readonly Book[];
  readonly byName: ReadonlyMap<string, Book>;
  /** What is wrong in the books that are written in the car's files. */
  readonly findings: readonly Finding[];
}

const named = (books: readonly Book[]): ReadonlyMap<string, Book> => new Map(books.map((book) => [book.name, book]));

/** The books of the tool alone. */
export const BUILT_IN: Library = { books: BOOKS, byName: named(BOOKS), findings: [] };

/** All books of a car. */
export function libraryOf({ ownBooks }: Pick<Cage, 'ownBooks'>): Library {
  if (ownBooks.size === 0) return BUILT_IN;
  const all = quantities();
  const made = new Map<string, Book>();
  const findings: Finding[] = [];
  // Many books may be based on one.
  const down = new Map<Book, readonly Limit[]>();
  const from = (base: Book): readonly Limit[] => {
    const known = down.get(base) ?? handedDown(base);
    down.set(base, known);
    return known;
  };
  for (const name of ownBooks.keys()) {
    // Bases first. A chain of them ends: circles were cut where they were told.
    const chain: string[] = [];
    for (let at: string | null = name; at !== null && ownBooks.has(at) && !made.has(at);) {
      chain.push(at);
      at = ownBooks.get(at)?.base?.value ?? null;
    }
    for (const one of chain.reverse()) {
      const own = ownBooks.get(one);
      if (own === undefined) continue;
      const base = own.base === null ? null : (made.get(own.base.value) ?? bookNamed(own.base.value));
      const bound = bind(own, base, base === null ? [] : from(base), all);
      made.set(one, bound.book);
      findings.push(...bound.findings);
    }
  }
  const books = [...BOOKS, ...made.values()];
  return { books, byName: named(books), findings };
}

/** The book of that name; null: there is none. */
export const findBook = (library: Library, name: string): Book | null => library.byName.get(name) ?? null;

/** The books of the car's `rules` line. An unknown one is passed over here: it has a finding of its own. */
export const booksOf = (cage: Pick<Cage, 'ownBooks' | 'rules'>, library = libraryOf(cage)): readonly Book[] =>
  [...new Set(cage.rules)].flatMap((name) => findBook(library, name) ?? []);
