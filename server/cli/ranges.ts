/** Lines and columns, as the Language Server Protocol counts them: zero-based, UTF-16, \n, \r\n and \r end a line. */
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../project/project';
import type { JsonRange, RangeOf } from '../project/describe';

/** Says where places stand in the files that some judged cars reach. A file that is not known: its beginning. */
export function rangesOf(analyses: readonly Analysis[]): RangeOf {
  const documents = new Map<string, TextDocument>();
  for (const analysis of analyses) {
    for (const [file, tree] of analysis.trees) {
      if (!documents.has(file)) documents.set(file, TextDocument.create(file, 'cage', 0, tree.text));
    }
  }
  const start = { line: 0, character: 0 };
  return (place): JsonRange => {
    const document = documents.get(place.file);
    if (document === undefined) return { start, end: start };
    return { start: document.positionAt(place.span.start), end: document.positionAt(place.span.end) };
  };
}
