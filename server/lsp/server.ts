/** The language server: what it offers, and which feature answers which request. */
import { dirname } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  CodeActionKind,
  DidChangeWatchedFilesNotification,
  FileChangeType,
  LSPErrorCodes,
  MarkupKind,
  PositionEncodingKind,
  ResponseError,
  TextDocuments,
  TextDocumentSyncKind,
  type Connection,
  type FileEvent,
  type InitializeParams,
  type InitializeResult,
  type Range,
} from 'vscode-languageserver/node.js';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { complete, wantsFiles } from '../editor/completion';
import { folds } from '../editor/folding';
import { hover } from '../editor/hover';
import { outline } from '../editor/symbols';
import { FolderWatch } from '../host/watch';
import { Project } from '../project/pipeline';
import { completionItem, documentSymbol, flatSymbols, foldingRanges } from './answers';
import { readClientFeatures, type ClientFeatures } from './client-features';
import { listenToFixes } from './code-actions';
import { offsetOf, rangeOf } from './convert';
import { Diagnostics } from './diagnostics';
import { listenToExplain } from './explain-link';
import { listenToExport } from './export-request';
import { pathOfUri } from './folders';
import { formattingEdits } from './formatting';
import { describeFault, Guard, type Log } from './guard';
import { listenToNames } from './naming';
import { listenToPacket } from './packet-request';
import { listenToReport } from './report-request';
import { listenToView } from './view-request';
import { openedIn, Workspace, type View } from './workspace';

const FILE_FILTER = '**/*.cage';

const capabilities = (features: ClientFeatures): InitializeResult['capabilities'] => ({
  positionEncoding: PositionEncodingKind.UTF16,
  textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
  hoverProvider: true,
  // A dot for sides, a blank for what follows a word, a quote and a slash for files; the editor filters as letters are typed.
  completionProvider: { triggerCharacters: ['.', ' ', '"', '/'] },
  definitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  renameProvider: { prepareProvider: true },
  documentSymbolProvider: true,
  documentFormattingProvider: true,
  documentRangeFormattingProvider: true,
  foldingRangeProvider: true,
  codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix], resolveProvider: features.resolveCodeActionEdit },
  workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
  ...(features.pullDiagnostics
    ? { diagnosticProvider: { identifier: 'cagewright', interFileDependencies: true, workspaceDiagnostics: false } }
    : {}),
});

const foldersOf = (params: InitializeParams): string[] => {
  if (params.workspaceFolders) return params.workspaceFolders.map((folder) => folder.uri);
  return typeof params.rootUri === 'string' ? [params.rootUri] : [];
};

export class CageServer {
  private readonly documents = new TextDocuments(TextDocument);
  private readonly log: Log;
  private readonly guard: Guard;
  private features: ClientFeatures = readClientFeatures({ processId: null, rootUri: null, capabilities: {} });
  private readonly workspace: Workspace;
  private diagnostics: Diagnostics;

  constructor(private readonly connection: Connection) {
    this.log = { error: (message) => connection.console.error(message) };
    this.guard = new Guard(this.log);
    const read = async (uri: string): Promise<string | null> => {
      if (!this.features.readFiles) return null;
      const text: unknown = await connection.sendRequest('cagewright/readFile', uri);
      return typeof text === 'string' ? text : null;
    };
    this.workspace = new Workspace(this.documents, () => new Project(), read, this.log);
    this.diagnostics = this.newDiagnostics();
  }

  /** Registers every handler and begins to listen. */
  listen(): void {
    const { connection } = this;
    connection.onInitialize((params) => this.initialize(params));
    connection.onInitialized(() => this.initialized());
    connection.onShutdown(() => this.guard.end());
    this.listenToDocuments();
    this.listenToRequests();
    this.documents.listen(connection);
    connection.listen();
  }

  private newDiagnostics(): Diagnostics {
    const channel = {
      publish: (params: Parameters<Connection['sendDiagnostics']>[0]) => this.connection.sendDiagnostics(params),
      refresh: () => this.connection.languages.diagnostics.refresh(),
      judged: (uri: string) => {
        if (!this.features.view) return;
        this.connection.sendNotification('cagewright/judged', { uri }).catch((fault: unknown) => {
          this.log.error(`Telling that ${uri} was judged failed: ${describeFault(fault)}`);
        });
      },
    };
    return new Diagnostics(this.workspace, this.features, channel, this.log);
  }

  private initialize(params: InitializeParams): InitializeResult | ResponseError<never> {
    const refusal = this.guard.begin();
    if (refusal !== null) return refusal;
    this.features = readClientFeatures(params);
    this.diagnostics = this.newDiagnostics();
    this.workspace.setFolders(foldersOf(params));
    return { capabilities: capabilities(this.features), serverInfo: { name: 'cagewright' } };
  }

  private initialized(): void {
    const { connection, features } = this;
    if (features.watchFiles) {
      const watchers = [{ globPattern: FILE_FILTER }];
      connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }).catch((fault: unknown) => {
        this.log.error(`Files cannot be watched: ${describeFault(fault)}`);
      });
    } else this.watchDisk();
    if (!features.workspaceFolders) return;
    connection.workspace.onDidChangeWorkspaceFolders(
      this.guard.event('Changing folders', ({ added, removed }) => {
        const gone = new Set(removed.map((folder) => folder.uri));
        const kept = this.workspace.folderUris().filter((uri) => !gone.has(uri));
        this.workspace.setFolders([...kept, ...added.map((folder) => folder.uri)]);
        this.diagnostics.changed(this.workspace.openUris(), null);
      }),
    );
  }

  private listenToDocuments(): void {
    this.documents.onDidOpen(
      this.guard.event('Opening', ({ document }) => {
        this.workspace.opened(document.uri);
        this.diagnostics.opened(document.uri);
      }),
    );
    // Comes after an opening too.
    this.documents.onDidChangeContent(
      this.guard.event('A change', ({ document: { uri } }) => {
        this.diagnostics.changed(this.workspace.touched(uri), uri);
      }),
    );
    this.documents.onDidClose(
      this.guard.event('Closing', ({ document: { uri } }) => {
        this.workspace.closed(uri);
        this.diagnostics.closed(uri);
        // What was unsaved is gone: whoever uses the file sees the disk again.
        this.diagnostics.changed(this.workspace.touched(uri), null);
      }),
    );
    this.connection.onDidChangeWatchedFiles(
      this.guard.event('A change on the disk', ({ changes }) => {
        const counts = ({ uri, type }: FileEvent): boolean =>
          type === FileChangeType.Deleted || !this.workspace.isOpen(uri);
        this.changedOnDisk(changes.filter(counts).map(({ uri }) => uri));
      }),
    );
  }

  /** Files came, changed or went. An open document is what the editor says it is, until it is closed. */
  private changedOnDisk(uris: readonly string[]): void {
    const concerned = new Set(uris.flatMap((uri) => this.workspace.touched(uri)));
    if (concerned.size > 0) this.diagnostics.changed([...concerned], null);
  }

  /** For an editor that does not say what changes on the disk: the folders of what is reached are watched. */
  private watchDisk(): void {
    const folders = new FolderWatch((path) => {
      const uri = pathToFileURL(path).href;
      if (path.endsWith('.cage') && !this.workspace.isOpen(uri)) this.changedOnDisk([uri]);
    });
    this.workspace.onReach = () => {
      const paths = [...this.workspace.reached()].map(pathOfUri).filter((path) => path !== null);
      folders.follow(new Set(paths.map((path) => dirname(path))));
    };
  }

  /** Keys of the files that a document may use: those on the disk and those that are open. */
  private async filesBeside({ space }: View): Promise<string[]> {
    const open = this.workspace.openUris().map((uri) => (uri.startsWith('untitled:') ? null : space.keyOf(uri)));
    return [...new Set([...(await space.list()), ...open.filter((key) => key !== null)])].sort();
  }

  private listenToRequests(): void {
    const { connection, guard } = this;
    // An empty list would blink: after a fault the client keeps what it has.
    const failed = new ResponseError(LSPErrorCodes.ServerCancelled, 'Failed', { retriggerRequest: false });
    connection.languages.diagnostics.on(
      guard.request('Problems', 'document', failed, async ({ textDocument, previousResultId }) =>
        this.diagnostics.answer(textDocument.uri, previousResultId),
      ),
    );
    connection.onHover(
      guard.request('Hover', 'position', null, async ({ textDocument, position }) => {
        const opened = await openedIn(this.workspace, textDocument.uri);
        if (opened === null) return null;
        const { view, key, document } = opened;
        const said = hover(view.analysis, key, offsetOf(document, position));
        if (said === null) return null;
        const kind = this.features.markdownHover ? MarkupKind.Markdown : MarkupKind.PlainText;
        return { contents: { kind, value: said.markdown }, range: rangeOf(document, said.span) };
      }),
    );
    connection.onCompletion(
      guard.request('Completion', 'position', [], async ({ textDocument, position }) => {
        // The document's own analysis: only what it can see may be written in it.
        const view = await this.workspace.view(textDocument.uri);
        const document = view?.document(view.key) ?? null;
        if (view === null || document === null) return [];
        const offset = offsetOf(document, position);
        const files = wantsFiles(document.getText(), offset) ? await this.filesBeside(view) : [];
        return complete(view.analysis, view.key, offset, files).map((completion, index) =>
          completionItem(document, completion, index, this.features),
        );
      }),
    );
    connection.onDocumentSymbol(
      guard.request('Outline', 'document', [], async ({ textDocument }) => {
        const opened = await openedIn(this.workspace, textDocument.uri);
        if (opened === null) return [];
        const symbols = outline(opened.view.analysis, opened.key);
        return this.features.hierarchicalSymbols
          ? symbols.map((symbol) => documentSymbol(opened.document, symbol))
          : flatSymbols(opened.document, symbols);
      }),
    );
    connection.onFoldingRanges(
      guard.request('Folding', 'document', [], async ({ textDocument }) => {
        const opened = await openedIn(this.workspace, textDocument.uri);
        const tree = opened?.view.analysis.trees.get(opened.key);
        return opened === null || tree === undefined ? [] : foldingRanges(opened.document, folds(tree));
      }),
    );
    listenToNames(connection, guard, this.workspace, () => this.features);
    listenToFixes(connection, guard, this.workspace, () => this.features);
    listenToExplain(connection, guard, this.workspace);
    listenToReport(connection, guard, this.workspace);
    listenToPacket(connection, guard, this.workspace);
    listenToView(connection, guard, this.workspace);
    listenToExport(connection, guard, this.workspace);
    this.listenToEdits();
  }

  private listenToEdits(): void {
    const { connection, guard } = this;
    connection.onDocumentFormatting(
      guard.request('Formatting', 'document', [], async ({ textDocument }) => this.format(textDocument.uri, null)),
    );
    connection.onDocumentRangeFormatting(
      guard.request('Formatting', 'range', [], async ({ textDocument, range }) => this.format(textDocument.uri, range)),
    );
  }

  private async format(uri: string, range: Range | null): Promise<{ range: Range; newText: string }[]> {
    const view = await this.workspace.view(uri);
    const document = view?.document(view.key) ?? null;
    return document === null ? [] : formattingEdits(document, range);
  }
}

/** Starts the server on a connection. */
export const startServer = (connection: Connection): void => {
  // On a fault that nobody caught: tell and go on; the next change starts afresh.
  process.on('unhandledRejection', (fault) => connection.console.error(`Unhandled: ${describeFault(fault)}`));
  new CageServer(connection).listen();
};
