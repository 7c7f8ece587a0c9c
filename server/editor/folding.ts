/** What can be folded away: blocks, runs of comment lines, runs of `use` lines. */
import type { Span } from '../../grammar/finding';
import type { Entry, FileTree } from '../../grammar/tree';
import { shift } from './cursor';

export interface Fold {
  readonly span: Span;
  readonly kind: 'block' | 'comment' | 'imports';
}

const blocksOf = (entry: Entry, offset: number, out: Fold[]): void => {
  if (entry.block === null) return;
  out.push({ span: shift(entry.block.span, offset), kind: 'block' });
  for (const inner of entry.block.entries) blocksOf(inner, offset, out);
};

/** Joins neighbours into one fold; null parts them, and one alone is none. */
const runs = (spans: Iterable<Span | null>, kind: Fold['kind']): Fold[] => {
  const found: Fold[] = [];
  let run: Span[] = [];
  const close = (): void => {
    const [first, last] = [run[0], run.at(-1)];
    if (first !== undefined && last !== undefined && run.length > 1) {
      found.push({ span: { start: first.start, end: last.end }, kind });
    }
    run = [];
  };
  for (const span of spans) {
    if (span === null) close();
    else run.push(span);
  }
  close();
  return found;
};

/** For each line: where its comment stands if it holds nothing else, or null. */
function* commentLines(text: string): Iterable<Span | null> {
  for (let start = 0; start < text.length;) {
    const newline = text.indexOf('\n', start);
    const end = newline < 0 ? text.length : newline;
    let first = start;
    while (first < end && (text[first] === ' ' || text[first] === '\t')) first += 1;
    yield text[first] === '#' ? { start: first, end } : null;
    start = end + 1;
  }
}

const useLines = (tree: FileTree): (Span | null)[] =>
  tree.statements.map(({ offset, tree: statement }) =>
    statement.entry.line.word.text === 'use' ? { start: offset, end: offset + statement.text.length } : null,
  );

/** Every fold of a file; those on one line are for the caller to leave out. */
export const folds = (tree: FileTree): Fold[] => {
  const blocks: Fold[] = [];
  for (const { offset, tree: statement } of tree.statements) blocksOf(statement.entry, offset, blocks);
  return [...blocks, ...runs(commentLines(tree.text), 'comment'), ...runs(useLines(tree), 'imports')];
};
