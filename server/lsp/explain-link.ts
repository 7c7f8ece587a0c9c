/**
 * The link behind a finding's code. It leads to a page that the server writes when somebody opens it, so it works without
 * a network, and knows the car's own rulebooks. Only an editor that says under which scheme it asks for pages gets links.
 */
import type { CodeDescription, Connection } from 'vscode-languageserver/node.js';
import { explainCode } from '../editor/explain';
import type { Guard } from './guard';
import type { Workspace } from './workspace';

/** What an editor asks for a page with. */
interface PageParams {
  readonly code: string;
  /** The document by whose car the finding was made; empty: none. */
  readonly uri: string;
}

const isPageParams = (params: unknown): params is PageParams =>
  typeof params === 'object' &&
  params !== null &&
  'code' in params &&
  'uri' in params &&
  typeof params.code === 'string' &&
  typeof params.uri === 'string';

/** `SCHEME:/strap.drop.md?file%3A%2F%2F…`: the code, and the document that is judged. */
export const explainLink = (scheme: string, code: string, uri: string): CodeDescription => ({
  href: `${scheme}:/${code}.md?${encodeURIComponent(uri)}`,
});

/** Answers `cagewright/explain` with a page in Markdown; null where there is no such code. */
export const listenToExplain = (connection: Connection, guard: Guard, workspace: Workspace): void => {
  connection.onRequest(
    'cagewright/explain',
    guard.request('Explaining', 'nothing', null, async (params: unknown): Promise<string | null> => {
      if (!isPageParams(params)) return null;
      const view = params.uri === '' ? null : await workspace.view(params.uri);
      return explainCode(params.code, view?.analysis ?? null);
    }),
  );
};
