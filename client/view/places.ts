/** From the text to what is drawn of it, and back. Lines and UTF-16 characters from 0. */
import type { TextPlace, WireModel } from '../../server/lsp/view-wire';

export type TextPosition = TextPlace['start'];

export interface Cursor {
  readonly uri: string;
  readonly at: TextPosition;
}

const isBefore = (a: TextPosition, b: TextPosition): boolean =>
  a.line < b.line || (a.line === b.line && a.character < b.character);

/** The end counts as inside: the cursor behind a statement's last letter is still in it. */
const holds = ({ start, end }: TextPlace, at: TextPosition): boolean => !isBefore(at, start) && !isBefore(end, at);

/** Whether `inner` lies in `outer` and is less than it. */
const isWithin = (inner: TextPlace, outer: TextPlace): boolean =>
  !isBefore(inner.start, outer.start) &&
  !isBefore(outer.end, inner.end) &&
  (isBefore(outer.start, inner.start) || isBefore(inner.end, outer.end));

/**
 * Ids of the things and nodes whose statement holds the cursor: of statements within statements those of the innermost, of a
 * statement that makes several (both twins of a mirrored one) all. `sameFile` tells whether two spellings are one file.
 */
export const idsAt = (
  model: WireModel,
  cursor: Cursor,
  sameFile: (a: string, b: string) => boolean,
): readonly string[] => {
  const around = [...model.things, ...model.nodes].flatMap(({ id, statement }) =>
    statement !== null && holds(statement, cursor.at) && sameFile(statement.uri, cursor.uri) ? [{ id, statement }] : [],
  );
  return around
    .filter(({ statement }) => !around.some((other) => isWithin(other.statement, statement)))
    .map(({ id }) => id);
};

/** Where something of the model is written, and its name; null: nowhere of its own, or there is no such thing. */
export const writtenAt = (
  model: WireModel,
  id: string,
): { readonly place: TextPlace; readonly name: string } | null => {
  const found = model.things.find((thing) => thing.id === id) ?? model.nodes.find((node) => node.id === id);
  return found === undefined || found.place === null ? null : { place: found.place, name: found.name };
};

const isWordSign = (sign: string | undefined): boolean => sign !== undefined && /[\w-]/.test(sign);

/**
 * Where in a statement its hover is asked for: on its name, for a hover on the first word tells of the word. A twin's name
 * (`bar-end.left`) stands without its side where it is written. Without its name in that line: at the start.
 * @param line the statement's first line
 */
export const hoverSpot = (line: string, { start }: TextPlace, name: string): TextPosition => {
  const parts = name.split('.');
  const spellings = parts.map((_, index) => parts.slice(0, parts.length - index).join('.'));
  for (const spelling of spellings) {
    for (
      let index = line.indexOf(spelling, start.character);
      index >= 0 && spelling !== '';
      index = line.indexOf(spelling, index + 1)
    ) {
      if (!isWordSign(line[index - 1]) && !isWordSign(line[index + spelling.length]))
        return { line: start.line, character: index };
    }
  }
  return start;
};
