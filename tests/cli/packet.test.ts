/** `packet` on a disk: all papers or none, nothing of others written over, no half file when it is broken off. */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { chmod, mkdir, readdir, readFile, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { isPacketPaper } from '../../server/papers/packet/marks';
import { MARK } from '../../server/papers/page';
import { writeFolder } from '../../server/host/write-folder';
import type { World } from './world';
import { BROKEN, GOOD, world } from './world';

const SAMPLE = join(__dirname, '../../samples/plover-rollbar.cage');
const NOT_OURS = 'it is there already and was not made by cagewright: --force writes over it';

let w: World;
afterEach(() => w.remove());

/** All files below a folder, by path, as Latin-1. */
async function filesIn(folder: string): Promise<Readonly<Record<string, string>>> {
  const entries = await readdir(folder, { withFileTypes: true, recursive: true });
  const files = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  const read = files.sort().map(async (file) => [file.slice(folder.length + 1), await readFile(file, 'latin1')]);
  return Object.fromEntries(await Promise.all(read)) as Record<string, string>;
}

const packet = (...more: string[]): Promise<{ stdout: string; stderr: string; exit: number }> =>
  w.run(['packet', 'bar.cage', '--out', 'out', ...more]);

describe('a packet', () => {
  it('is the same bytes twice, in a fresh folder and over itself, and each paper carries mark and hash', async () => {
    const text = await readFile(SAMPLE, 'utf8');
    w = await world({ 'bar.cage': text });
    expect(await packet()).toEqual({ stdout: '', stderr: '', exit: 0 });
    const first = await filesIn(w.path('out'));
    expect(await packet()).toEqual({ stdout: '', stderr: '', exit: 0 });
    expect(await filesIn(w.path('out'))).toEqual(first);
    await w.run(['packet', 'bar.cage', '--out', 'deep/other']);
    expect(await filesIn(w.path('deep/other'))).toEqual(first);
    const hash = createHash('sha256').update(text).digest('hex');
    expect(first['index.html']).toContain(hash);
    for (const [path, content] of Object.entries(first)) {
      expect([path, isPacketPaper(content)]).toEqual([path, true]);
      expect([path, content.includes(hash.slice(0, 16))]).toEqual([path, true]);
    }
    // Nothing stays beside.
    expect((await readdir(w.cwd)).sort()).toEqual(['bar.cage', 'deep', 'out']);
  });

  it('links every paper from the front page, and nothing else', async () => {
    w = await world({ 'bar.cage': await readFile(SAMPLE, 'utf8') });
    await packet();
    const files = await filesIn(w.path('out'));
    const links = [...(files['index.html'] ?? '').matchAll(/href="([^"]*)"/g)].map((match) =>
      decodeURIComponent(match[1] ?? ''),
    );
    const papers = Object.keys(files).filter((path) => path !== 'index.html');
    expect([...new Set(links)].sort()).toEqual(papers.sort());
  });

  it('writes nothing at all where one file of others is in the way', async () => {
    w = await world({ 'bar.cage': GOOD, 'out/index.html': '<p>my letter</p>' });
    expect(await packet()).toEqual({ stdout: '', stderr: `cagewright: out: index.html: ${NOT_OURS}\n`, exit: 2 });
    expect(await filesIn(w.path('out'))).toEqual({ 'index.html': '<p>my letter</p>' });
    // A report is the tool's own, but no paper of a packet.
    await writeFile(w.path('out/index.html'), `<!-- ${MARK} -->`);
    expect((await packet()).exit).toBe(2);
    expect(await packet('--force')).toEqual({ stdout: '', stderr: '', exit: 0 });
    expect((await filesIn(w.path('out')))['index.html']).toContain('Shop papers');
  });

  it('follows no link out of its folder', async () => {
    w = await world({ 'bar.cage': GOOD, 'precious.html': 'mine', 'out/note.txt': 'mine too' });
    await symlink(w.path('precious.html'), w.path('out/index.html'));
    expect((await packet()).exit).toBe(2);
    expect((await packet('--force')).exit).toBe(0);
    expect(await readFile(w.path('precious.html'), 'utf8')).toBe('mine');
    expect(await readFile(w.path('out/note.txt'), 'utf8')).toBe('mine too');
  });

  it('removes papers of an earlier packet that it has no more, and nothing else', async () => {
    w = await world({ 'bar.cage': GOOD });
    await packet();
    const page = (await filesIn(w.path('out')))['index.html'] ?? '';
    await mkdir(w.path('out/templates'), { recursive: true });
    await writeFile(w.path('out/templates/old.html'), page);
    await writeFile(w.path('out/templates/mine.html'), 'mine');
    expect(await packet()).toEqual({
      stdout: '',
      stderr: 'cagewright: 1 paper of an earlier packet removed\n',
      exit: 0,
    });
    expect(await filesIn(w.path('out'))).toMatchObject({ 'templates/mine.html': 'mine' });
    expect(existsSync(w.path('out/templates/old.html'))).toBe(false);
  });

  it('leaves a packet in a folder below alone: it is another one', async () => {
    w = await world({ 'bar.cage': GOOD });
    await w.run(['packet', 'bar.cage', '--out', 'cars/one']);
    const before = await filesIn(w.path('cars/one'));
    for (const out of ['cars', 'cars', '.'])
      expect(await w.run(['packet', 'bar.cage', '--out', out])).toEqual({ stdout: '', stderr: '', exit: 0 });
    expect(await filesIn(w.path('cars/one'))).toEqual(before);
    expect(Object.keys(await filesIn(w.path('cars')))).toHaveLength(2 * Object.keys(before).length);
  });

  it('says in one line what it cannot do', async () => {
    w = await world({ 'bar.cage': GOOD, 'b.cage': GOOD });
    for (const [argv, why] of [
      [['packet'], 'packet wants a FILE'],
      [['packet', 'bar.cage'], 'packet wants --out DIR'],
      [['packet', 'bar.cage', '--out', '-'], '--out is a folder: a packet is many papers'],
      [['packet', 'bar.cage', 'b.cage', '--out', 'x'], 'packet takes one FILE'],
      [['packet', 'bar.cage', '--out', 'b.cage'], 'b.cage: it is no folder'],
      [['packet', 'bar.cage', '--out', 'b.cage/x'], 'b.cage/x: there is no such folder'],
      [['packet', 'none.cage', '--out', 'x'], 'none.cage: there is no such file'],
      [['packet', 'bar.cage', '--out', 'nul\0'], '--out: that is no file name'],
    ] as const)
      expect(await w.run(argv)).toEqual({ stdout: '', stderr: `cagewright: ${why}\n`, exit: 2 });
    expect((await readdir(w.cwd)).sort()).toEqual(['b.cage', 'bar.cage']);
  });

  it('ends with 1 where an error is open, and names it in red', async () => {
    w = await world({ 'bar.cage': BROKEN });
    const { exit, stderr } = await packet();
    expect([exit, stderr.includes('errors are open: no templates of')]).toEqual([1, true]);
    const page = (await filesIn(w.path('out')))['index.html'] ?? '';
    expect(page).toMatch(/class="stop" role="alert"[^]*name\.unknown[^]*Do not cut these parts/);
  });

  it('shows how far it is only where somebody looks', async () => {
    w = await world({ 'bar.cage': GOOD });
    const { nodeIo } = await import('../../server/cli/node-io');
    const { run } = await import('../../server/cli/run');
    const lines: string[] = [];
    const io = nodeIo({
      cwd: w.cwd,
      stdin: (async function* () {})(),
      version: '1',
      serve: () => Promise.resolve(),
      progress: (line) => lines.push(line),
    });
    await run(['packet', 'bar.cage', '--out', 'out'], io);
    expect(lines[0]).toMatch(/^1 of \d+: /);
    expect(lines.at(-1)).toBe('');
  });
});

describe('a folder of files', () => {
  const mine = (head: string): boolean => head.startsWith('OURS');

  it('is left as it was where the disk fails half way', async () => {
    w = await world({ 'out/a.txt': 'OURS, old' });
    const job = { folder: w.path('out'), mine, force: false };
    const long = `${'n'.repeat(300)}.txt`;
    const answer = await writeFolder({ ...job, files: ['a.txt', long].map((path) => ({ path, content: 'OURS' })) });
    expect(answer).toEqual({ kind: 'refused', why: 'its name is too long' });
    expect(await filesIn(w.cwd)).toEqual({ 'out/a.txt': 'OURS, old' });
  });

  it.each(['../x.txt', '/x.txt', 'a/../../x.txt', 'a\\b.txt', 'a\0b', ''])('takes no path such as %j', async (path) => {
    w = await world();
    const answer = await writeFolder({ folder: w.path('out'), files: [{ path, content: '' }], mine, force: true });
    expect(answer.kind).toBe('refused');
    expect(await readdir(w.cwd)).toEqual([]);
  });

  it('has only whole files, and no front page unless all stand, when it is killed at any moment', async () => {
    w = await world();
    const size = 400_000;
    const script = w.path('write.mjs');
    const build = await import('esbuild');
    await build.build({
      stdin: {
        contents: `import { writeFolder } from ${JSON.stringify(join(__dirname, '../../server/host/write-folder.ts'))};
          const files = Array.from({ length: 60 }, (_, i) => ({ path: 'p/' + i + '.txt', content: 'OURS'.padEnd(${String(size)}, 'x') }));
          const go = () => writeFolder({ folder: process.argv[2], files: [...files, { path: 'front.txt', content: 'OURS front' }], mine: (h) => h.startsWith('OURS'), force: false });
          process.stdout.write('ready');
          for (let i = 0; i < 50; i++) await go();`,
        resolveDir: __dirname,
      },
      bundle: true,
      platform: 'node',
      format: 'esm',
      outfile: script,
      logLevel: 'error',
    });
    for (const [after, signal] of [
      [3, 'SIGKILL'],
      [25, 'SIGKILL'],
      [60, 'SIGTERM'],
      [110, 'SIGINT'],
    ] as const) {
      const child = spawn(process.execPath, [script, w.path('out')], { stdio: ['ignore', 'pipe', 'ignore'] });
      await new Promise<void>((done) => child.stdout.once('data', () => done()));
      await new Promise<void>((done) => setTimeout(done, after));
      const ended = new Promise<void>((done) => child.once('exit', () => done()));
      child.kill(signal);
      await ended;
      const files = existsSync(w.path('out')) ? await filesIn(w.path('out')) : {};
      const pages = Object.entries(files).filter(([path]) => path.startsWith('p/'));
      expect(pages.filter(([, text]) => text.length !== size)).toEqual([]);
      if (files['front.txt'] !== undefined) expect(pages).toHaveLength(60);
      if (signal !== 'SIGKILL')
        expect((await readdir(w.cwd)).filter((name) => name.includes(`-${String(child.pid)}.tmp`))).toEqual([]);
    }
  });

  it('sweeps up after a run that was killed', async () => {
    w = await world({ 'out.cagewright-999999999.tmp/a.txt': 'half' });
    const files = [{ path: 'a.txt', content: 'OURS' }];
    expect(await writeFolder({ folder: w.path('out'), files, mine, force: false })).toEqual({
      kind: 'written',
      removed: 0,
    });
    expect(await readdir(w.cwd)).toEqual(['out']);
  });

  it('writes into a folder whose surroundings may not be written', async () => {
    w = await world({ 'shut/out/keep.txt': 'mine' });
    await chmod(w.path('shut'), 0o555);
    const files = [{ path: 'a.txt', content: 'OURS' }];
    const answer = await writeFolder({ folder: w.path('shut/out'), files, mine, force: false });
    await chmod(w.path('shut'), 0o755);
    expect(answer).toEqual({ kind: 'written', removed: 0 });
    expect(await filesIn(w.path('shut/out'))).toEqual({ 'a.txt': 'OURS', 'keep.txt': 'mine' });
  });
});
