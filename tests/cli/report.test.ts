/** `report` on files of the disk: what it writes, what it leaves alone, and how it ends. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, symlink } from 'node:fs/promises';
import { afterEach, expect, it } from 'vitest';
import { nodeIo } from '../../server/cli/node-io';
import type { World } from './world';
import { BROKEN, GOOD, UNVENTED, world } from './world';

let w: World;
afterEach(() => w.remove());

const text = (name: string): Promise<string> => readFile(w.path(name), 'utf8');
const NOT_OURS = 'it is there already and was not made by cagewright: --force writes over it';

it('writes one page and says nothing, the same bytes each time, with the hash of the file', async () => {
  w = await world({ 'bar.cage': UNVENTED });
  expect(await w.run(['report', 'bar.cage', '--out', 'bar.html'])).toEqual({ stdout: '', stderr: '', exit: 0 });
  const page = await text('bar.html');
  expect(page.startsWith('<!DOCTYPE html>')).toBe(true);
  expect(page).toContain(createHash('sha256').update(UNVENTED).digest('hex'));
  expect(page).toContain('bar.cage:12');
  expect(page).toContain('Cagewright 1.2.3');
  // Again over its own, and to standard output.
  expect((await w.run(['report', '--out=bar.html', 'bar.cage'])).exit).toBe(0);
  expect(await text('bar.html')).toBe(page);
  expect((await w.run(['report', 'bar.cage', '--out', '-'])).stdout).toBe(page);
  expect((await readdir(w.cwd)).sort()).toEqual(['bar.cage', 'bar.html']);
});

it('takes SHA-256 as the standard has it', async () => {
  w = await world();
  const io = nodeIo({ cwd: w.cwd, stdin: (async function* () {})(), version: '', serve: () => Promise.resolve() });
  // FIPS 180-4, example of one block: "abc".
  expect(io.sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  expect(execFileSync('sha256sum', { input: 'Größe' }).toString().split(' ')[0]).toBe(io.sha256('Größe'));
});

it('ends with 1 where errors stand in it, and writes it all the same', async () => {
  w = await world({ 'bar.cage': BROKEN });
  expect((await w.run(['report', 'bar.cage', '--out', 'x.html'])).exit).toBe(1);
  expect(await text('x.html')).toContain('name.<wbr>unknown');
});

it('leaves alone what it has not made, unless it is told', async () => {
  w = await world({ 'bar.cage': GOOD, 'letter.html': '<p>my letter</p>', 'other.cage': GOOD });
  const refusal = await w.run(['report', 'bar.cage', '--out', 'letter.html']);
  expect(refusal).toEqual({ stdout: '', stderr: `cagewright: letter.html: ${NOT_OURS}\n`, exit: 2 });
  expect(await text('letter.html')).toBe('<p>my letter</p>');
  expect((await w.run(['report', 'bar.cage', '--out', 'letter.html', '--force'])).exit).toBe(0);
  expect(await text('letter.html')).toContain('Report for the scrutineer');
  await symlink(w.path('other.cage'), w.path('link.html'));
  for (const out of ['bar.cage', 'other.cage', 'new.cage', 'link.html']) {
    const { exit, stderr } = await w.run(['report', 'bar.cage', '--force', '--out', out]);
    expect([exit, stderr]).toEqual([2, `cagewright: ${out}: a report does not go over a cage file\n`]);
  }
  expect(await text('other.cage')).toBe(GOOD);
});

it('says in one line what it cannot do', async () => {
  w = await world({ 'bar.cage': GOOD, 'b.cage': GOOD });
  await mkdir(w.path('folder'));
  for (const [argv, why] of [
    [['report'], 'report wants a FILE'],
    [['report', 'bar.cage'], 'report wants --out X.html'],
    [['report', 'bar.cage', 'b.cage', '--out', 'x.html'], 'report takes one FILE'],
    [['report', 'bar.cage', '--out', 'folder'], 'folder: it is a folder'],
    [['report', 'bar.cage', '--out', 'none/x.html'], 'none/x.html: there is no such folder'],
    [['report', 'bar.cage', '--out', 'bar.cage/x.html'], 'bar.cage/x.html: there is no such folder'],
    [['report', 'bar.cage', '--out', '/dev/null'], '/dev/null: it is no ordinary file'],
    [['report', 'none.cage', '--out', 'x.html'], 'none.cage: there is no such file'],
    [['report', 'bar.cage', '--out', `${'n'.repeat(300)}.html`], `${'n'.repeat(300)}.html: its name is too long`],
    [['report', 'bar.cage', '--out', 'nul\0.html'], '--out: that is no file name'],
    [['check', 'bar.cage', '--out', 'x.html'], 'check has no option --out'],
  ] as const)
    expect(await w.run(argv)).toEqual({ stdout: '', stderr: `cagewright: ${why}\n`, exit: 2 });
  expect((await readdir(w.cwd)).sort()).toEqual(['b.cage', 'bar.cage', 'folder']);
});

it('prints a date as it is given, and takes its text from standard input', async () => {
  w = await world();
  const { stdout, exit } = await w.run(
    ['report', '-', '--name', 'sent.cage', '--out', '-', '--date', '3 May <2026>'],
    GOOD,
  );
  expect(exit).toBe(0);
  expect(stdout).toContain('Date: 3 May &lt;2026&gt;');
  expect(stdout).toContain('<code>sent.cage</code>');
});

it('draws the car from one side, as a file or to standard output', async () => {
  w = await world({ 'bar.cage': UNVENTED });
  for (const view of ['plan', 'side', 'front', 'free']) {
    expect(await w.run(['draw', 'bar.cage', '--view', view, '--out', `${view}.svg`])).toEqual({
      stdout: '',
      stderr: '',
      exit: 0,
    });
    const svg = await text(`${view}.svg`);
    expect(svg).toMatch(/^<\?xml version="1.0" encoding="UTF-8"\?>\n<!-- made by cagewright/);
    expect(svg).toContain('An aid, not an approval');
    expect((await w.run(['draw', 'bar.cage', '--view', view, '--out', '-'])).stdout).toBe(svg);
    // Over its own again.
    expect((await w.run(['draw', 'bar.cage', '--view', view, '--out', `${view}.svg`])).exit).toBe(0);
  }
  await w.put('mine.svg', '<svg/>');
  for (const [argv, why] of [
    [['draw', 'bar.cage', '--out', 'x.svg'], 'draw wants --view plan|side|front|free'],
    [['draw', 'bar.cage', '--out', 'x.png'], 'draw wants --view plan|side|front|free'],
    [['draw', 'bar.cage', '--view', 'side'], 'draw wants --out X.svg, X.png or X.glb'],
    [
      ['draw', 'bar.cage', '--view', 'below', '--out', 'x.svg'],
      "--view is one of plan, side, front, free, not 'below'",
    ],
    [
      ['draw', 'bar.cage', '--view', 'side', '--out', 'x.jpg'],
      "--out is a name that ends with .svg, .png or .glb, not 'x.jpg'",
    ],
    [['draw', 'bar.cage', '--view', 'side', '--out', 'mine.svg'], `mine.svg: ${NOT_OURS}`],
  ] as const)
    expect(await w.run(argv)).toEqual({ stdout: '', stderr: `cagewright: ${why}\n`, exit: 2 });
});
