/** Hover on a rulebook: what it asks, and where each limit is written; and the limits that judge a thing. */
import type { Code } from '../../grammar/codes';
import type { LengthUnit } from '../../grammar/units';
import type { Cage } from '../cage/cage';
import { bookNamed } from '../rules/books';
import { standsBack } from '../rules/assess';
import type { Book, Limit } from '../rules/rule';
import { code, fixed, inUnit, list, plain } from './figures';

const bound = (value: number, unit: Limit['allowed']['unit'], length: LengthUnit): string =>
  unit === 'mm' ? `${inUnit(value, length)} ${length}` : `${fixed(value, 0)}°`;

const limitText = (limit: Limit, length: LengthUnit): string => {
  const { from, to, unit } = limit.allowed;
  const range =
    from !== null && to !== null
      ? `${bound(from, unit, length)} to ${bound(to, unit, length)}`
      : to !== null
        ? `at most ${bound(to, unit, length)}`
        : from !== null
          ? `at least ${bound(from, unit, length)}`
          : null;
  return range === null ? '' : `${limit.force} ${range}`;
};

/** What the chosen books say about a quantity. */
export const limitsOn = (cage: Cage, quantity: Code, length: LengthUnit): string => {
  const books = cage.rules.map(bookNamed).filter((book): book is Book => book !== null);
  return books
    .map((book) => {
      const asked = book.limits
        .filter((limit) => limit.code === quantity && !standsBack(limit, book, books))
        .map((limit) => limitText(limit, length))
        .filter((text) => text !== '');
      return asked.length === 0 ? '' : `${book.name} ${asked.join(', ')}`;
    })
    .filter((text) => text !== '')
    .join('; ');
};

/** Every limit of a book, with its edition and how well it is known. */
export const hoverBook = (book: Book, unit: LengthUnit): string => {
  const rows = book.limits.map((limit) => [
    code(limit.code),
    limitText(limit, unit) || `${limit.force} what the part itself needs`,
    plain(limit.edition === '' ? limit.citation : `${limit.citation}, ${limit.edition} edition`),
    limit.source,
  ]);
  const caution = 'The rulebook in force and the scrutineer decide; this is a help on the way there.';
  return `**${book.name}**: ${plain(book.title)}\n\n${list(['finding', 'limit', 'written in', 'known from'], rows)}\n\n${caution}`;
};
