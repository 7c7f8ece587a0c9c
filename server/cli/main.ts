/** The program: the only place that touches the process. */
import { readFileSync } from 'node:fs';
import { realpath, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { decodeText, nodeHost } from '../host/node';
import type { Io } from './io';
import { complaint } from './io';
import { run } from './run';

/** Why a file could not be written, in words. */
const reason = (error: unknown): string => {
  const code = typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
  if (code === 'EACCES' || code === 'EPERM') return 'it may not be written';
  if (code === 'ENOSPC') return 'the disk is full';
  if (code === 'EROFS') return 'the disk is read-only';
  return 'it cannot be written';
};

const quiet = async <T>(promise: Promise<T>, otherwise: T): Promise<T> => {
  try {
    return await promise;
  } catch {
    return otherwise;
  }
};

async function readStdin(): Promise<string> {
  const chunks: Uint8Array[] = [];
  try {
    for await (const chunk of process.stdin) {
      if (chunk instanceof Uint8Array) chunks.push(chunk);
    }
  } catch {
    // A closed or broken standard input has no more to give than what came.
  }
  return decodeText(Buffer.concat(chunks));
}

/** The version stands in one place, the package. */
function version(): string {
  try {
    const data: unknown = JSON.parse(readFileSync(join(__dirname, '../../package.json'), 'utf8'));
    if (typeof data === 'object' && data !== null && 'version' in data) return String(data.version);
  } catch {
    // Moved away from its package: it still works.
  }
  return 'unknown';
}

const io: Io = {
  cwd: process.cwd(),
  realPath: (path) => quiet<string | null>(realpath(path), null),
  isFolder: (path) =>
    quiet(
      stat(path).then((found) => found.isDirectory()),
      false,
    ),
  hostOf: (root, overlay) => nodeHost({ root, overlay }),
  readStdin,
  writeText: async (path, text) => {
    try {
      await writeFile(path, text, 'utf8');
      return null;
    } catch (error) {
      return reason(error);
    }
  },
  serve: async () => {
    // Loaded only here: the other commands start without it.
    const { createConnection, ProposedFeatures } = await import('vscode-languageserver/node.js');
    const { startServer } = await import('../lsp/server');
    startServer(createConnection(ProposedFeatures.all, process.stdin, process.stdout));
  },
  version: version(),
};

/** Writes all of a text, waiting for a slow reader; a reader that has gone away ends it quietly. */
const write = (stream: NodeJS.WriteStream, text: string): Promise<void> =>
  new Promise((done) => {
    stream.on('error', () => done());
    if (text === '') done();
    else stream.write(text, () => done());
  });

const crash = (error: unknown): void => {
  const why = error instanceof Error ? error.message : String(error);
  process.stderr.write(complaint(`this should not have happened: ${why}`));
  process.exitCode = 2;
};

process.on('uncaughtException', crash);
run(process.argv.slice(2), io)
  .then(async ({ stdout, stderr, exit }) => {
    process.exitCode = exit;
    await write(process.stdout, stdout);
    await write(process.stderr, stderr);
  })
  .catch(crash);
