/** Which files a file names with `use`, what each of them sees, and what is wrong with that. */
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { Finding, Params, Span } from '../../grammar/finding';
import type { FileTree, PlacedStatement, StringLit } from '../../grammar/tree';

/** How a `use` line was resolved; the project's loader fills it. */
export type UseTarget =
  | { readonly kind: 'file' | 'missing'; readonly file: string }
  | { readonly kind: 'unreadable'; readonly file: string; readonly why: string }
  | { readonly kind: 'outside' };

interface UseLine {
  readonly path: string;
  readonly statement: PlacedStatement;
  readonly span: Span;
}

function useLines(tree: FileTree): readonly UseLine[] {
  const lines: UseLine[] = [];
  for (const statement of tree.statements) {
    const { line } = statement.tree.entry;
    if (line.word.text !== 'use' || !line.ok) continue;
    const paths = line.groups.flatMap(({ args }) => args).filter((arg): arg is StringLit => arg.kind === 'string');
    for (const { value, span } of paths) lines.push({ path: value, statement, span });
  }
  return lines;
}

/** The paths that a file's `use` lines name, as written, in the order of the text. */
export const usedPaths = (tree: FileTree): readonly string[] => useLines(tree).map(({ path }) => path);

export interface Reached {
  /** Keys of the files, the judged one first, the others by name: the order of `use` lines has no meaning. */
  readonly files: readonly string[];
  /** For each file, those whose names it sees: itself, what it uses, and what those use. */
  readonly sees: ReadonlyMap<string, ReadonlySet<string>>;
  readonly findings: readonly Finding[];
}

/** Follows the `use` lines from the judged file; tells what is missing, outside, or goes round in a circle. */
export function reach(
  root: string,
  trees: ReadonlyMap<string, FileTree>,
  uses: ReadonlyMap<string, ReadonlyMap<string, UseTarget>>,
): Reached {
  const findings: Finding[] = [];
  const lines = new Map<string, readonly { readonly line: UseLine; readonly file: string }[]>();
  const waiting = [root];
  const reached = new Set(waiting);
  for (let from = waiting.pop(); from !== undefined; from = waiting.pop()) {
    const tree = trees.get(from);
    const good: { line: UseLine; file: string }[] = [];
    for (const line of tree === undefined ? [] : useLines(tree)) {
      const target = uses.get(from)?.get(line.path);
      if (target?.kind === 'file' && trees.has(target.file)) good.push({ line, file: target.file });
      else if (target !== undefined) findings.push(unread(target, from, line));
    }
    lines.set(from, good);
    for (const { file } of good) {
      if (reached.has(file)) continue;
      reached.add(file);
      waiting.push(file);
    }
  }
  const others = [...reached].filter((file) => file !== root).sort();
  const files = [root, ...others].filter((file) => trees.has(file));
  const places = new Map(files.map((file, i) => [file, i]));
  const placeOf = (file: string): number => places.get(file) ?? -1;
  const next = new Map([...lines].map(([file, list]) => [file, list.map((one) => one.file)]));
  const sees = new Map(files.map((file) => [file, closure(file, next)]));
  for (const file of files) {
    for (const { line, file: target } of lines.get(file) ?? []) {
      if (sees.get(target)?.has(file) !== true) continue;
      const way = [file, ...wayTo(target, file, next)];
      // A circle is told once, at the line of its first file that leads into it.
      if (way.slice(0, -1).some((other) => placeOf(other) < placeOf(file))) continue;
      findings.push(told('use.cycle', file, line, { links: way.join(' -> ') }));
    }
  }
  return { files, sees, findings };
}

function closure(file: string, next: ReadonlyMap<string, readonly string[]>): ReadonlySet<string> {
  const seen = new Set([file]);
  for (const one of seen) for (const other of next.get(one) ?? []) seen.add(other);
  return seen;
}

/** The shortest way from a file to another, both included. */
function wayTo(from: string, to: string, next: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const before = new Map<string, string | null>([[from, null]]);
  for (const [file] of before) {
    if (file === to) break;
    for (const other of next.get(file) ?? []) if (!before.has(other)) before.set(other, file);
  }
  const way: string[] = [];
  for (let at: string | null = to; at !== null; at = before.get(at) ?? null) way.push(at);
  return way.reverse();
}

function unread(target: UseTarget, from: string, line: UseLine): Finding {
  const { path } = line;
  if (target.kind === 'unreadable') return told('use.unreadable', from, line, { path, why: target.why });
  return told(target.kind === 'outside' ? 'use.outside' : 'use.missing', from, line, { path });
}

function told(code: Code, file: string, { statement, span }: UseLine, params: Params): Finding {
  const { offset } = statement;
  const place = { file, span: { start: offset + span.start, end: offset + span.end } };
  return {
    code,
    severity: CODES[code].severity,
    subject: '',
    at: { kind: 'place', place },
    params,
    notes: [],
    fixes: [],
  };
}
