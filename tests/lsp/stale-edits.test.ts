/**
 * Edits that were worked out while the text changed. The protocol's `OptionalVersionedTextDocumentIdentifier` says for which
 * version an edit is meant (3.17): places of an older text under the newer version would be written into the wrong line.
 */
import { describe, expect, it } from 'vitest';
import { LSPErrorCodes, ResponseError } from 'vscode-languageserver/node.js';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { workspaceEdit } from '../../server/lsp/answers';
import { readClientFeatures } from '../../server/lsp/client-features';
import { Workspace, type View } from '../../server/lsp/workspace';
import { Project } from '../../server/project/pipeline';

const URI = 'untitled:car';
const TEXT = 'cage "Car"\nunits mm\nnode a = (0, 0, 10)\n';
const features = readClientFeatures({
  processId: null,
  rootUri: null,
  capabilities: { workspace: { workspaceEdit: { documentChanges: true } } },
});

const opened = async (): Promise<{ document: TextDocument; workspace: Workspace; view: View }> => {
  const document = TextDocument.create(URI, 'cage', 1, TEXT);
  const documents = { get: (uri: string) => (uri === URI ? document : undefined), all: () => [document] };
  const workspace = new Workspace(
    documents,
    () => new Project(),
    () => Promise.resolve(null),
    { error: (message) => expect.fail(message) },
  );
  workspace.opened(URI);
  const view = await workspace.view(URI);
  return view === null ? expect.fail('no analysis') : { document, workspace, view };
};

/** The number of node a. */
const start = TEXT.indexOf('10');
const edits = [{ file: URI, span: { start, end: start + 2 }, newText: '20' }];

describe('edits of an analysis', () => {
  it('carry the version of the text that was analysed', async () => {
    const { workspace, view } = await opened();
    expect(workspaceEdit(view, edits, workspace, features)).toEqual({
      documentChanges: [
        {
          textDocument: { uri: URI, version: 1 },
          edits: [{ range: { start: { line: 2, character: 16 }, end: { line: 2, character: 18 } }, newText: '20' }],
        },
      ],
    });
  });

  it('are refused once a line has come in above, whatever its version says', async () => {
    for (const version of [1, 2]) {
      const { document, workspace, view } = await opened();
      const top = { line: 0, character: 0 };
      TextDocument.update(document, [{ range: { start: top, end: top }, text: '# new\n' }], version);
      let fault: unknown = null;
      try {
        workspaceEdit(view, edits, workspace, features);
      } catch (thrown) {
        fault = thrown;
      }
      expect(fault).toBeInstanceOf(ResponseError);
      expect(fault).toMatchObject({ code: LSPErrorCodes.ContentModified });
    }
  });
});
