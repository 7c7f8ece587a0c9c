/** Where an offset stands in a tree: the statement, the entry, the line, and the word under it. */
import type { Span } from '../../grammar/finding';
import type { Entry, FileTree, PlacedStatement } from '../../grammar/tree';

export interface Cursor {
  readonly tree: FileTree;
  readonly offset: number;
  /** The statement that holds the offset; null between statements. */
  readonly statement: PlacedStatement | null;
  /** Entries that hold the offset, the outermost first: a tube, then its `path`. */
  readonly entries: readonly Entry[];
  /** The innermost entry whose line holds the offset; null in a block but on none of its lines. */
  readonly onLine: Entry | null;
}

/** Both ends count: a cursor behind the last letter of a word is still at the word. */
export const holds = (span: Span, offset: number): boolean => span.start <= offset && offset <= span.end;

export const shift = (span: Span, by: number): Span => ({ start: span.start + by, end: span.end + by });

/** Index of the last statement that begins at or before the offset; -1 before the first. */
const lastBefore = (statements: readonly PlacedStatement[], offset: number): number => {
  let [low, high] = [0, statements.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((statements[middle]?.offset ?? 0) <= offset) low = middle + 1;
    else high = middle;
  }
  return low - 1;
};

const statementAt = (tree: FileTree, offset: number): PlacedStatement | null => {
  const found = tree.statements[lastBefore(tree.statements, offset)];
  return found !== undefined && offset <= found.offset + found.tree.text.length ? found : null;
};

export const cursorAt = (tree: FileTree, offset: number): Cursor => {
  const statement = statementAt(tree, offset);
  const entries: Entry[] = [];
  let onLine: Entry | null = null;
  if (statement !== null) {
    const at = offset - statement.offset;
    let entry: Entry | undefined = statement.tree.entry;
    while (entry !== undefined && holds(entry.span, at)) {
      entries.push(entry);
      if (holds(entry.line.span, at)) onLine = entry;
      entry = entry.block?.entries.find((inner) => holds(inner.span, at));
    }
  }
  return { tree, offset, statement, entries, onLine };
};

const NAME = /\p{L}[\p{L}\p{M}\d_]*(?:-[\p{L}\d_][\p{L}\p{M}\d_]*)*/gu;

export interface Word {
  readonly text: string;
  readonly span: Span;
}

/** The line of the text that holds an offset. */
export const lineSpanAt = (text: string, offset: number): Span => {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  const newline = text.indexOf('\n', offset);
  const end = newline < 0 ? text.length : newline;
  return { start, end: end > start && text.charCodeAt(end - 1) === 13 ? end - 1 : end };
};

/** The name at an offset (after NFC), also directly behind it. */
export const wordAt = (text: string, offset: number): Word | null => {
  const line = lineSpanAt(text, offset);
  // No name is that long: a megabyte on one line is not searched as a whole.
  const from = Math.max(line.start, offset - 300);
  for (const match of text.slice(from, Math.min(line.end, offset + 300)).matchAll(NAME)) {
    const span = { start: from + match.index, end: from + match.index + match[0].length };
    if (holds(span, offset)) return { text: match[0].normalize('NFC'), span };
    if (span.start > offset) break;
  }
  return null;
};

/** Whether an offset stands in a comment or a string of its line. */
export const quietAt = (text: string, offset: number): 'comment' | 'string' | null => {
  const { start } = lineSpanAt(text, offset);
  let inString = false;
  for (let at = start; at < offset; at += 1) {
    const letter = text[at];
    if (inString) {
      if (letter === '\\') at += 1;
      else if (letter === '"') inString = false;
    } else if (letter === '#') return 'comment';
    // A `"` directly behind a digit means inches: no string begins.
    else if (letter === '"' && !/\d/.test(text[at - 1] ?? '')) inString = true;
  }
  return inString ? 'string' : null;
};
