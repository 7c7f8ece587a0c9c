/** `waive [BOOK] CODE on NAME [first | last] [up to VALUE] because "reason"`. */
import { CODES } from '../../grammar/codes';
import { meant, nearestWord } from '../../grammar/nearest';
import type { Ref } from '../../grammar/tree';
import { ANGLE, degrees, LENGTH, PLAIN, sameDimension } from '../../grammar/units';
import type { Side, Waiver } from './cage';
import { asFigure, worth } from './evaluate';
import type { Bound } from './facts';
import { isValue } from './facts';
import type { Written } from './names';
import { nameOn, otherSide } from './names';
import type { Page } from './page';
import type { Target } from './resolve';

/** What stands in a waiver until somebody writes the reason: nobody can sign it like that. */
export const REASON_TO_WRITE = 'reason not written yet';

const dotted = (ref: Ref): string => ref.names.map((name) => name.text).join('.');
const written = (bound: Bound | null): string => (bound?.arg.kind === 'ref' ? dotted(bound.arg) : '');

/** A waiver of the judged file; null where its line says too little. */
export function waiverOf(id: string, statement: Written, page: Page, books: readonly string[]): Waiver | null {
  const code = page.bound('', 'code');
  const name = page.bound('', 'name');
  if (code === null || name === null) return null;
  const said = written(code);
  if (!Object.hasOwn(CODES, said)) {
    const nearest = nearestWord(said, Object.keys(CODES));
    page.tell(code.arg.span, 'waive.unknown', { code: said, hint: meant(nearest), nearest });
  }
  const book = page.bound('', 'book');
  if (book !== null) tellBook(written(book), book, page, books);
  const target = page.target(name);
  const end = page.bound('', 'end')?.word ?? null;
  const reason = page.bound('', 'reason')?.arg;
  // A waiver is read by a scrutineer: without a reason it is none.
  if (reason?.kind === 'string' && ['', REASON_TO_WRITE].includes(reason.value.trim()))
    page.tell(reason.span, 'fact.value', { fact: 'because', wanted: 'a reason in words' });
  return {
    id,
    book: book === null ? null : written(book),
    code: said,
    on: target === null ? [] : covered(target),
    written: written(name),
    end: end === 'first' || end === 'last' ? end : null,
    upTo: boundOf(page.bound('', 'bound'), page),
    because: reason?.kind === 'string' ? reason.value : '',
    origin: statement.origin,
  };
}

/** Reports a rulebook that nobody holds. `elsewhere`: a file that has such a book, but is not used by this one. */
export function tellBook(
  name: string,
  bound: Bound,
  page: Page,
  books: readonly string[],
  elsewhere: string | null = null,
): void {
  if (books.includes(name)) return;
  if (elsewhere !== null) {
    const hint = ` in this file: it stands in ${elsewhere}, which this file does not use`;
    page.tell(bound.arg.span, 'rule.unknown-book', { name, hint, nearest: null });
    return;
  }
  const nearest = books.length > MOST_COMPARED ? null : nearestWord(name, books);
  page.tell(bound.arg.span, 'rule.unknown-book', { name, hint: meant(nearest), nearest });
}

/** Nobody is helped by waiting for what was meant among more books than these. */
const MOST_COMPARED = 200;

/** Both twins where the bare name of something that is mirrored is meant. */
function covered({ definition, side, piece }: Target): readonly string[] {
  const sides: readonly (Side | null)[] =
    definition.side === null ? [null] : side !== null ? [side] : [definition.side, otherSide(definition.side)];
  return sides.map((one) => nameOn(definition, one) + (piece === null ? '' : `.${piece}`));
}

function boundOf(bound: Bound | null, page: Page): Waiver['upTo'] {
  const arg = bound?.arg;
  if (arg === undefined || !isValue(arg)) return null;
  const value = worth(arg, page.reading);
  const q = value === null ? null : asFigure(value, arg.span, page.reading);
  if (q === null) return null;
  if (sameDimension(q.dimension, LENGTH)) return { value: q.value, kind: 'length' };
  if (sameDimension(q.dimension, ANGLE)) return { value: degrees(q.value), kind: 'angle' };
  if (sameDimension(q.dimension, PLAIN)) return { value: q.value, kind: 'plain' };
  const params = { found: 'such a figure', wanted: 'a length, an angle or a plain number', hint: '' };
  return page.tell(arg.span, 'unit.dimension', params);
}
