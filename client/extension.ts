/** The extension: starts the language server and says how it is. Everything it knows of cages it knows from the server. */
import {
  commands,
  ExtensionMode,
  languages,
  LanguageStatusSeverity,
  Uri,
  window,
  workspace,
  type ExtensionContext,
  type LanguageStatusItem,
} from 'vscode';
import {
  CloseAction,
  ErrorAction,
  LanguageClient,
  State,
  TransportKind,
  type LanguageClientOptions,
  type ServerOptions,
} from 'vscode-languageclient/node';
import { writePacket } from './packet';
import { writeReport } from './report';
import { watchPanels } from './view/panels';

const LANGUAGE = 'cage';
/** The pages behind the codes of findings: the server writes them. */
const EXPLAIN = 'cagewright-explain';
/** Large files of other file systems are not brought over: no cage file is that large. */
const LARGEST_FILE = 16 * 1024 * 1024;
/** The server starts again after a fall, but not for ever. */
const MOST_RESTARTS = 4;
const RESTART_WINDOW_MS = 3 * 60 * 1000;

/** A token that is never cancelled: see `provideDiagnostics` below. */
const NEVER = { isCancellationRequested: false, onCancellationRequested: () => ({ dispose: () => undefined }) };

const showState = (item: LanguageStatusItem, severity: LanguageStatusSeverity, text: string, busy: boolean): void => {
  item.severity = severity;
  item.text = text;
  item.busy = busy;
};

/** Reads a file for the server where only the editor can (a repository in a browser, a remote archive). */
const readFile = async (uri: string): Promise<string | null> => {
  try {
    const target = Uri.parse(uri, true);
    if (workspace.getWorkspaceFolder(target) === undefined) return null;
    if ((await workspace.fs.stat(target)).size > LARGEST_FILE) return null;
    return new TextDecoder('utf-8').decode(await workspace.fs.readFile(target));
  } catch {
    return null;
  }
};

const makeClient = (context: ExtensionContext, status: LanguageStatusItem): LanguageClient => {
  const module = context.asAbsolutePath('server/dist/server.js');
  const run = { module, transport: TransportKind.ipc };
  const debug = { ...run, options: { execArgv: ['--nolazy', '--inspect=6017'] } };
  const server: ServerOptions = context.extensionMode === ExtensionMode.Development ? { run, debug } : run;
  const falls: number[] = [];
  const options: LanguageClientOptions = {
    // By language and not by file system: untitled documents are judged like any other.
    documentSelector: [{ language: LANGUAGE }],
    initializationOptions: { readFiles: true, explainScheme: EXPLAIN, view: true },
    markdown: { isTrusted: false, supportHtml: false },
    middleware: {
      // A cancelled request would empty the list until the next answer comes: problems would blink while typing.
      // The server always answers for the newest text, so there is nothing to cancel.
      provideDiagnostics: (document, previousResultId, _token, next) => next(document, previousResultId, NEVER),
    },
    errorHandler: {
      error: () => ({ action: ErrorAction.Continue }),
      closed: () => {
        const now = Date.now();
        falls.push(now);
        const recent = falls.filter((at) => now - at < RESTART_WINDOW_MS);
        if (recent.length <= MOST_RESTARTS) return { action: CloseAction.Restart };
        const reason = `The language server stopped ${String(recent.length)} times in 3 minutes.`;
        showState(status, LanguageStatusSeverity.Error, `${reason} Use the restart command.`, false);
        return { action: CloseAction.DoNotRestart, message: `${reason} See the output “Cagewright”.` };
      },
    },
  };
  const client = new LanguageClient('cagewright', 'Cagewright', server, options);
  client.onRequest('cagewright/readFile', readFile);
  client.onDidChangeState(({ newState }) => {
    if (newState === State.Running) showState(status, LanguageStatusSeverity.Information, 'Cagewright', false);
    if (newState === State.Starting)
      showState(status, LanguageStatusSeverity.Information, 'Cagewright is starting', true);
    if (newState === State.Stopped)
      showState(status, LanguageStatusSeverity.Warning, 'Cagewright is not running', false);
  });
  return client;
};

/** The page that a finding's link leads to: the code is its path, the judged document its query. */
const explainPage = async (asked: LanguageClient, { path, query }: Uri): Promise<string> => {
  const code = path.replace(/^\//, '').replace(/\.md$/, '');
  const page = await asked.sendRequest<string | null>('cagewright/explain', { code, uri: query });
  return page ?? `There is no finding ${code}.\n`;
};

const reasonOf = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));

let client: LanguageClient | null = null;

export const activate = async (context: ExtensionContext): Promise<void> => {
  const status = languages.createLanguageStatusItem('cagewright.status', { language: LANGUAGE });
  status.name = 'Cagewright';
  status.command = { title: 'Show output', command: 'cagewright.showOutput' };
  const running = makeClient(context, status);
  client = running;

  const start = async (work: () => Promise<void>): Promise<void> => {
    try {
      await work();
    } catch (fault) {
      const reason = reasonOf(fault);
      showState(status, LanguageStatusSeverity.Error, `Cagewright did not start: ${reason}`, false);
      void window.showErrorMessage(`The Cagewright language server did not start: ${reason}`);
    }
  };

  const { version: told } = context.extension.packageJSON as { readonly version?: unknown };
  const version = typeof told === 'string' ? told : '';

  context.subscriptions.push(
    status,
    workspace.registerTextDocumentContentProvider(EXPLAIN, {
      provideTextDocumentContent: (uri) => explainPage(running, uri),
    }),
    commands.registerCommand('cagewright.restartServer', () =>
      start(() => (running.isRunning() ? running.restart() : running.start())),
    ),
    commands.registerCommand('cagewright.showOutput', () => {
      running.outputChannel.show(true);
    }),
    watchPanels({ client: running, language: LANGUAGE, home: context.extensionUri, version }),
    commands.registerCommand('cagewright.report', async () => {
      try {
        await writeReport(running, LANGUAGE, version);
      } catch (fault) {
        void window.showErrorMessage(`The report could not be written: ${reasonOf(fault)}`);
      }
    }),
    commands.registerCommand('cagewright.packet', async () => {
      try {
        await writePacket(running, LANGUAGE, version);
      } catch (fault) {
        void window.showErrorMessage(`The shop papers could not be written: ${reasonOf(fault)}`);
      }
    }),
    commands.registerCommand('cagewright.newFile', async () => {
      const content = 'cage "New car"\nunits mm\n\n';
      await window.showTextDocument(await workspace.openTextDocument({ language: LANGUAGE, content }));
    }),
  );
  await start(() => running.start());
};

export const deactivate = async (): Promise<void> => {
  const stopping = client;
  client = null;
  await stopping?.dispose();
};
