/** Hover on a rulebook: what it asks, and where each limit is written; and the limits that judge a thing. */
import type { Code } from '../../grammar/codes';
import type { LengthUnit } from '../../grammar/units';
import type { Cage } from '../cage/cage';
import { standsBack } from '../rules/assess';
import { booksOf, findBook, type Library } from '../rules/library';
import { askWords, differenceOn, onCode, scopeWords } from '../rules/limit-words';
import type { Book, Limit } from '../rules/rule';
import { code, list, plain } from './figures';

/** A limit whose figure is the thing's own says nothing before it is seen with the thing. */
const says = ({ sizes, accepts, allowed }: Limit): boolean =>
  sizes !== undefined || accepts !== undefined || allowed.from !== null || allowed.to !== null;

/** What the chosen books say about a quantity. */
export const limitsOn = (cage: Cage, quantity: Code, length: LengthUnit): string => {
  const books = booksOf(cage);
  return books
    .map((book) => {
      const asked = onCode(book, quantity)
        .filter((limit) => says(limit) && !standsBack(limit, book, books))
        .map((limit) => askWords(limit, length));
      return asked.length === 0 ? '' : `${book.name} ${asked.join(', ')}`;
    })
    .filter((text) => text !== '')
    .join('; ');
};

const CAUTION = 'The rulebook in force and the scrutineer decide; this is a help on the way there.';

/** What a limit is in a book that changes another: what that one says instead, or that it is the same there. */
const besides = (library: Library, book: Book, limit: Limit, unit: LengthUnit): string => {
  const base = findBook(library, book.base ?? '');
  if (base === null) return '';
  if (differenceOn(library, book, limit.code) === 'same' || limit.inherited !== undefined) return `as ${base.name}`;
  const there = onCode(base, limit.code);
  const about = there.filter(
    ({ of }) => of === undefined || limit.of === undefined || of.some((g) => limit.of?.includes(g)),
  );
  return about.length === 0
    ? `**here only**`
    : `**here**, ${base.name} ${plain(about.map((other) => askWords(other, unit)).join(', '))}`;
};

/** Every limit of a book, with its edition and how well it is known; of one that is based on another also how it differs. */
export const hoverBook = (library: Library, book: Book, unit: LengthUnit): string => {
  const base = findBook(library, book.base ?? '');
  const rows = book.limits.map((limit) => [
    code(limit.code),
    plain(says(limit) ? askWords(limit, unit) : `${limit.force} what the part itself needs${scopeWords(limit)}`),
    ...(base === null ? [] : [besides(library, book, limit, unit)]),
    plain(limit.edition === '' ? limit.citation : `${limit.citation}, ${limit.edition} edition`),
    limit.source,
  ]);
  const dropped = [...new Set((base?.limits ?? []).map((limit) => limit.code))].filter(
    (one) => onCode(book, one).length === 0,
  );
  // What differs is what somebody looks for.
  const ordered = base === null ? rows : [...rows].sort((a, b) => Number(isAs(a)) - Number(isAs(b)));
  const head = ['finding', 'limit', ...(base === null ? [] : ['differs']), 'written in', 'known from'];
  const table = rows.length === 0 ? 'It limits nothing.' : list(head, ordered);
  const left =
    dropped.length === 0 ? '' : `\n\nLeft out of ${plain(base?.name ?? '')}: ${dropped.map(code).join(', ')}.`;
  const on = base === null ? '' : ` Based on ${code(base.name)}.`;
  return `**${plain(book.name)}**: ${plain(book.title)}.${on}\n\n${table}${left}\n\n${CAUTION}`;
};

/** What the books of the car say of a quantity, a line each. */
export const booksOn = (library: Library, quantity: string, unit: LengthUnit): string => {
  const lines = library.books.flatMap((book) => {
    const asked = onCode(book, quantity).map((limit) => askWords(limit, unit));
    const difference = differenceOn(library, book, quantity);
    if (difference === 'same') return [`- ${code(book.name)}: as ${code(book.base ?? '')}`];
    if (difference === 'dropped') return [`- ${code(book.name)} does not limit it, ${code(book.base ?? '')} does`];
    return asked.length === 0 ? [] : [`- ${code(book.name)} ${plain(asked.join(', '))}`];
  });
  return lines.join('\n');
};

const isAs = (row: readonly string[]): boolean => (row[2] ?? '').startsWith('as ');
