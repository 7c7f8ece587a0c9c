/** The books that the tool knows, by name. */
import { FIA_253 } from './books/fia-253';
import { HARNESS_MAKERS } from './books/harness-makers';
import { NASA_CCR } from './books/nasa-ccr';
import { NHRA } from './books/nhra';
import { SCCA_GCR } from './books/scca-gcr';
import { SCCA_SOLO } from './books/scca-solo';
import { SHOP } from './books/shop';
import type { Book } from './rule';

export const BOOKS: readonly Book[] = [FIA_253, SCCA_GCR, SCCA_SOLO, NASA_CCR, NHRA, HARNESS_MAKERS, SHOP];

/** The book of that name; null: there is none. */
export const bookNamed = (name: string): Book | null => BOOKS.find((book) => book.name === name) ?? null;
