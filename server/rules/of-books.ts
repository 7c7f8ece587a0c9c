/** What a chosen book has to say of itself: that a roll bar is no full cage of it, and which of its texts counts. */
import { CODES } from '../../grammar/codes';
import type { Code } from '../../grammar/codes';
import type { Anchor, Finding, Params } from '../../grammar/finding';
import type { Car } from './car';
import type { Book, Text } from './rule';

/** The text of a book that counts for this car; null: the book has one text, or the day is not known. */
export function textFor(book: Book, homologated: string | null): Text | null {
  if (homologated === null) return null;
  return book.texts.find(({ before }) => before === null || homologated < before) ?? null;
}

const tell = (code: Code, subject: string, at: Anchor, params: Params): Finding => ({
  code,
  severity: CODES[code].severity,
  subject,
  at,
  params,
  notes: [],
  fixes: [],
});

export function ofBooks(car: Car, books: readonly Book[]): readonly Finding[] {
  const chief = car.chief();
  if (chief === null) return [];
  const at: Anchor = { kind: 'thing', thing: chief.name };
  return books.flatMap((book) => {
    const findings: Finding[] = [];
    if (book.asksCage && car.kind() === 'bar')
      findings.push(tell('rule.roll-bar', chief.name, at, { tube: chief.name, book: book.name }));
    if (car.certified() && book.certified !== undefined) {
      // What the book says of its texts is said of cages that are built by them.
      findings.push(tell('rule.edition', chief.name, at, { book: book.name, text: book.certified }));
      return findings;
    }
    const text = textFor(book, car.day());
    if (text !== null && text.note !== '')
      findings.push(tell('rule.edition', chief.name, at, { book: book.name, text: text.note }));
    return findings;
  });
}
