/** Formatting as edits: only the lines that change, and of these only the ones asked for. */
import type { Range, TextEdit } from 'vscode-languageserver/node.js';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { formatFile } from '../../grammar/format';
import { lineEdits } from './line-edits';

/** Lines with their line ends. */
const linesOf = (text: string): string[] => text.match(/[^\n]*\n|[^\n]+$/g) ?? [];

/**
 * The edits that lay a document out; broken statements stay as they are.
 * @param range only edits within its lines; null: all
 */
export const formattingEdits = (document: TextDocument, range: Range | null): TextEdit[] => {
  const text = document.getText();
  const before = linesOf(text);
  const starts: number[] = [];
  let offset = 0;
  for (const line of before) {
    starts.push(offset);
    offset += line.length;
  }
  const startOf = (line: number): number => starts[line] ?? text.length;
  // A range that ends at the start of a line does not mean that line.
  const last =
    range === null
      ? Infinity
      : range.end.character === 0 && range.end.line > range.start.line
        ? range.end.line - 1
        : range.end.line;
  return lineEdits(before, linesOf(formatFile(text)))
    .filter(({ from, to }) => range === null || (from >= range.start.line && Math.max(from, to - 1) <= last))
    .map(({ from, to, lines }) => ({
      range: { start: document.positionAt(startOf(from)), end: document.positionAt(startOf(to)) },
      newText: lines.join(''),
    }));
};
