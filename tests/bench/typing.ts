/** Keystroke to diagnostics, through real servers over stdio. */
import { performance } from 'node:perf_hooks';
import { editTarget, generateCar, generateYaml, YAML_SCHEMA } from './generate';
import { median, quantile, startPeer, timed, type Peer } from './peer';

export interface TypingRow {
  readonly server: string;
  readonly lines: number;
  readonly edits: number;
  readonly median: number;
  readonly p95: number;
  readonly coldStart: number;
}

const positionAt = (text: string, offset: number): { line: number; character: number } => {
  const before = text.slice(0, offset);
  const line = before.split('\n').length - 1;
  return { line, character: offset - (before.lastIndexOf('\n') + 1) };
};

/** Edits the last digit of a number back and forth: each keystroke changes the model. */
async function pullTyping(peer: Peer, uri: string, text: string, edits: number, module: number): Promise<number[]> {
  const target = editTarget(text, module);
  const at = positionAt(text, target.end - 1);
  const range = { start: at, end: { line: at.line, character: at.character + 1 } };
  const times: number[] = [];
  for (let version = 2; version < edits + 2; version += 1) {
    const start = performance.now();
    void peer.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range, text: String(version % 10) }],
    });
    await peer.connection.sendRequest('textDocument/diagnostic', { textDocument: { uri } });
    times.push(performance.now() - start);
  }
  return times;
}

/** A server that is asked for diagnostics: ours, and the one that does nothing. */
export async function measurePull(
  name: string,
  args: readonly string[],
  lines: number,
  edits: number,
): Promise<TypingRow> {
  const text = generateCar(lines);
  const uri = 'untitled:bench.cage';
  let peer: Peer | undefined;
  const coldStart = await timed(async () => {
    peer = await startPeer(args, true);
    await peer.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'cage', version: 1, text },
    });
    await peer.connection.sendRequest('textDocument/diagnostic', { textDocument: { uri } });
  });
  if (peer === undefined) throw new Error('the server did not start');
  await pullTyping(peer, uri, text, 20, 0);
  const times = await pullTyping(peer, uri, text, edits, 0);
  await peer.stop();
  return { server: name, lines, edits, median: median(times), p95: quantile(times, 0.95), coldStart };
}

/** The YAML server publishes by itself, after a delay of its own; each edit makes or mends one schema error. */
export async function measureYaml(args: readonly string[], lines: number, edits: number): Promise<TypingRow> {
  const text = generateYaml(lines);
  const uri = 'file:///bench.yaml';
  const waiting: (() => void)[] = [];
  const published = (): Promise<void> => new Promise((resolve) => waiting.push(resolve));
  let peer: Peer | undefined;
  const coldStart = await timed(async () => {
    peer = await startPeer(args, false);
    peer.connection.onNotification('textDocument/publishDiagnostics', () => waiting.shift()?.());
    await peer.connection.sendNotification('workspace/didChangeConfiguration', {
      settings: { yaml: { validate: true, schemaStore: { enable: false }, maxItemsComputed: 1 } },
    });
    await peer.connection.sendNotification('yaml/registerContentRequest');
    await peer.connection.sendNotification('json/schemaAssociations', {});
    await peer.connection.sendRequest('json/schema/modify', {}).catch(() => undefined);
    const first = published();
    await peer.connection.sendNotification('textDocument/didOpen', {
      textDocument: {
        uri,
        languageId: 'yaml',
        version: 1,
        text: `# yaml-language-server: $schema=${schemaUri()}\n${text}`,
      },
    });
    await first;
  });
  if (peer === undefined) throw new Error('the server did not start');
  const times: number[] = [];
  const range = { start: { line: 4, character: 8 }, end: { line: 4, character: 9 } };
  for (let version = 2; version < edits + 2; version += 1) {
    const next = published();
    const start = performance.now();
    void peer.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range, text: version % 2 === 0 ? 'x' : '3' }],
    });
    await next;
    times.push(performance.now() - start);
  }
  await peer.stop();
  return { server: 'YAML with a schema', lines, edits, median: median(times), p95: quantile(times, 0.95), coldStart };
}

let schemaPath = '';
/** Where the schema file stands; set by the runner, which may write. */
export const useSchema = (path: string): void => {
  schemaPath = path;
};
const schemaUri = (): string => `file://${schemaPath}`;
export const schemaText = (): string => JSON.stringify(YAML_SCHEMA);
