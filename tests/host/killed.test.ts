/** A run that writes a folder, killed before each of its steps that change the disk, and half way through each file. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { FolderFile } from '../../server/host/write-folder';
import { writeFolder } from '../../server/host/write-folder';

const home = mkdtempSync(join(tmpdir(), 'cage-killed-'));
const place = join(home, 'place');
const out = join(place, 'out');
const script = join(home, 'write.mjs');
const SIZE = 2000;

const body = (version: string): string => `OURS ${version} `.padEnd(SIZE, version);
const PATHS = ['a.txt', 'p/b.txt', 'p/c.txt', 'front.txt'] as const;
/** The newer run has one file less, and one more. */
const filesOf = (version: string, more: string): readonly FolderFile[] =>
  [more, ...PATHS].map((path) => ({ path, content: body(version) }));

/** Counts what changes the disk and ends the process, with no chance to clear up, before the one that it is told. */
const KILLER = `
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
let left = Number(process.argv[3]);
const die = () => process.kill(process.pid, 'SIGKILL');
for (const [where, names] of [
  [fs, ['chmodSync', 'mkdirSync', 'renameSync', 'rmSync', 'rmdirSync', 'writeFileSync']],
  [fs.promises, ['mkdir', 'rename', 'rm', 'writeFile']],
])
  for (const name of names) {
    const real = where[name];
    where[name] = (...args) => {
      if (left-- === 0) {
        if (name.startsWith('writeFile')) fs.appendFileSync(args[0], args[1].slice(0, 700));
        die();
      }
      return real(...args);
    };
  }
syncBuiltinESMExports();
const { go } = await import('./bundle.mjs');
await go(process.argv[2], process.argv[4]);
`;

beforeAll(async () => {
  writeFileSync(script, KILLER);
  await build({
    stdin: {
      contents: `import { writeFolder } from ${JSON.stringify(join(__dirname, '../../server/host/write-folder.ts'))};
        const files = ${JSON.stringify(filesOf('2', 'new.txt'))};
        export const go = (folder, unfinished) =>
          writeFolder({ folder, files, mine: (head) => head.startsWith('OURS'), force: false, unfinished });`,
      resolveDir: __dirname,
    },
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile: join(home, 'bundle.mjs'),
    logLevel: 'error',
  });
});

afterAll(() => rmSync(home, { recursive: true, force: true }));

const write = (version: string, more: string): ReturnType<typeof writeFolder> =>
  writeFolder({
    folder: out,
    files: filesOf(version, more),
    mine: (head) => head.startsWith('OURS'),
    force: false,
  });

const here = (): Readonly<Record<string, string>> =>
  existsSync(out)
    ? Object.fromEntries(
        readdirSync(out, { recursive: true, withFileTypes: true })
          .filter((entry) => entry.isFile())
          .map((entry): [string, string] => {
            const path = join(entry.parentPath, entry.name);
            return [path.slice(out.length + 1), readFileSync(path, 'utf8')];
          }),
      )
    : {};

const all = (version: string, more: string): Readonly<Record<string, string>> =>
  Object.fromEntries(filesOf(version, more).map(({ path, content }) => [path, String(content)]));

/** True once the run came to its end. */
function killedBefore(step: number, words: readonly string[] = []): boolean {
  const { status, signal } = spawnSync(process.execPath, [script, out, String(step), ...words], { stdio: 'ignore' });
  expect([status, signal]).toEqual(signal === null ? [0, null] : [null, 'SIGKILL']);
  return signal !== null;
}

const NOTE = { 'p/note.txt': 'mine' };

it.each([
  ['a folder that is not there yet', false, {}],
  ['over an earlier run', true, {}],
  ['over an earlier run, where somebody else put a file', true, NOTE],
] as const)(
  '%s: whole files, the front page only where all stand, and the next run clears up',
  async (_, earlier, note) => {
    let steps = 0;
    for (let goesOn = true; goesOn; steps += 1) {
      rmSync(place, { recursive: true, force: true });
      mkdirSync(place);
      if (earlier) await write('1', 'old.txt');
      for (const [path, content] of Object.entries(note)) writeFileSync(join(out, path), content);
      goesOn = killedBefore(steps);
      const found = here();
      const [before, after] = [all('1', 'old.txt'), all('2', 'new.txt')];
      // Whole files, of the one run or the other, and nothing of others is touched.
      expect(found).toMatchObject(note);
      for (const [path, content] of Object.entries(found))
        if (!(path in note)) expect([before[path], after[path]]).toContain(content);
      // All of the newer run or all of the older: where there is nothing else in the folder, that or no folder at all.
      const front = found['front.txt'];
      if (front !== undefined) expect(found).toEqual({ ...(front === after['front.txt'] ? after : before), ...note });
      else if (Object.keys(note).length === 0) expect(found).toEqual({});
      if (!goesOn) expect(found).toEqual({ ...after, ...note });
      expect(await write('3', 'new.txt')).toMatchObject({ kind: 'written' });
      expect(here()).toEqual({ ...all('3', 'new.txt'), ...note });
      expect(readdirSync(place)).toEqual(['out']);
    }
    // It was killed at every step: a folder and a file each at least.
    expect(steps).toBeGreaterThan(8);
  },
);

it('among files of others: where papers of two runs lie, words lie in the place of the front page', async () => {
  const words = 'OURS, not whole';
  let told = 0;
  for (let [steps, goesOn] = [0, true]; goesOn; steps += 1) {
    rmSync(place, { recursive: true, force: true });
    mkdirSync(place);
    await write('1', 'old.txt');
    writeFileSync(join(out, 'p/note.txt'), 'mine');
    goesOn = killedBefore(steps, [words]);
    const found = here();
    const [before, after] = [all('1', 'old.txt'), all('2', 'new.txt')];
    const front = found['front.txt'];
    // Never a gap: the whole older run, the whole newer one, or the words.
    if (front === words) told++;
    else expect(found).toEqual({ ...(front === after['front.txt'] ? after : before), ...NOTE });
    expect(await write('3', 'new.txt')).toMatchObject({ kind: 'written' });
    expect(here()).toEqual({ ...all('3', 'new.txt'), ...NOTE });
    expect(readdirSync(place)).toEqual(['out']);
  }
  // Between the first paper that is moved and the last one.
  expect(told).toBeGreaterThan(3);
});
