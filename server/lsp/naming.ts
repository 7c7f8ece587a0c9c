/** Requests about names: where one is defined, where it is used, and its new name everywhere. */
import {
  DocumentHighlightKind,
  ErrorCodes,
  LSPErrorCodes,
  ResponseError,
  type Connection,
  type Location,
  type PrepareRenameParams,
  type Range,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver/node.js';
import type { Place } from '../../grammar/finding';
import { definitionAt, occurrences, rename, renameTarget } from '../editor/names';
import { documentEdits, textChanged } from './answers';
import type { ClientFeatures } from './client-features';
import { offsetOf, rangeOf } from './convert';
import { sameUri } from './folders';
import type { Guard } from './guard';
import { openedIn, type Opened, type View, type Workspace } from './workspace';

const locate = (view: View, { file, span }: Place): Location | null => {
  const document = view.document(file);
  return document === null ? null : { uri: view.space.uriOf(file), range: rangeOf(document, span) };
};

/** A name at a place of one analysis. */
interface Seen {
  readonly view: View;
  readonly key: string;
  readonly offset: number;
}

/**
 * A name as every car sees it that reaches the file where it is defined, also those that are not open: a part that is
 * renamed in one car only would be missing in the others.
 */
const seenEverywhere = async (workspace: Workspace, opened: Opened, offset: number): Promise<Seen[]> => {
  const { view, key } = opened;
  const own = { view, key, offset };
  const home = occurrences(view.analysis, key, offset).find(({ definition }) => definition)?.place;
  if (home === undefined) return [own];
  const uri = view.space.uriOf(home.file);
  const others = (await workspace.viewsReaching(uri)).flatMap((other): Seen[] => {
    const file = other.uri === view.uri ? null : other.keyOf(uri);
    return file === null ? [] : [{ view: other, key: file, offset: home.span.start }];
  });
  return [own, ...others];
};

/** Locations without those that several cars share. */
const once = (locations: readonly Location[]): Location[] => {
  const seen = new Set<string>();
  return locations.filter(({ uri, range }) => {
    const mark = `${sameUri(uri)} ${String(range.start.line)}:${String(range.start.character)}`;
    return !seen.has(mark) && seen.add(mark) !== undefined;
  });
};

const renameEverywhere = async (
  workspace: Workspace,
  features: ClientFeatures,
  opened: Opened,
  offset: number,
  newName: string,
): Promise<WorkspaceEdit> => {
  const places: Location[] = [];
  let written = newName;
  for (const { view, key, offset: at } of await seenEverywhere(workspace, opened, offset)) {
    const result = rename(view.analysis, key, at, newName);
    if (result.kind === 'refused') {
      const where = view.uri === opened.view.uri ? '' : ` (in ${view.key})`;
      throw new ResponseError(LSPErrorCodes.RequestFailed, `${result.why}${where}`);
    }
    written = result.newName;
    if (result.places.some(({ file }) => !workspace.isCurrent(view, file))) throw textChanged();
    places.push(...result.places.map((place) => locate(view, place)).filter((place) => place !== null));
  }
  const byFile = new Map<string, TextEdit[]>();
  for (const { uri, range } of once(places)) byFile.set(uri, [...(byFile.get(uri) ?? []), { range, newText: written }]);
  const documents = [...byFile].map(([uri, edits]) => ({ uri, edits }));
  return documentEdits(documents, workspace, features);
};

/** Registers the handlers. `features` is asked for when it is needed: it is known only after `initialize`. */
export const listenToNames = (
  connection: Connection,
  guard: Guard,
  workspace: Workspace,
  features: () => ClientFeatures,
): void => {
  connection.onDefinition(
    guard.request('Definition', 'position', null, async ({ textDocument, position }) => {
      const opened = await openedIn(workspace, textDocument.uri);
      if (opened === null) return null;
      const { view, key, document } = opened;
      const found = definitionAt(view.analysis, key, offsetOf(document, position));
      const targets = (found?.targets ?? []).map((place) => locate(view, place)).filter((target) => target !== null);
      if (found === null || !features().definitionLinks) return targets;
      return targets.map(({ uri, range }) => ({
        originSelectionRange: rangeOf(document, found.origin),
        targetUri: uri,
        targetRange: range,
        targetSelectionRange: range,
      }));
    }),
  );
  connection.onReferences(
    guard.request('References', 'position', [], async ({ textDocument, position, context }) => {
      const opened = await openedIn(workspace, textDocument.uri);
      if (opened === null) return [];
      const seen = await seenEverywhere(workspace, opened, offsetOf(opened.document, position));
      const places = seen.flatMap(({ view, key, offset }) =>
        occurrences(view.analysis, key, offset)
          .filter(({ definition }) => context.includeDeclaration || !definition)
          .map(({ place }) => locate(view, place)),
      );
      return once(places.filter((place) => place !== null));
    }),
  );
  connection.onDocumentHighlight(
    guard.request('Highlights', 'position', [], async ({ textDocument, position }) => {
      const opened = await openedIn(workspace, textDocument.uri);
      if (opened === null) return [];
      const { view, key, document } = opened;
      return occurrences(view.analysis, key, offsetOf(document, position))
        .filter(({ place }) => place.file === key)
        .map(({ place, definition }) => ({
          range: rangeOf(document, place.span),
          kind: definition ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
        }));
    }),
  );
  connection.onPrepareRename(
    guard.request<PrepareRenameParams, { range: Range; placeholder: string } | null>(
      'Renaming',
      'position',
      null,
      async ({ textDocument, position }) => {
        const opened = await openedIn(workspace, textDocument.uri);
        if (opened === null) return null;
        const target = renameTarget(opened.view.analysis, opened.key, offsetOf(opened.document, position));
        return target === null ? null : { range: rangeOf(opened.document, target.span), placeholder: target.text };
      },
    ),
  );
  connection.onRenameRequest(
    guard.request('Renaming', 'position', null, async ({ textDocument, position, newName }) => {
      if (typeof newName !== 'string') throw new ResponseError(ErrorCodes.InvalidParams, 'newName must be a string.');
      const opened = await openedIn(workspace, textDocument.uri);
      if (opened === null) return null;
      return renameEverywhere(workspace, features(), opened, offsetOf(opened.document, position), newName);
    }),
  );
};
