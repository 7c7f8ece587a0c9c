/** Limits of books in words: what each asks, for which things and cars, and where it is written. */
import type { Allowed } from '../../grammar/finding';
import { sayAllowed } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import type { Library } from './library';
import { findBook } from './library';
import type { Book, Limit } from './rule';
import { tableWords } from './sizes';

/** A range as words: `0 to 45°`, `at most 20°`, `what the thing itself asks for`. */
export const allowedWords = (allowed: Allowed, units: LengthUnit = 'mm'): string =>
  allowed.from === null && allowed.to === null ? 'what the thing itself asks for' : sayAllowed(allowed, units);

/** What a limit asks for: a range, a table of sizes, or words. */
export function limitWords(limit: Limit, units: LengthUnit = 'mm'): string {
  if (limit.sizes !== undefined) return tableWords(limit.sizes);
  if (limit.accepts !== undefined) return limit.accepts.join(', ');
  const words = allowedWords(limit.allowed, units);
  return limit.strict === true ? words.replace(/^at most/, 'less than').replace(/^at least/, 'more than') : words;
}

/** For which things and which cars a limit holds: ` for hoop foot; full cages`. Empty: for all. */
export function scopeWords(limit: Limit): string {
  const scopes = [
    limit.of === undefined ? '' : limit.of.join(', '),
    limit.notOf === undefined ? '' : `all but ${limit.notOf.join(', ')}`,
    limit.structure === undefined ? '' : limit.structure === 'cage' ? 'full cages' : 'bare roll bars',
    limit.cars === undefined ? '' : `${limit.cars.map((kind) => kind.replace('-', ' ')).join(' and ')} cars`,
    limit.ifBolted === true ? 'bolted plates' : '',
    limit.noFrame === true ? 'cars without a frame' : '',
    limit.selfBuilt === true ? 'cages without a certificate' : '',
    limit.since === undefined ? '' : `homologated from ${limit.since} on`,
    limit.before === undefined ? '' : `homologated before ${limit.before}`,
  ].filter((scope) => scope !== '');
  return scopes.length === 0 ? '' : ` for ${scopes.join('; ')}`;
}

/** `wants at least 120 cm² for hoop foot`. */
export const askWords = (limit: Limit, units: LengthUnit = 'mm'): string =>
  `${limit.force} ${limitWords(limit, units)}${scopeWords(limit)}`;

/** Where it is written, in which text, and how well it is known. */
export function sourceWords(limit: Limit): string {
  if (limit.source === 'common practice') return limit.citation;
  const edition = limit.edition === '' ? '' : `, ${limit.edition} text`;
  return `${limit.citation}${edition}, ${limit.source}`;
}

/** What a book says of a quantity. */
export const onCode = (book: Book, code: string): readonly Limit[] =>
  book.limits.filter((limit) => limit.code === code);

const alike = (a: Limit, b: Limit): boolean =>
  askWords(a) === askWords(b) && a.citation === b.citation && a.severity === b.severity;

/** How a book differs from its base in a quantity: not at all, by what it says, or by saying nothing. */
export function differenceOn(library: Library, book: Book, code: string): 'same' | 'changed' | 'dropped' | null {
  const base = book.base === undefined || book.base === null ? null : findBook(library, book.base);
  const [here, there] = [onCode(book, code), base === null ? [] : onCode(base, code)];
  if (here.length === 0) return there.length === 0 ? null : 'dropped';
  const same = here.length === there.length && here.every((limit) => there.some((other) => alike(limit, other)));
  return same ? 'same' : 'changed';
}
