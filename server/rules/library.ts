/** The books by which a car can be judged: those of the tool, and those that are written in its files. */
import type { Finding } from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import { BOOKS, bookNamed } from './books';
import { bind, quantities } from './own-book';
import type { Book } from './rule';

export interface Library {
  /** The tool's own first. */
  readonly books: readonly Book[];
  /** What is wrong in the books that are written in the car's files. */
  readonly findings: readonly Finding[];
}

/** The books of the tool alone. */
export const BUILT_IN: Library = { books: BOOKS, findings: [] };

/** All books of a car. */
export function libraryOf({ ownBooks }: Pick<Cage, 'ownBooks'>): Library {
  if (ownBooks.size === 0) return BUILT_IN;
  const all = quantities();
  const made = new Map<string, Book>();
  const findings: Finding[] = [];
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
      const bound = bind(own, base, all);
      made.set(one, bound.book);
      findings.push(...bound.findings);
    }
  }
  return { books: [...BOOKS, ...made.values()], findings };
}

/** The book of that name; null: there is none. */
export const findBook = (library: Library, name: string): Book | null =>
  library.books.find((book) => book.name === name) ?? null;

/** The books of the car's `rules` line. An unknown one is passed over here: it has a finding of its own. */
export const booksOf = (cage: Pick<Cage, 'ownBooks' | 'rules'>, library = libraryOf(cage)): readonly Book[] =>
  [...new Set(cage.rules)].flatMap((name) => findBook(library, name) ?? []);
