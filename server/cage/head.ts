/** What counts only in the judged file: `cage`, `rules`, `vehicle` and the waivers. */
import { MASS } from '../../grammar/units';
import type { Cage, Vehicle, Waiver } from './cage';
import type { Written } from './names';
import type { Page } from './page';
import { ranked } from './ranked';
import { tellBook, waiverOf } from './waivers';

/** The book that judges where no other does. */
const DEFAULT_BOOK = 'shop';

/** Kinds that are read here. */
export const HEAD_KINDS: ReadonlySet<string> = new Set(['cage', 'rules', 'vehicle', 'waive']);

type Head = Pick<Cage, 'title' | 'isCar' | 'rules' | 'rulesOrigin' | 'vehicle' | 'waivers'>;

/** Reads the head of a car. `judged`: the statements of those kinds in the judged file. */
export function readHead(
  judged: readonly Written[],
  pageOf: (written: Written) => Page,
  books: readonly string[],
): Head {
  const first = (kind: string): Written | null =>
    judged.find((written) => written.kind === kind && !written.inMirror) ?? null;
  const cage = first('cage');
  const title = cage === null ? null : (pageOf(cage).bound('', 'title')?.arg ?? null);
  const rules = first('rules');
  const named = rules === null ? [] : booksOf(pageOf(rules), books);
  const vehicle = first('vehicle');
  const waivers = ranked(
    judged.filter(({ kind }) => kind === 'waive'),
    'waive',
  ).flatMap(({ id, written }): Waiver[] => {
    const waiver = waiverOf(id, written, pageOf(written), books);
    return waiver === null ? [] : [waiver];
  });
  return {
    title: title?.kind === 'string' ? title.value : null,
    isCar: cage !== null,
    rules: named.length === 0 ? [DEFAULT_BOOK] : named,
    rulesOrigin: rules === null ? null : rules.origin,
    vehicle: vehicle === null ? null : vehicleOf(vehicle, pageOf(vehicle)),
    waivers,
  };
}

function booksOf(page: Page, books: readonly string[]): readonly string[] {
  const named: string[] = [];
  for (const bound of page.all('', 'books')) {
    const { arg } = bound;
    if (arg.kind !== 'ref') continue;
    const name = arg.names.map(({ text }) => text).join('.');
    tellBook(name, bound, page, books);
    if (books.includes(name) && !named.includes(name)) named.push(name);
  }
  return named;
}

function vehicleOf(written: Written, page: Page): Vehicle {
  const basis = page.word('mass', 'basis');
  return {
    mass: page.figure('mass', 'mass', MASS),
    withDriver: basis === null ? null : basis === 'with',
    body: page.word('body', 'body'),
    homologated: dayOf(page),
    origin: written.origin,
  };
}

/** A day as `2006-04-01`, or a year; null where none is written, or none that there is. */
function dayOf(page: Page): string | null {
  const bound = page.bound('homologated', 'day');
  if (bound?.arg.kind !== 'string') return null;
  const [, year, month, day] = /^(\d{4})(?:-(\d\d)-(\d\d))?$/.exec(bound.arg.value) ?? [];
  const [m, d] = [Number(month ?? '01'), Number(day ?? '01')];
  if (year !== undefined && m >= 1 && m <= 12 && d >= 1 && d <= 31) return `${year}-${month ?? '01'}-${day ?? '01'}`;
  page.tellAt(bound, 'fact.value', { fact: 'homologated', wanted: 'a day as "2006-04-01", or a year as "2006"' });
  return null;
}
