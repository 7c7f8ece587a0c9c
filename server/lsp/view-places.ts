/** A picture's model with its places as editors count them, and numbers as they travel. */
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Place } from '../../grammar/finding';
import type { SpanPlace, ViewModel } from '../view/model';
import type { Numbers } from '../view/wire-mesh';
import { rangeOf } from './convert';
import type { TextPlace, WireModel } from './view-wire';

/** The text of a file in which places stand; null: it is not known. */
export type Documents = (file: string) => TextDocument | null;

/** Base64 of the numbers as they lie in memory, which is little-endian wherever Node runs an editor. */
export const packed = (numbers: Numbers): string =>
  Buffer.from(numbers.buffer, numbers.byteOffset, numbers.byteLength).toString('base64');

/** Null where the file is not known. */
export function textPlace(documents: Documents, { file, start, end }: SpanPlace): TextPlace | null {
  const document = documents(file);
  return document === null ? null : { uri: document.uri, ...rangeOf(document, { start, end }) };
}

/** `line 12`; of another file than the car's with its name. */
export const sayLine =
  (documents: Documents, root: string) =>
  ({ file, span }: Place): string => {
    const document = documents(file);
    const line = document === null ? '' : `line ${String(document.positionAt(span.start).line + 1)}`;
    return file === root ? line : `${file}${line === '' ? '' : `, ${line}`}`;
  };

/** The model as it goes to the editor. What stands in no text that is known is told at the beginning of the car's. */
export function wireModel(model: ViewModel, documents: Documents, uri: string, version: number | null): WireModel {
  const at = (place: SpanPlace | null): TextPlace | null => (place === null ? null : textPlace(documents, place));
  const written = ({
    place,
    statement,
  }: {
    readonly place: SpanPlace | null;
    readonly statement: SpanPlace | null;
  }) => ({
    place: at(place),
    statement: at(statement),
  });
  const zero = { line: 0, character: 0 };
  const beginning: TextPlace = { uri, start: zero, end: zero };
  return {
    ...model,
    uri,
    version,
    things: model.things.map((thing) => ({ ...thing, ...written(thing) })),
    nodes: model.nodes.map((node) => ({ ...node, ...written(node) })),
    findings: model.findings.map((finding) => ({ ...finding, place: at(finding.place) ?? beginning })),
  };
}
