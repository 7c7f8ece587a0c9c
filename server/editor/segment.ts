/**
 * The piece of a line before the cursor and the blocks around it, read from the text alone: half-typed lines have no
 * tree worth asking.
 */
import type { FileTree } from '../../grammar/tree';
import { FACT_NAMES, KIND_BY_NAME } from '../../grammar/vocabulary';
import { FUNCTIONS } from '../../grammar/words';

export interface Segment {
  /** First words of the open blocks around the cursor, the outermost first. */
  readonly blocks: readonly string[];
  /** What follows those words up to their `{`: `left` of a mirror, `bar as harness-bar` of a tube. */
  readonly heads: readonly string[];
  /** Facts that are already written in the innermost block. */
  readonly written: ReadonlySet<string>;
  /** The text of the line (or fact) so far, without what is being typed. */
  readonly before: string;
  /** What is being typed: part of a name, or nothing. */
  readonly partial: string;
  /** Where `partial` begins. */
  readonly start: number;
  /** Whether the cursor stands in a comment or a string. */
  readonly quiet: boolean;
}

interface Open {
  readonly word: string;
  readonly head: string;
  readonly written: Set<string>;
}

const FIRST_WORD = /^\s*([\p{L}][\p{L}\p{M}\d_-]*)/u;
const PARTIAL = /[\p{L}][\p{L}\p{M}\d_-]*$/u;

/** End of the string that opens at `at`, or of its line. */
const skipString = (text: string, at: number, end: number): number => {
  for (let i = at + 1; i < end; i += 1) {
    if (text[i] === '\\') i += 1;
    else if (text[i] === '"') return i + 1;
    else if (text[i] === '\n') return i;
  }
  return end;
};

/** Offset of the last statement that begins at or before the cursor. */
const from = (tree: FileTree, offset: number): number => {
  let start = 0;
  for (const statement of tree.statements) {
    if (statement.offset > offset) break;
    start = statement.offset;
  }
  return start;
};

/** After a comma a list goes on in the next line, unless that line is a fact or a statement of its own. */
const goesOn = (line: string, next: string): boolean => {
  if (!/,[ \t\r]*$/.test(line)) return false;
  const [, word = '', behind = ''] = /^\s*([\p{L}][\p{L}\p{M}\d_-]*)(\s+[\p{L}\d."]|\s*[={(]|\s+$)?/u.exec(next) ?? [];
  const known = FACT_NAMES.has(word) || KIND_BY_NAME.has(word);
  return behind.trim() === '' ? !(known && behind !== '') : behind.trim() === '(' && Object.hasOwn(FUNCTIONS, word);
};

/** Reads the blocks and the line around the cursor. */
export const segmentAt = (tree: FileTree, offset: number): Segment => {
  const { text } = tree;
  const open: Open[] = [];
  const topWritten = new Set<string>();
  let lineStart = from(tree, offset);
  let quiet = false;
  const note = (end: number): string => {
    const word = FIRST_WORD.exec(text.slice(lineStart, end))?.[1] ?? '';
    if (word !== '') (open.at(-1)?.written ?? topWritten).add(word);
    return word;
  };
  for (let at = lineStart; at < offset;) {
    const sign = text[at];
    if (sign === '#') {
      const newline = text.indexOf('\n', at);
      at = newline < 0 || newline >= offset ? offset : newline;
      quiet = at === offset;
    } else if (sign === '"' && !/\d/.test(text[at - 1] ?? '')) {
      at = skipString(text, at, offset);
      quiet = at === offset && text[at - 1] !== '"';
    } else {
      if (sign === '{') {
        const word = note(at);
        const head = text.slice(lineStart, at).trim().slice(word.length).trim();
        open.push({ word, head, written: new Set() });
        lineStart = at + 1;
      } else if (sign === '}') {
        note(at);
        open.pop();
        lineStart = at + 1;
      } else if (sign === ';' || (sign === '\n' && !goesOn(text.slice(lineStart, at), text.slice(at + 1, offset)))) {
        note(at);
        lineStart = at + 1;
      }
      at += 1;
    }
  }
  const line = text.slice(lineStart, offset);
  const partial = PARTIAL.exec(line)?.[0] ?? '';
  return {
    blocks: open.map(({ word }) => word),
    heads: open.map(({ head }) => head),
    written: open.at(-1)?.written ?? topWritten,
    before: line.slice(0, line.length - partial.length).trimStart(),
    partial,
    start: offset - partial.length,
    quiet,
  };
};
