/**
 * From one building of a cage to the next: which statements are the same, which only moved, which say something else.
 * Whatever was worked out of statements that neither changed nor hang on one that did is kept.
 */
import type { StatementReader } from '../../grammar/read';
import type { PlacedStatement, Statement } from '../../grammar/tree';
import type { Census, Scope, Source, Written } from './names';
import { headName, isDefinition, isNaming, mirrorSide } from './names';

/** More changed statements than this are read anew with all the others. */
const MOST_CHANGED = 64;
/** Kinds that change more than themselves when they change. */
const FAR_REACHING: ReadonlySet<string> = new Set(['units', 'use', 'adjust']);
/** Kinds whose ids go by their texts. */
const RANKED: ReadonlySet<string> = new Set(['joint', 'vent', 'hole', 'padding']);

const textOf = (tree: Statement, { start, end }: { readonly start: number; readonly end: number }): string =>
  tree.text.slice(start, end);

/**
 * Brings a census up to date where that is possible: statements that moved get their new place. Gives the scopes of
 * those that changed, with their new trees, or null where the census has to be taken anew; then nothing is changed.
 */
export function changedScopes(
  census: Census,
  sources: readonly Source[],
  reader: StatementReader,
): ReadonlyMap<Scope, PlacedStatement> | null {
  const changed = new Map<Scope, PlacedStatement>();
  if (sources.length !== census.scopes.length) return null;
  for (const [i, { tree, units, sees }] of sources.entries()) {
    const scopes = census.scopes[i] ?? [];
    if (scopes.length !== tree.statements.length) return null;
    for (const [j, scope] of scopes.entries()) {
      const now = tree.statements[j];
      if (now === undefined || scope.file !== tree.file || scope.units !== units || !sameSet(scope.sees, sees))
        return null;
      if (now.tree === scope.statement.tree) continue;
      if (changed.size === MOST_CHANGED || !alike(census.inScope.get(scope) ?? [], scope, now.tree, reader))
        return null;
      changed.set(scope, now);
    }
  }
  for (const [i, { tree }] of sources.entries()) {
    for (const [j, scope] of (census.scopes[i] ?? []).entries()) {
      const now = tree.statements[j];
      if (now === undefined || now === scope.statement || changed.has(scope)) continue;
      scope.statement = now;
      for (const written of census.inScope.get(scope) ?? []) written.origin.statement = now;
    }
  }
  return changed;
}

const sameSet = (a: ReadonlySet<string>, b: ReadonlySet<string>): boolean =>
  a === b || (a.size === b.size && [...a].every((one) => b.has(one)));

/** True where a statement names the same things as before, so that nobody else's names change their meaning. */
function alike(before: readonly Written[], scope: Scope, tree: Statement, reader: StatementReader): boolean {
  const flat = flatten(reader, tree);
  if (flat.length !== before.length) return false;
  if (scope.side !== null && mirrorSide(tree.entry.line) !== scope.side) return false;
  return before.every((written, i) => {
    const now = flat[i];
    if (now === undefined) return false;
    const { line } = now.entry;
    const { kind } = written;
    if (line.word.text !== kind || FAR_REACHING.has(kind)) return false;
    if (RANKED.has(kind) && textOf(tree, now.entry.span) !== textOf(scope.statement.tree, written.entry.span))
      return false;
    return (headName(line)?.text ?? null) === (headName(written.entry.line)?.text ?? null) || !isNaming(kind);
  });
}

type Read = ReturnType<StatementReader['read']>;

/** A statement with all that stands in it, in the order in which the census takes them. */
function flatten(reader: StatementReader, tree: Statement): readonly Read[] {
  const flat: Read[] = [];
  const add = (read: Read): void => {
    flat.push(read);
    for (const inner of read.inner) add(inner);
  };
  add(reader.read(tree));
  return flat;
}

/** Gives changed statements their new trees; gives all that is written in them, and those of it whose values may differ. */
export function renew(
  census: Census,
  changed: ReadonlyMap<Scope, PlacedStatement>,
  reader: StatementReader,
): { readonly rebound: readonly Written[]; readonly stale: readonly Written[] } {
  const rebound: Written[] = [];
  const stale: Written[] = [];
  for (const [scope, now] of changed) {
    const before = scope.statement.tree;
    const list = census.inScope.get(scope) ?? [];
    const flat = flatten(reader, now.tree);
    scope.statement = now;
    scope.meanings = new Map();
    for (const [i, written] of list.entries()) {
      const read = flat[i];
      if (read === undefined) continue;
      const same = textOf(before, written.entry.span) === textOf(now.tree, read.entry.span);
      written.read = read;
      written.entry = read.entry;
      written.origin.statement = now;
      written.origin.entry = read.entry;
      if (isDefinition(written)) written.nameSpan = headName(read.entry.line)?.span ?? written.nameSpan;
      unbind(written);
      rebound.push(written);
      // What is told of a value stands at its place in the statement, which may have moved.
      if (!same || written.toldOfValues.length > 0) stale.push(written);
    }
  }
  return { rebound, stale };
}

function unbind(written: Written): void {
  for (const { definition } of written.needs) {
    const { users } = definition;
    let kept = 0;
    for (const user of users) if (user !== written) users[kept++] = user;
    users.length = kept;
  }
  written.needs = [];
  written.pathNeeds = [];
  written.occurrences = [];
}

/** The statements that hang on stale ones, these included. */
export function reached(stale: readonly Written[]): ReadonlySet<Written> {
  const all = new Set<Written>(stale);
  for (const written of all) if (isDefinition(written)) for (const user of written.users) all.add(user);
  return all;
}
