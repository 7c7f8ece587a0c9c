/** From the text to what is drawn of it, and back. Lines and UTF-16 characters from 0. */
import type { TextPlace, WireModel, WireNode, WireThing } from '../../server/lsp/view-wire';

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

const find = (model: WireModel, id: string): WireThing | WireNode | null =>
  model.things.find((thing) => thing.id === id) ?? model.nodes.find((node) => node.id === id) ?? null;

/** Where something of the model is written; null: nowhere of its own, or there is no such thing. */
export const writtenAt = (model: WireModel, id: string): TextPlace | null => find(model, id)?.place ?? null;

/**
 * The place at whose start the editor's hover tells of the thing: its name. One that bears none is counted (`vent:3`) and
 * is told on the word that begins its statement; a helmet is told with its seat.
 */
export const hoverPlace = (model: WireModel, id: string): TextPlace | null => {
  const found = find(model, id);
  if (found === null) return null;
  if (found.name.includes(':')) return found.statement;
  const isHelmet = 'kind' in found && found.kind === 'helmet';
  const seat = isHelmet ? model.things.find(({ kind, name }) => kind === 'seat' && name === found.name) : undefined;
  return (seat ?? found).place;
};
