/** The census of a car's names: which statements there are, in which file, on which side, and what each of them names. */
import type { Span } from '../../grammar/finding';
import type { ReadStatement, StatementReader } from '../../grammar/read';
import type { Arg, Entry, FileTree, Line, Name, PlacedStatement, Ref, Statement } from '../../grammar/tree';
import type { LengthUnit } from '../../grammar/units';
import type { Origin, Side } from './cage';
import type { Target } from './resolve';

/** Names are unique within their space. */
export type Space = 'thing' | 'plane' | 'material' | 'section' | 'die' | 'let';

/** The kinds that name something, with the space of their names. */
const SPACES: ReadonlyMap<string, Space> = new Map<string, Space>([
  ['node', 'thing'],
  ['tube', 'thing'],
  ['foot', 'thing'],
  ['seat', 'thing'],
  ['strap', 'thing'],
  ['collar', 'thing'],
  ['plane', 'plane'],
  ['material', 'material'],
  ['section', 'section'],
  ['die', 'die'],
  ['let', 'let'],
]);

/** The kinds that stand on both sides when they stand inside mirror. */
const TWINNED: ReadonlySet<string> = new Set(['node', 'tube', 'foot', 'seat', 'strap', 'collar', 'joint', 'vent']);

/** A piece of text in which names mean the same: a top-level statement, and in it a side. */
export interface Scope {
  readonly file: string;
  readonly statement: PlacedStatement;
  /** The side for which the block is written. */
  readonly side: Side | null;
  /** Of the file. */
  readonly units: LengthUnit;
  /** Keys of the files whose names are seen from here. */
  readonly sees: ReadonlySet<string>;
  /** What each name in the statement means; null: nothing, and that has been told. */
  readonly meanings: Map<Ref, Target | null>;
}

/** A statement, wherever it stands. */
export interface Written {
  readonly kind: string;
  readonly entry: Entry;
  /** What the vocabulary makes of it. */
  readonly read: ReadStatement;
  readonly scope: Scope;
  /** True inside mirror, also where it must not stand. */
  readonly inMirror: boolean;
}

/** A statement that names something. */
export interface Definition extends Written {
  readonly space: Space;
  readonly name: string;
  /** Full names of the two that it describes, by side. */
  readonly full: Readonly<Record<Side, string>>;
  /** The name in the statement's head, relative to the statement. */
  readonly nameSpan: Span;
  /** The side it is written for; the other one is its twin. Null: it exists once. */
  readonly side: Side | null;
  /** The next one of the same name. */
  next: Definition | null;
  /** True where another one of that name comes before it. */
  readonly repeated: boolean;
}

/** What one file brings with it. */
export interface Source {
  readonly tree: FileTree;
  readonly units: LengthUnit;
  readonly sees: ReadonlySet<string>;
}

export interface Census {
  /** All statements in the order of file and text, those inside mirror in place of the block. */
  readonly written: readonly Written[];
  readonly definitions: readonly Definition[];
  readonly spaces: Readonly<Record<Space, ReadonlyMap<string, Definition>>>;
  /** Names in the heads of statements whose kind is not known: nothing more is said about them. */
  readonly dark: ReadonlySet<string>;
}

/** The first argument of a head where it is a name. */
export function headRef(line: Line): Ref | null {
  const arg: Arg | undefined = line.groups[0]?.args[0];
  return arg?.kind === 'ref' ? arg : null;
}

/** The name that a statement gives to what it describes: after the word, or before the `=`. */
export function headName(line: Line): Name | null {
  return line.target ?? headRef(line)?.names[0] ?? null;
}

export const isDefinition = (written: Written): written is Definition => 'space' in written;

/** Where a thing is written. */
export const originOf = (written: Written): Origin => ({
  file: written.scope.file,
  statement: written.scope.statement,
  entry: written.entry,
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
  };
  const lastOf = new Map<Definition, Definition>();
  const dark = new Set<string>();

  const add = (read: ReadStatement, scope: Scope, inMirror: boolean): void => {
    const { entry } = read;
    const kind = entry.line.word.text;
    const space = SPACES.get(kind);
    const named = headName(entry.line);
    if (space === undefined || named === null) {
      if (space === undefined && named !== null && !KINDS_WITHOUT_NAME.has(kind)) dark.add(named.text);
      written.push({ kind, entry, read, scope, inMirror });
      for (const inner of read.inner) add(inner, scope, true);
      return;
    }
    const first = spaces[space].get(named.text);
    const definition: Definition = {
      kind,
      entry,
      read,
      scope,
      inMirror,
      space,
      name: named.text,
      full: { left: `${named.text}.left`, right: `${named.text}.right` },
      nameSpan: named.span,
      side: inMirror && TWINNED.has(kind) ? scope.side : null,
      next: null,
      repeated: first !== undefined,
    };
    written.push(definition);
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
  for (const { tree, units, sees } of sources) {
    for (const statement of tree.statements) {
      const read = reader.read(statement.tree);
      const side = read.entry.line.word.text === 'mirror' ? mirrorSide(read.entry.line) : null;
      const meanings = seen.has(statement.tree) ? new Map<Ref, Target | null>() : shared;
      seen.add(statement.tree);
      add(read, { file: tree.file, statement, side, units, sees, meanings }, false);
    }
  }
  return { written, definitions, spaces, dark };
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
]);

/** `mirror left`; left also where the side is missing or misspelt, so that what stands inside exists. */
export function mirrorSide(line: Line): Side {
  return headRef(line)?.names[0]?.text === 'right' ? 'right' : 'left';
}

export const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** The full name of a definition on a side. */
export const nameOn = (definition: Definition, side: Side | null): string =>
  side === null ? definition.name : definition.full[side];

/** `foot` and a side: `foot.left`; without a side: `foot`. */
export const fullName = (name: string, side: Side | null): string => (side === null ? name : `${name}.${side}`);
