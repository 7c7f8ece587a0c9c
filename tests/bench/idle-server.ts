/** The floor of the typing benchmark: a server on the same library that takes the edits and answers with nothing. */
import {
  createConnection,
  DocumentDiagnosticReportKind,
  ProposedFeatures,
  TextDocuments,
  TextDocumentSyncKind,
} from 'vscode-languageserver/node.js';
import { TextDocument } from 'vscode-languageserver-textdocument';

const connection = createConnection(ProposedFeatures.all, process.stdin, process.stdout);
const documents = new TextDocuments(TextDocument);
connection.onInitialize(() => ({
  capabilities: {
    textDocumentSync: TextDocumentSyncKind.Incremental,
    diagnosticProvider: { interFileDependencies: false, workspaceDiagnostics: false },
  },
}));
connection.languages.diagnostics.on(() => ({ kind: DocumentDiagnosticReportKind.Full, items: [] }));
documents.listen(connection);
connection.listen();
