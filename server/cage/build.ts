/** Trees to cage: the judged file and all that it uses, as plain data. Nothing that is written makes it throw. */
import { StatementReader } from '../../grammar/read';
import type { FileTree } from '../../grammar/tree';
import type { LengthUnit } from '../../grammar/units';
import { LENGTH_UNITS, MASS } from '../../grammar/units';
import { adjustmentsFrom } from './adjust';
import { Book } from './book';
import type { Cage, Die, LetValue, Material, Origin, Plane, Section, Vehicle, Waiver } from './cage';
import { tellBendCorners } from './corners';
import { FactReader } from './facts';
import type { Census, Source, Written } from './names';
import { isDefinition, originOf, takeCensus } from './names';
import { Page } from './page';
import { Reporter } from './reporter';
import { Resolver } from './resolve';
import { Solver } from './solve';
import { thingsOf } from './unfold';
import type { UseTarget } from './uses';
import { reach } from './uses';
import { tellBook, waiverOf } from './waivers';
import { ranked } from './ranked';

export interface CageSources {
  /** Key of the judged file. */
  readonly root: string;
  readonly trees: ReadonlyMap<string, FileTree>;
  /** For a file, then the path as written: what the path leads to. */
  readonly uses: ReadonlyMap<string, ReadonlyMap<string, UseTarget>>;
  /** Names of the rulebooks that there are. */
  readonly books: readonly string[];
  /** Keeps what it read of statements from one building to the next. */
  readonly reader?: StatementReader;
}

/** The book that judges where no other does. */
const DEFAULT_BOOK = 'shop';

/** The cage of a judged file. */
export function buildCage(sources: CageSources): Cage {
  const reporter = new Reporter();
  const reader = sources.reader ?? new StatementReader();
  const { files, sees } = reach(sources.root, sources.trees, sources.uses, reporter);
  const parts: Source[] = files.flatMap((file) => {
    const tree = sources.trees.get(file);
    return tree === undefined ? [] : [{ tree, units: unitsOf(tree, reader), sees: sees.get(file) ?? new Set([file]) }];
  });
  const census = takeCensus(parts, reader);
  const resolver = new Resolver(census, reporter);
  const facts = new FactReader(census, sources.root, resolver, reporter);
  const solver = new Solver(facts, reporter, adjustmentsFrom(census, facts));
  const book = new Book(facts, solver, reporter);
  for (const definition of census.definitions) solver.solve(definition);

  const pageOf = (written: Written): Page => {
    solver.prepare(facts.needs(written), 'real');
    return new Page(facts, solver, reporter, written, isDefinition(written) ? written.name : '', false);
  };
  const things = thingsOf(census, facts, solver, book, reporter);
  const judged = census.written.filter(({ scope }) => scope.file === sources.root);
  const head = readHead(judged, pageOf, sources.books);
  const shop = shopOf(census, solver, book, pageOf);
  tellBendCorners(things, reporter);
  resolver.tellTwice();
  resolver.tellUnknown();
  solver.tellCircles();
  // Only an editor asks where names stand, and not at every key.
  let uses: Cage['uses'] | null = null;
  return {
    file: sources.root,
    ...head,
    units: parts[0]?.units ?? 'mm',
    things,
    ...shop,
    findings: reporter.findings(),
    get uses() {
      return (uses ??= resolver.uses());
    },
  };
}

/** `units` of a file. */
export function unitsOf(tree: FileTree, reader: StatementReader): LengthUnit {
  for (const { tree: statement } of tree.statements) {
    if (statement.entry.line.word.text !== 'units') continue;
    const word = reader.read(statement).head?.captures[0]?.word;
    const unit = LENGTH_UNITS.find((one) => one === word);
    if (unit !== undefined) return unit;
  }
  return 'mm';
}

type Head = Pick<Cage, 'title' | 'isCar' | 'rules' | 'rulesOrigin' | 'vehicle' | 'waivers'>;

/** What counts only in the judged file. */
function readHead(judged: readonly Written[], pageOf: (written: Written) => Page, books: readonly string[]): Head {
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
    rulesOrigin: rules === null ? null : originOf(rules),
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
    origin: originOf(written),
  };
}

type Shop = Pick<Cage, 'planes' | 'materials' | 'sections' | 'dies' | 'lets'>;

function shopOf(census: Census, solver: Solver, book: Book, pageOf: (written: Written) => Page): Shop {
  const planes = new Map<string, Plane>();
  const materials = new Map<string, { value: Material; origin: Origin }>();
  const sections = new Map<string, { value: Section | null; origin: Origin }>();
  const dies = new Map<string, { value: Die | null; origin: Origin }>();
  const lets = new Map<string, { value: LetValue | null; origin: Origin }>();
  for (const definition of census.definitions) {
    const { name, space, repeated } = definition;
    const origin = originOf(definition);
    if (space === 'material' || space === 'section') pageOf(definition);
    if (space === 'material') {
      const value = book.material(definition);
      if (!repeated) materials.set(name, { value, origin });
    } else if (space === 'section') {
      const value = book.section(definition);
      if (!repeated) sections.set(name, { value, origin });
    } else if (repeated) continue;
    else if (space === 'die') dies.set(name, { value: solver.dieOf(definition), origin });
    else if (space === 'let') lets.set(name, { value: solver.letFigure(definition), origin });
    else if (space === 'plane') {
      const plane = solver.planeOf(definition, 'real');
      if (plane !== null) planes.set(name, { ...plane, name, origin });
    }
  }
  return { planes, materials, sections, dies, lets };
}
