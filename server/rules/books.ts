/** The books that the tool knows, by name. */
import { FIA_253 } from './books/fia-253';
import { SHOP } from './books/shop';
import type { Book } from './rule';

export const BOOKS: readonly Book[] = [FIA_253, SHOP];

/** The book of that name; null: there is none. */
export const bookNamed = (name: string): Book | null => BOOKS.find((book) => book.name === name) ?? null;
