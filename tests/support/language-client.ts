/** A small client of the built language server: a real process, spoken to over standard input and output. */
import { spawn, type ChildProcess } from 'node:child_process';
import { fileURLToPath, pathToFileURL } from 'node:url';
import {
  createProtocolConnection,
  DidChangeTextDocumentNotification,
  DidCloseTextDocumentNotification,
  DidOpenTextDocumentNotification,
  ExitNotification,
  InitializedNotification,
  InitializeRequest,
  LogMessageNotification,
  PublishDiagnosticsNotification,
  RegistrationRequest,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
  type ClientCapabilities,
  type Diagnostic,
  type InitializeResult,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type Range,
} from 'vscode-languageserver/node.js';

export const SERVER = fileURLToPath(new URL('../../server/dist/server.js', import.meta.url));

const CAPABILITIES: ClientCapabilities = {
  textDocument: {
    publishDiagnostics: { relatedInformation: true, versionSupport: true },
    hover: { contentFormat: ['markdown'] },
    completion: { completionItem: { snippetSupport: true, labelDetailsSupport: true } },
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } },
      dataSupport: true,
      resolveSupport: { properties: ['edit'] },
    },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    rename: { prepareSupport: true },
  },
  workspace: {
    workspaceEdit: { documentChanges: true },
    workspaceFolders: true,
    didChangeWatchedFiles: { dynamicRegistration: true },
  },
};

/** The same client, but one that asks for problems instead of being sent them. */
export const ASKING: ClientCapabilities = {
  ...CAPABILITIES,
  textDocument: { ...CAPABILITIES.textDocument, diagnostic: {} },
  workspace: { ...CAPABILITIES.workspace, diagnostics: { refreshSupport: true } },
};

interface Waiting {
  readonly wanted: (params: PublishDiagnosticsParams) => boolean;
  readonly done: (params: PublishDiagnosticsParams) => void;
}

export class TestClient {
  readonly process: ChildProcess;
  readonly connection: ProtocolConnection;
  readonly published: PublishDiagnosticsParams[] = [];
  readonly log: string[] = [];
  result: InitializeResult | null = null;
  private readonly waiting: Waiting[] = [];
  private readonly versions = new Map<string, number>();

  private constructor(command: readonly string[]) {
    const [program = process.execPath, ...args] = command;
    this.process = spawn(program, args, { stdio: ['pipe', 'pipe', 'inherit'] });
    const { stdin, stdout } = this.process;
    if (stdin === null || stdout === null) throw new Error('The server has no standard input or output.');
    this.connection = createProtocolConnection(new StreamMessageReader(stdout), new StreamMessageWriter(stdin));
    this.connection.onNotification(PublishDiagnosticsNotification.type, (params) => {
      this.published.push(params);
      for (const waiting of [...this.waiting]) {
        if (!waiting.wanted(params)) continue;
        this.waiting.splice(this.waiting.indexOf(waiting), 1);
        waiting.done(params);
      }
    });
    this.connection.onRequest(RegistrationRequest.type, () => undefined);
    this.connection.onNotification(LogMessageNotification.type, ({ message }) => this.log.push(message));
    this.connection.listen();
  }

  /** Starts a server without shaking hands. */
  static raw(command: readonly string[] = [process.execPath, SERVER, '--stdio']): TestClient {
    return new TestClient(command);
  }

  /**
   * Starts a server and shakes hands.
   * @param folders absolute paths of the workspace folders
   */
  static async start(
    folders: readonly string[] = [],
    capabilities: ClientCapabilities = CAPABILITIES,
    command: readonly string[] = [process.execPath, SERVER, '--stdio'],
  ): Promise<TestClient> {
    const client = TestClient.raw(command);
    await client.shakeHands(folders, capabilities);
    return client;
  }

  async shakeHands(
    folders: readonly string[] = [],
    capabilities: ClientCapabilities = CAPABILITIES,
    processId: number = process.pid,
    initializationOptions: unknown = undefined,
  ): Promise<void> {
    this.result = await this.connection.sendRequest(InitializeRequest.type, {
      processId,
      rootUri: null,
      capabilities,
      initializationOptions,
      workspaceFolders: folders.map((folder) => ({ uri: pathToFileURL(folder).href, name: folder })),
    });
    await this.connection.sendNotification(InitializedNotification.type, {});
  }

  /** Opens a document and waits for its problems. */
  async open(uri: string, text: string): Promise<Diagnostic[]> {
    const next = this.next(uri, 1);
    await this.openOnly(uri, text);
    return (await next).diagnostics;
  }

  /** Opens a document without waiting. */
  async openOnly(uri: string, text: string): Promise<void> {
    this.versions.set(uri, 1);
    await this.connection.sendNotification(DidOpenTextDocumentNotification.type, {
      textDocument: { uri, languageId: 'cage', version: 1, text },
    });
  }

  /** Changes a range (the whole text without one) without waiting; the new version. */
  async changeOnly(uri: string, text: string, range?: Range): Promise<number> {
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    await this.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri, version },
      contentChanges: [range === undefined ? { text } : { range, text }],
    });
    return version;
  }

  /** Changes a document and waits for the problems of that version. */
  async change(uri: string, text: string, range?: Range): Promise<Diagnostic[]> {
    const next = this.next(uri, (this.versions.get(uri) ?? 0) + 1);
    await this.changeOnly(uri, text, range);
    return (await next).diagnostics;
  }

  /** The version of a document that was sent last. */
  versionOf(uri: string): number {
    return this.versions.get(uri) ?? 0;
  }

  async close(uri: string): Promise<void> {
    await this.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri } });
  }

  /** The next problems sent for a document, of a version or newer where one is asked for. */
  next(uri: string, version = 0): Promise<PublishDiagnosticsParams> {
    return new Promise((done) => {
      this.waiting.push({ wanted: (params) => params.uri === uri && (params.version ?? version) >= version, done });
    });
  }

  /** Shuts the server down; its exit status. */
  async stop(): Promise<number | null> {
    const ended = new Promise<number | null>((done) => this.process.once('exit', (code) => done(code)));
    await this.connection.sendRequest(ShutdownRequest.type);
    await this.connection.sendNotification(ExitNotification.type);
    return ended;
  }
}
