/** The bundled program as a process: a reader that goes away, a closed input, the language server. */
import { spawn } from 'node:child_process';
import { chmod, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { World } from './world';
import { GOOD, UNVENTED, world } from './world';

let folder: string;
let program: string;
let w: World;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'cage-cli-'));
  program = join(folder, 'cli.js');
  await build({
    entryPoints: [join(__dirname, '../../server/cli/main.ts')],
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    logLevel: 'error',
  });
  w = await world({ 'good.cage': GOOD, 'bore.cage': UNVENTED });
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
  await w.remove();
});

interface Ended {
  readonly stdout: string;
  readonly stderr: string;
  readonly code: number | null;
}

/** Runs a shell line in the world's folder, with $CLI the program. */
const shell = (line: string): Promise<Ended> =>
  new Promise((done) => {
    const child = spawn('sh', ['-c', line], {
      cwd: w.cwd,
      env: { ...process.env, CLI: `"${process.execPath}" "${program}"` },
    });
    let stdout = '';
    let stderr = '';
    child.stdout.on('data', (chunk: Buffer) => (stdout += chunk.toString('utf8')));
    child.stderr.on('data', (chunk: Buffer) => (stderr += chunk.toString('utf8')));
    child.on('close', (code) => done({ stdout, stderr, code }));
  });

describe('the program', () => {
  it('checks a file and ends as it should', async () => {
    expect(await shell('eval $CLI check good.cage')).toEqual({ stdout: 'No findings.\n', stderr: '', code: 0 });
    expect((await shell('eval $CLI check bore.cage --fail-on warning')).code).toBe(1);
    expect((await shell('eval $CLI check none.cage')).code).toBe(2);
    expect((await shell('eval $CLI')).code).toBe(2);
  });

  it('reads a pipe, and an input that is closed', async () => {
    const piped = await shell('cat bore.cage | eval $CLI check - --name x.cage');
    expect(piped.stdout).toMatch(/^x\.cage:12:6: warning/);
    const closed = await shell('eval $CLI check - <&-');
    expect(closed).toMatchObject({ stdout: 'No findings.\n', stderr: '', code: 0 });
  });

  it('writes a file whole or not at all, also where there is no room for it', async () => {
    // A limit on the size of files stops a write in its middle, as a full disk does (POSIX, setrlimit: RLIMIT_FSIZE).
    const text = `${GOOD}\nmirror left {\n${Array.from({ length: 200 }, (_, i) => `node n${String(i)} = (0, ${String(i + 1)}, 0)\n`).join('')}}\n`;
    await writeFile(join(w.cwd, 'large.cage'), text);
    const laidOut = await shell('ulimit -f 1; eval $CLI format large.cage');
    expect(laidOut).toMatchObject({ stdout: '', stderr: 'cagewright: large.cage: it cannot be written\n', code: 2 });
    expect(await readFile(join(w.cwd, 'large.cage'), 'utf8')).toBe(text);
    expect((await shell('ulimit -f 1; eval $CLI draw good.cage --view side --out large.svg')).code).toBe(2);
    expect((await readdir(w.cwd)).filter((name) => name.includes('.tmp') || name === 'large.svg')).toEqual([]);
    await chmod(join(w.cwd, 'large.cage'), 0o640);
    expect((await shell('eval $CLI format large.cage')).code).toBe(0);
    expect(await readFile(join(w.cwd, 'large.cage'), 'utf8')).toContain('  node n199 = (0, 200, 0)\n');
    expect((await stat(join(w.cwd, 'large.cage'))).mode & 0o777).toBe(0o640);
  });

  it('says nothing when its reader goes away', async () => {
    const { stderr, stdout } = await shell('eval $CLI describe good.cage --format json | head -c 1');
    expect(stdout).toBe('{');
    expect(stderr).toBe('');
    const shut = await shell('eval $CLI describe good.cage >&-');
    expect(shut.stderr).not.toMatch(/\bat .*:\d+:\d+/);
  });

  it('prints all of a long answer into a pipe', async () => {
    const { stdout } = await shell('eval $CLI describe good.cage --format json | cat');
    expect(() => JSON.parse(stdout) as unknown).not.toThrow();
    expect(stdout.length).toBeGreaterThan(20_000);
  });

  it('is the language server too', async () => {
    const child = spawn(process.execPath, [program, 'lsp', '--stdio'], { cwd: w.cwd });
    const send = (message: unknown): void => {
      const body = JSON.stringify(message);
      child.stdin.write(`Content-Length: ${String(Buffer.byteLength(body))}\r\n\r\n${body}`);
    };
    const answer = new Promise<string>((done) => {
      let text = '';
      child.stdout.on('data', (chunk: Buffer) => {
        text += chunk.toString('utf8');
        if (text.includes('"id":1')) done(text);
      });
    });
    const ended = new Promise<number | null>((done) => child.on('close', done));
    send({ jsonrpc: '2.0', id: 1, method: 'initialize', params: { processId: null, rootUri: null, capabilities: {} } });
    expect(await answer).toContain('"capabilities"');
    send({ jsonrpc: '2.0', method: 'initialized', params: {} });
    send({ jsonrpc: '2.0', id: 2, method: 'shutdown' });
    send({ jsonrpc: '2.0', method: 'exit' });
    expect(await ended).toBe(0);
  });
});
