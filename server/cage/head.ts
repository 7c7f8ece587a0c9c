/** What counts only in the judged file: `cage`, `rules`, `vehicle` and the waivers. */
import { MASS } from '../../grammar/units';
import type { Cage, Vehicle, Waiver, Welding } from './cage';
import { readDay, WANTED_DAY } from './days';
import type { Written } from './names';
import type { Page } from './page';
import { ranked } from './ranked';
import { tellBook, waiverOf } from './waivers';

/** The book that judges where no other does. */
const DEFAULT_BOOK = 'shop';

/** Kinds that are read here. */
export const HEAD_KINDS: ReadonlySet<string> = new Set(['cage', 'rules', 'vehicle', 'welding', 'waive']);

type Head = Pick<Cage, 'title' | 'isCar' | 'rules' | 'rulesOrigin' | 'vehicle' | 'welding' | 'waivers'>;

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
  const welding = first('welding');
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
    welding: welding === null ? null : weldingOf(welding, pageOf(welding)),
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
    driver: page.figure('driver', 'driver', MASS),
    body: page.word('body', 'body'),
    ...datesOf(page),
    cage: page.word('cage', 'route') as Vehicle['cage'],
    identified: page.flag('identified'),
    shell: page.word('shell', 'shell') as Vehicle['shell'],
    frame: page.flag('frame'),
    codriver: page.flag('codriver'),
    kind: page.word('kind', 'kind') as Vehicle['kind'],
    elapsedTime: page.plain('elapsed-time', 'seconds'),
    frontSuspension: page.place('front-suspension', 'at'),
    rearSuspension: page.place('rear-suspension', 'at'),
    finish: page.word('finish', 'finish') as Vehicle['finish'],
    origin: written.origin,
  };
}

function weldingOf(written: Written, page: Page): Welding {
  return {
    process: page.word('process', 'process') as Welding['process'],
    weld: page.word('weld', 'weld') as Welding['weld'],
    ground: page.flag('ground'),
    origin: written.origin,
  };
}

/** A passport counts for a car that was never homologated; one from before its homologation contradicts that, and counts for nothing. */
function datesOf(page: Page): Pick<Vehicle, 'homologated' | 'passport'> {
  const homologated = dayOf(page, 'homologated');
  const passport = dayOf(page, 'passport');
  if (homologated === null || passport === null || passport >= homologated) return { homologated, passport };
  const why = `the passport is of ${passport}, before the homologation of ${homologated}`;
  page.tellAt(page.bound('passport', 'day'), 'vehicle.dates', { why });
  return { homologated, passport: null };
}

/** A day as `2006-04-01`, or a year; null where none is written, or none that there is. */
function dayOf(page: Page, fact: string): string | null {
  const bound = page.bound(fact, 'day');
  if (bound?.arg.kind !== 'string') return null;
  const day = readDay(bound.arg.value);
  if (day !== null) return day;
  page.tellAt(bound, 'fact.value', { fact, wanted: WANTED_DAY });
  return null;
}
