/** Trees to cage: the judged file and all that it uses, as plain data. Nothing that is written makes it throw. */
import { unitsOf } from '../../grammar/file-units';
import { StatementReader } from '../../grammar/read';
import type { FileTree } from '../../grammar/tree';
import type { LengthUnit } from '../../grammar/units';
import { adjustmentsFrom } from './adjust';
import { Book } from './book';
import type { Cage, Thing } from './cage';
import { tellBendCorners } from './corners';
import { FactReader } from './facts';
import { HEAD_KINDS, readHead } from './head';
import type { Census, Source, Written } from './names';
import { isDefinition, takeCensus } from './names';
import { Page } from './page';
import { changedScopes, reached, renew } from './renew';
import { Reporter } from './reporter';
import { RulebookReader } from './rulebooks';
import { Resolver } from './resolve';
import { keepThings } from './same';
import { shopOf } from './shop';
import { Solver } from './solve';
import { readStore, STORE_KINDS } from './stock';
import { byName, Unfolder } from './unfold';
import type { Reached, UseTarget } from './uses';
import { reach } from './uses';

export interface CageSources {
  /** Key of the judged file. */
  readonly root: string;
  readonly trees: ReadonlyMap<string, FileTree>;
  /** For a file, then the path as written: what the path leads to. */
  readonly uses: ReadonlyMap<string, ReadonlyMap<string, UseTarget>>;
  /** Names of the rulebooks that the tool brings. */
  readonly books: readonly string[];
}

/** The cage of a judged file. */
export const buildCage = (sources: CageSources): Cage => new CageKeeper().build(sources);

/** Cars of which the last cage is kept. */
const MOST_KEPT = 8;

/** A cage as it was last built, with what it was built from. */
interface Kept {
  readonly census: Census;
  readonly reporter: Reporter;
  readonly resolver: Resolver;
  readonly facts: FactReader;
  readonly solver: Solver;
  readonly book: Book;
  readonly unfolder: Unfolder;
  readonly head: readonly Written[];
  readonly store: readonly Written[];
  /** False where a part of it cannot be renewed alone. */
  readonly renewable: boolean;
  things: ReadonlyMap<string, Thing>;
}

/**
 * Builds cages, and keeps of the last one what the next can use: after an edit only what hangs on the edit is worked
 * out again. What it gives is the same as what {@link buildCage} gives; the things of two cages may be the same objects,
 * and then stand where they stand in the later one.
 */
export class CageKeeper {
  private readonly reader = new StatementReader();
  /** By the key of the judged file; the one that was judged longest ago goes first. */
  private readonly kept = new Map<string, Kept>();
  private worked = 0;

  build(sources: CageSources): Cage {
    const at = reach(sources.root, sources.trees, sources.uses);
    const parts = at.files.flatMap((file): Source[] => {
      const tree = sources.trees.get(file);
      if (tree === undefined) return [];
      return [{ tree, units: unitsOf(tree), sees: at.sees.get(file) ?? new Set([file]) }];
    });
    const kept = this.renewed(sources.root, parts) ?? this.anew(sources.root, parts);
    this.kept.delete(sources.root);
    this.kept.set(sources.root, kept);
    for (const oldest of this.kept.keys()) {
      if (this.kept.size <= MOST_KEPT) break;
      this.kept.delete(oldest);
    }
    return this.finish(sources, kept, at, parts[0]?.units ?? 'mm');
  }

  /** How many statements were worked out since this was last asked. */
  takeRuns(): number {
    const { worked } = this;
    this.worked = 0;
    return worked;
  }

  /** Everything from the beginning. */
  private anew(root: string, parts: readonly Source[]): Kept {
    const reporter = new Reporter();
    const census = takeCensus(parts, this.reader);
    const resolver = new Resolver(census, reporter);
    const facts = new FactReader(census, root, resolver);
    const solver = new Solver(facts, reporter, adjustmentsFrom(census, facts));
    const book = new Book(facts, solver, reporter);
    const unfolder = new Unfolder(census, facts, solver, book, reporter);
    for (const definition of census.definitions) solver.solve(definition);
    for (const definition of census.definitions) book.read(definition);
    unfolder.unfold(census.written);
    const before = this.kept.get(root)?.things;
    if (before !== undefined) for (const written of census.written) keepThings(written, (name) => before.get(name));
    resolver.tellTwice();
    resolver.tellUnknown();
    const circles = solver.tellCircles();
    const twice = census.definitions.some(({ repeated }) => repeated);
    this.worked += census.written.length;
    return {
      census,
      reporter,
      resolver,
      facts,
      solver,
      book,
      unfolder,
      head: census.written.filter(({ kind, scope }) => scope.file === root && HEAD_KINDS.has(kind)),
      store: census.written.filter(({ kind }) => STORE_KINDS.has(kind)),
      renewable: !circles && !twice && !facts.repeats && census.dark.size === 0,
      things: byName(census),
    };
  }

  /** Lets go of the car that was judged by this file. */
  forget(root: string): void {
    this.kept.delete(root);
  }

  /** What was kept, brought up to date; null where it cannot be. */
  private renewed(root: string, parts: readonly Source[]): Kept | null {
    const kept = this.kept.get(root);
    if (kept === undefined || !kept.renewable) return null;
    const { census, reporter, resolver, facts, solver, book, unfolder } = kept;
    const changed = changedScopes(census, parts, this.reader);
    if (changed === null) return null;
    const { rebound, stale } = renew(census, changed, this.reader);
    for (const written of rebound) {
      reporter.forget(written, true, false);
      facts.bind(written);
    }
    resolver.tellUnknown();
    const again = [...reached(stale)];
    for (const written of again) {
      reporter.forget(written, false, true);
      if (!isDefinition(written)) continue;
      written.vertices = [];
      book.forget(written);
    }
    for (const written of again) if (isDefinition(written)) solver.solve(written);
    if (solver.tellCircles()) return null;
    for (const written of again) if (isDefinition(written)) book.read(written);
    unfolder.unfold(again);
    for (const written of again) keepThings(written, (name) => kept.things.get(name));
    this.worked += again.length;
    const things = new Map(kept.things);
    for (const written of again) for (const thing of written.things) things.set(thing.name, thing);
    return { ...kept, things };
  }

  /** What is worked out at every building: the head of the car, what the shop holds, and what is told. */
  private finish(sources: CageSources, kept: Kept, at: Reached, units: LengthUnit): Cage {
    const { census, reporter, facts, solver, book, things, resolver } = kept;
    reporter.begin();
    for (const written of [...kept.head, ...kept.store]) reporter.forget(written, false, true);
    const pageOf = (written: Written): Page => {
      solver.prepare(written.needs, 'real');
      return new Page(facts, solver, reporter, written, isDefinition(written) ? written.name : '', false);
    };
    const ownBooks = new RulebookReader(census.definitions, sources.books, reporter).read(pageOf);
    const head = readHead(kept.head, pageOf, [...sources.books, ...ownBooks.keys()]);
    const store = readStore(kept.store, pageOf);
    tellBendCorners(census.written, things, reporter);
    // Only an editor asks where names stand, and not at every key.
    let uses: Cage['uses'] | null = null;
    return {
      file: sources.root,
      ...head,
      ownBooks,
      units,
      things,
      ...shopOf(census.definitions, solver, book),
      ...store,
      findings: [...at.findings, ...reporter.findings()],
      get uses() {
        return (uses ??= resolver.uses());
      },
    };
  }
}
