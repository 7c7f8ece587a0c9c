/** The census of a car's names: which statements there are, in which file, on which side, and what each of them names. */
import type { Span } from '../../grammar/finding';
import type { ReadStatement, StatementReader } from '../../grammar/read';
import type { Arg, Entry, FileTree, Line, Name, PlacedStatement, Ref, Statement } from '../../grammar/tree';
import type { LengthUnit } from '../../grammar/units';
import { holdsStatements } from '../../grammar/vocabulary';
import type { Side, Thing } from './cage';
import type { Vertex } from './order';
import type { Told } from './reporter';
import type { Target } from './resolve';

/** Names are unique within their space. */
export type Space = 'thing' | 'plane' | 'material' | 'section' | 'die' | 'let' | 'book';

/** The kinds that name something, with the space of their names. */
const SPACES: ReadonlyMap<string, Space> = new Map<string, Space>([
  ['node', 'thing'],
  ['tube', 'thing'],
  ['foot', 'thing'],
  ['seat', 'thing'],
  ['strap', 'thing'],
  ['collar', 'thing'],
  ['gusset', 'thing'],
  ['fitting', 'thing'],
  ['door', 'thing'],
  ['panel', 'thing'],
  ['seat-mount', 'thing'],
  ['anchor', 'thing'],
  ['plane', 'plane'],
  ['material', 'material'],
  ['section', 'section'],
  ['die', 'die'],
  ['let', 'let'],
  ['rulebook', 'book'],
]);

/** The kinds that stand on both sides when they stand inside mirror. */
const TWINNED: ReadonlySet<string> = new Set(
  [...SPACES].flatMap(([kind, space]) => (space === 'thing' ? [kind] : [])).concat('joint', 'vent', 'hole', 'padding'),
);

/** A piece of text in which names mean the same: a top-level statement, and in it a side. */
export interface Scope {
  readonly file: string;
  /** Where it stands now: a statement that only moved keeps its scope. */
  statement: PlacedStatement;
  /** The side for which the block is written. */
  readonly side: Side | null;
  /** Of the file. */
  readonly units: LengthUnit;
  /** Keys of the files whose names are seen from here. */
  readonly sees: ReadonlySet<string>;
  /** What each name in the statement means; null: nothing, and that has been told. */
  meanings: Map<Ref, Target | null>;
}

/** One occurrence of a name. */
export interface Occurrence {
  readonly span: Span;
  readonly target: Definition;
  readonly definition: boolean;
  readonly side: Side | null;
}

/**
 * A statement, wherever it stands, with all that is known of it. It is kept from one building of the cage to the next
 * for as long as it only moves or changes its values; see `renew.ts`.
 */
export interface Written {
  readonly kind: string;
  entry: Entry;
  /** What the vocabulary makes of it. */
  read: ReadStatement;
  readonly scope: Scope;
  /** True inside mirror, also where it must not stand. */
  readonly inMirror: boolean;
  /** Shared by all things that it describes. */
  origin: { readonly file: string; statement: PlacedStatement; entry: Entry };
  /** What its values hang on, by the names in it. */
  needs: Target[];
  /** For a tube: what its path hangs on. */
  pathNeeds: Target[];
  occurrences: Occurrence[];
  /** What is to be told of its words and names, and of its values. */
  toldOfNames: Told[];
  toldOfValues: Told[];
  /** The things that it describes, in the order written side, twin. */
  things: Thing[];
}

/** A statement that names something. */
export interface Definition extends Written {
  readonly space: Space;
  readonly name: string;
  /** Full names of the two that it describes, by side. */
  readonly full: Readonly<Record<Side, string>>;
  /** The name in the statement's head, relative to the statement. */
  nameSpan: Span;
  /** The side it is written for; the other one is its twin. Null: it exists once. */
  readonly side: Side | null;
  /** The next one of the same name. */
  next: Definition | null;
  /** True where another one of that name comes before it. */
  readonly repeated: boolean;
  /** What is worked out of it, for each world and side; see `solve.ts`. */
  vertices: (Vertex | undefined)[];
  /** The statements whose values hang on it; the same may be in it twice. */
  readonly users: Written[];
}

/** What one file brings with it. */
export interface Source {
  readonly tree: FileTree;
  readonly units: LengthUnit;
  readonly sees: ReadonlySet<string>;
}

export interface Census {
  /** For each file, the scopes of its statements, one for each. */
  readonly scopes: readonly (readonly Scope[])[];
  /** For each scope, what is written in it: the statement itself, then what stands inside mirror. */
  readonly inScope: ReadonlyMap<Scope, readonly Written[]>;
  /** All statements in the order of file and text, those inside mirror in place of the block. */
  readonly written: readonly Written[];
  readonly definitions: readonly Definition[];
  readonly spaces: Readonly<Record<Space, ReadonlyMap<string, Definition>>>;
  /** Names in the heads of statements whose kind is not known: nothing more is said about them. */
  readonly dark: ReadonlySet<string>;
}

/** The first argument of a head where it is a name. */
function headRef(line: Line): Ref | null {
  const arg: Arg | undefined = line.groups[0]?.args[0];
  return arg?.kind === 'ref' ? arg : null;
}

/** The name that a statement gives to what it describes: after the word, or before the `=`. */
export function headName(line: Line): Name | null {
  return line.target ?? headRef(line)?.names[0] ?? null;
}

/** True where the name in the head of such a statement is its own, or may be: so it is with kinds that are not known. */
export const isNaming = (kind: string): boolean => SPACES.has(kind) || !KINDS_WITHOUT_NAME.has(kind);

export const isDefinition = (written: Written): written is Definition => 'space' in written;

const NOTHING: never[] = [];

/** What is not known yet of a statement. The empty lists are replaced, never filled. */
const blank = (read: ReadStatement, scope: Scope, inMirror: boolean): Written => ({
  kind: read.entry.line.word.text,
  entry: read.entry,
  read,
  scope,
  inMirror,
  origin: { file: scope.file, statement: scope.statement, entry: read.entry },
  needs: NOTHING,
  pathNeeds: NOTHING,
  occurrences: NOTHING,
  toldOfNames: NOTHING,
  toldOfValues: NOTHING,
  things: NOTHING,
});

/** Takes the census of files, given in the order in which names count. */
export function takeCensus(sources: Iterable<Source>, reader: StatementReader): Census {
  const written: Written[] = [];
  const definitions: Definition[] = [];
  const spaces: Record<Space, Map<string, Definition>> = {
    thing: new Map(),
    plane: new Map(),
    material: new Map(),
    section: new Map(),
    die: new Map(),
    let: new Map(),
    book: new Map(),
  };
  const lastOf = new Map<Definition, Definition>();
  const dark = new Set<string>();

  const inScope = new Map<Scope, Written[]>();

  const add = (read: ReadStatement, scope: Scope, inMirror: boolean, list: Written[]): void => {
    const { line } = read.entry;
    const kind = line.word.text;
    const space = SPACES.get(kind);
    const named = headName(line);
    const plain = blank(read, scope, inMirror);
    if (space === undefined || named === null) {
      if (space === undefined && named !== null && !KINDS_WITHOUT_NAME.has(kind) && !holdsStatements(kind))
        dark.add(named.text);
      written.push(plain);
      list.push(plain);
      for (const inner of read.inner) add(inner, scope, true, list);
      return;
    }
    const first = spaces[space].get(named.text);
    const definition: Definition = {
      kind,
      entry: plain.entry,
      read,
      scope,
      inMirror,
      origin: plain.origin,
      needs: NOTHING,
      pathNeeds: NOTHING,
      occurrences: NOTHING,
      toldOfNames: NOTHING,
      toldOfValues: NOTHING,
      things: NOTHING,
      space,
      name: named.text,
      full: { left: `${named.text}.left`, right: `${named.text}.right` },
      nameSpan: named.span,
      side: inMirror && TWINNED.has(kind) ? scope.side : null,
      next: null,
      repeated: first !== undefined,
      vertices: NOTHING,
      users: [],
    };
    written.push(definition);
    list.push(definition);
    definitions.push(definition);
    if (first === undefined) spaces[space].set(named.text, definition);
    else {
      (lastOf.get(first) ?? first).next = definition;
      lastOf.set(first, definition);
    }
  };

  // Statements of the same text are one tree: only the first of them may use the common table.
  const shared = new Map<Ref, Target | null>();
  const seen = new Set<Statement>();
  const scopes: Scope[][] = [];
  for (const { tree, units, sees } of sources) {
    const ofFile: Scope[] = [];
    scopes.push(ofFile);
    for (const statement of tree.statements) {
      const read = reader.read(statement.tree);
      const side = holdsStatements(read.entry.line.word.text) ? mirrorSide(read.entry.line) : null;
      const meanings = seen.has(statement.tree) ? new Map<Ref, Target | null>() : shared;
      seen.add(statement.tree);
      const scope: Scope = { file: tree.file, statement, side, units, sees, meanings };
      const list: Written[] = [];
      add(read, scope, false, list);
      ofFile.push(scope);
      inScope.set(scope, list);
    }
  }
  return { scopes, inScope, written, definitions, spaces, dark };
}

const KINDS_WITHOUT_NAME: ReadonlySet<string> = new Set([
  'cage',
  'units',
  'use',
  'rules',
  'vehicle',
  'mirror',
  'adjust',
  'waive',
  'joint',
  'vent',
  'hole',
  'padding',
  'welding',
  'stock',
  'saw',
  'torch',
]);

/** `mirror left`; left also where the side is missing or misspelt, so that what stands inside exists. */
export function mirrorSide(line: Line): Side {
  return headRef(line)?.names[0]?.text === 'right' ? 'right' : 'left';
}

export const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** The full name of a definition on a side. */
export const nameOn = (definition: Definition, side: Side | null): string =>
  side === null ? definition.name : definition.full[side];

/** What a finding about a statement is about: its thing, on the side for which it is written. */
export const subjectOf = (written: Written): string => (isDefinition(written) ? nameOn(written, written.side) : '');

/** `foot` and a side: `foot.left`; without a side: `foot`. */
export const fullName = (name: string, side: Side | null): string => (side === null ? name : `${name}.${side}`);
