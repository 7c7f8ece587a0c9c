/** A language server as a process over stdio, seen from a client that only measures. */
import { spawn } from 'node:child_process';
import { performance } from 'node:perf_hooks';
import {
  createMessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type MessageConnection,
} from 'vscode-jsonrpc/node.js';

export interface Peer {
  readonly connection: MessageConnection;
  readonly stderr: () => string;
  readonly pid: number;
  readonly stop: () => Promise<void>;
}

/** Starts `node ARGS` and initialises it; `pull` says that the client asks for diagnostics. */
export async function startPeer(args: readonly string[], pull: boolean): Promise<Peer> {
  const child = spawn(process.execPath, [...args], { stdio: ['pipe', 'pipe', 'pipe'] });
  let stderr = '';
  child.stderr.on('data', (data: Buffer) => {
    stderr += data.toString();
  });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  connection.onRequest('workspace/configuration', (params: { items: unknown[] }) => params.items.map(() => null));
  connection.onRequest('client/registerCapability', () => null);
  connection.onRequest('window/workDoneProgress/create', () => null);
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: null,
    capabilities: {
      textDocument: {
        synchronization: { dynamicRegistration: false },
        publishDiagnostics: { versionSupport: true },
        ...(pull ? { diagnostic: { dynamicRegistration: false } } : {}),
      },
      workspace: { configuration: false },
    },
  });
  await connection.sendNotification('initialized', {});
  return {
    connection,
    stderr: () => stderr,
    pid: child.pid ?? 0,
    stop: async () => {
      const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
      await connection.sendRequest('shutdown').catch(() => undefined);
      await connection.sendNotification('exit').catch(() => undefined);
      const timer = setTimeout(() => child.kill('SIGKILL'), 3000);
      await gone;
      clearTimeout(timer);
      connection.dispose();
    },
  };
}

export const median = (values: readonly number[]): number => quantile(values, 0.5);
export const quantile = (values: readonly number[], q: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? Number.NaN;
};

/** Milliseconds that `work` takes. */
export async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}
