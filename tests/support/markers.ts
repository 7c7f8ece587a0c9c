/**
 * Cursors and ranges written into a test's text: `<|>` is a cursor, `<|` … `|>` a range. The text without them, and where they stood.
 */
import type { Span } from '../../grammar/finding';

export interface Marked {
  readonly text: string;
  readonly cursors: readonly number[];
  readonly ranges: readonly Span[];
}

export const readMarkers = (marked: string): Marked => {
  let text = '';
  const cursors: number[] = [];
  const ranges: Span[] = [];
  const open: number[] = [];
  for (let at = 0; at < marked.length;) {
    if (marked.startsWith('<|>', at)) {
      cursors.push(text.length);
      at += 3;
    } else if (marked.startsWith('<|', at)) {
      open.push(text.length);
      at += 2;
    } else if (marked.startsWith('|>', at)) {
      const start = open.pop();
      if (start === undefined) throw new Error('A range is closed that was not opened.');
      ranges.push({ start, end: text.length });
      at += 2;
    } else {
      text += marked[at] ?? '';
      at += 1;
    }
  }
  if (open.length > 0) throw new Error('A range is not closed.');
  return { text, cursors, ranges };
};

/** The only cursor of a text. */
export const readCursor = (marked: string): { readonly text: string; readonly cursor: number } => {
  const { text, cursors } = readMarkers(marked);
  const [cursor] = cursors;
  if (cursor === undefined || cursors.length !== 1) throw new Error('One cursor is wanted.');
  return { text, cursor };
};

/** Files in one string: each begins with a line `//- path`. What stands before the first is `main.cage`. */
export const readFiles = (fixture: string): ReadonlyMap<string, string> => {
  const files = new Map<string, string>();
  let name = 'main.cage';
  let lines: string[] = [];
  const close = (): void => {
    if (lines.some((line) => line.trim() !== '')) files.set(name, `${lines.join('\n')}\n`);
    lines = [];
  };
  for (const line of fixture.replace(/^\n/, '').split('\n')) {
    const head = /^\/\/- (\S+)$/.exec(line);
    if (head?.[1] === undefined) lines.push(line);
    else {
      close();
      name = head[1];
    }
  }
  close();
  return files;
};
