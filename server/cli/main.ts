/** The program: the only place that touches the process. */
import { readFileSync } from 'node:fs';
import { complaint, visible } from './io';
import { nodeIo } from './node-io';
import { run } from './run';

/** The version stands in one place, the package. */
function version(): string {
  try {
    const data: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
    if (typeof data === 'object' && data !== null && 'version' in data) return String(data.version);
  } catch {
    // Moved away from its package: it still works.
  }
  return 'unknown';
}

/** Writes all of a text, waiting for a slow reader; a reader that has gone away ends it quietly, a full disk does not. */
const write = (stream: NodeJS.WriteStream, text: string): Promise<void> =>
  new Promise((done) => {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') {
        process.exitCode = 2;
        if (stream === process.stdout) process.stderr.write(complaint('the output cannot be written'));
      }
      done();
    });
    if (text === '') done();
    else stream.write(text, () => done());
  });

const crash = (error: unknown): void => {
  const why = error instanceof Error ? error.message : String(error);
  process.stderr.write(complaint(`this should not have happened: ${why}`));
  process.exitCode = 2;
};

const io = nodeIo({
  cwd: process.cwd(),
  stdin: process.stdin,
  version: version(),
  ...(process.stderr.isTTY
    ? {
        // Back to the line's beginning, and what stood there is wiped (ECMA-48: EL).
        progress: (line: string) => {
          process.stderr.write(`\r\u001b[K${visible(line)}`);
        },
      }
    : {}),
  serve: async () => {
    // The server's own program, loaded only here: it finds `--stdio` among the arguments of the process.
    await import('../lsp/main');
  },
});

process.on('uncaughtException', crash);
run(process.argv.slice(2), io)
  .then(async ({ stdout, stderr, exit }) => {
    process.exitCode = exit;
    await write(process.stdout, stdout);
    await write(process.stderr, stderr);
  })
  .catch(crash);
