/** The commands on files of the disk: what they print, and how they end. */
import { chmod, mkdir, readFile, symlink } from 'node:fs/promises';
import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import type { World } from './world';
import { BROKEN, GOOD, UNVENTED, world } from './world';

let w: World;
afterEach(() => w.remove());

const oneLine = (text: string): boolean => /^cagewright: [^\n]+\n$/.test(text);

describe('check', () => {
  it('ends with 0 where nothing is wrong', async () => {
    w = await world({ 'good.cage': GOOD });
    expect(await w.run(['check', 'good.cage'])).toEqual({ stdout: 'No findings.\n', stderr: '', exit: 0 });
  });

  it('prints file:line:column: severity code: message, then a count', async () => {
    w = await world({ 'sub/bar.cage': UNVENTED });
    const { stdout, stderr, exit } = await w.run(['check', 'sub/bar.cage']);
    const [first, count, ...rest] = stdout.split('\n');
    // Line 12 is the rail; its name begins in column 6.
    expect(first).toMatch(/^sub\/bar\.cage:12:6: warning space\.unvented: .*rail.*f.*/);
    expect(count).toBe('1 finding: 0 errors, 1 warning, 0 information.');
    expect(rest).toEqual(['']);
    expect(stderr).toBe('');
    expect(exit).toBe(0);
  });

  it('counts columns in UTF-16 code units, as editors do', async () => {
    const text = GOOD.replace('cage "Two posts and a rail"', 'cage "😀" oops');
    w = await world({ 'a.cage': text });
    const { stdout } = await w.run(['check', 'a.cage']);
    // `cage "😀" ` is ten units long: five, a quote, two halves, a quote, a blank.
    expect(stdout).toMatch(/^a\.cage:1:11: error/m);
  });

  it('fails from the severity that is asked for', async () => {
    w = await world({ 'w.cage': UNVENTED, 'e.cage': BROKEN });
    expect((await w.run(['check', 'w.cage'])).exit).toBe(0);
    expect((await w.run(['check', 'w.cage', '--fail-on', 'warning'])).exit).toBe(1);
    expect((await w.run(['check', 'w.cage', '--fail-on', 'information'])).exit).toBe(1);
    expect((await w.run(['check', 'e.cage'])).exit).toBe(1);
  });

  it('keeps a waived finding in the list, outside the exit status', async () => {
    w = await world({ 'a.cage': `${UNVENTED}waive space.unvented on rail because "welded in argon"\n` });
    const { stdout, exit } = await w.run(['check', 'a.cage', '--fail-on', 'information']);
    expect(stdout).toMatch(/warning space\.unvented: .*\(waived\)\nNo findings; 1 waived\.\n$/);
    expect(exit).toBe(0);
    const data = JSON.parse((await w.run(['check', 'a.cage', '--format', 'json'])).stdout) as Record<string, unknown>;
    expect(data['waivers']).toMatchObject([
      { code: 'space.unvented', on: 'rail', because: 'welded in argon', used: true },
    ]);
    expect(data['findings']).toMatchObject([{ code: 'space.unvented', waived: true }]);
  });

  it('does the others where one cannot be read, and ends with 2', async () => {
    w = await world({ 'w.cage': UNVENTED });
    await mkdir(w.path('folder'));
    const { stdout, stderr, exit } = await w.run(['check', 'none.cage', 'w.cage', 'folder', '', 'nul\0.cage']);
    expect(stdout).toContain('w.cage:12:6: warning');
    expect(stderr.trimEnd().split('\n')).toEqual([
      'cagewright: none.cage: there is no such file',
      'cagewright: folder: it is a folder',
      "cagewright: '': that is no file name",
      'cagewright: nul\\u0000.cage: that is no file name',
    ]);
    expect(exit).toBe(2);
  });

  it('says that a file may not be read', async () => {
    w = await world({ 'secret.cage': GOOD });
    await chmod(w.path('secret.cage'), 0o000);
    const { exit, stderr } = await w.run(['check', 'secret.cage']);
    // The superuser reads everything.
    if (process.getuid?.() === 0) expect(exit).toBe(0);
    else expect([exit, stderr]).toEqual([2, 'cagewright: secret.cage: permission was refused\n']);
  });

  it('is the same list whatever the order of the files, once each', async () => {
    const part = 'section odd { od 45; wall 30 }\n';
    const car = (n: number) => `use "part.cage"\n${GOOD.replaceAll('post', `post${String(n)}`)}`;
    w = await world({ 'part.cage': part, 'a.cage': car(1), 'b.cage': car(2) });
    const one = await w.run(['check', 'a.cage', 'b.cage', '--format', 'json']);
    const two = await w.run(['check', 'b.cage', 'a.cage', '--format', 'json']);
    expect(one.stdout).toBe(two.stdout);
    const { findings } = JSON.parse(one.stdout) as { findings: { file: string; code: string }[] };
    expect(findings.map(({ file, code }) => `${file} ${code}`)).toEqual(['part.cage section.wall']);
  });

  it('wants a file', async () => {
    w = await world();
    const { stdout, stderr, exit } = await w.run(['check']);
    expect([stdout, oneLine(stderr), exit]).toEqual(['', true, 2]);
  });
});

describe('standard input', () => {
  it('is called what --name says', async () => {
    w = await world();
    const { stdout, exit } = await w.run(['check', '-', '--name', 'new/bar.cage'], UNVENTED);
    expect(stdout).toMatch(/^new\/bar\.cage:12:6: warning/);
    expect(exit).toBe(0);
    expect((await w.run(['check', '-'], UNVENTED)).stdout).toMatch(/^stdin\.cage:12:6: /);
  });

  it('uses files beside its name', async () => {
    w = await world({ 'cars/parts.cage': 'section rail { od 38; wall 2.5 }\n' });
    const text = `use "parts.cage"\n${GOOD.replace(/^section rail.*\n/m, '')}`;
    expect(await w.run(['check', '-', '--name', 'cars/a.cage'], text)).toMatchObject({
      stdout: 'No findings.\n',
      exit: 0,
    });
  });

  it('is not read without end', async () => {
    w = await world();
    const { stderr, exit } = await w.run(['check', '-'], new Uint8Array(17 * 1024 * 1024).fill(0x20));
    expect([stderr, exit]).toEqual(['cagewright: -: there is too much of it\n', 2]);
  });

  it('has no name without -', async () => {
    w = await world({ 'a.cage': GOOD });
    expect((await w.run(['check', 'a.cage', '--name', 'b.cage'])).exit).toBe(2);
  });
});

describe('the workspace', () => {
  const using = (path: string) => `use "${path}"\n${GOOD.replace(/^section rail.*\n/m, '')}`;
  const RAIL = 'section rail { od 38; wall 2.5 }\n';

  it('is the current folder if it holds the file, else the file’s own', async () => {
    w = await world({ 'cars/a.cage': using('../parts/p.cage'), 'parts/p.cage': RAIL });
    expect((await w.run(['check', 'cars/a.cage'])).exit).toBe(0);
    const outside = await world();
    const { stdout, exit } = await outside.run(['check', w.path('cars/a.cage')]);
    expect(stdout).toMatch(/^a\.cage:1:\d+: error use\.outside/);
    expect(exit).toBe(1);
    expect((await outside.run(['check', w.path('cars/a.cage'), '--root', w.cwd])).stdout).toBe('No findings.\n');
    await outside.remove();
  });

  it('is --root, which must be a folder that holds the file', async () => {
    w = await world({ 'cars/a.cage': using('../parts/p.cage'), 'parts/p.cage': RAIL });
    expect((await w.run(['check', 'cars/a.cage', '--root', 'cars'])).stdout).toContain('use.outside');
    expect((await w.run(['check', 'cars/a.cage', '--root', 'parts'])).stderr).toContain('outside the workspace');
    expect((await w.run(['check', 'cars/a.cage', '--root', 'nowhere'])).stderr).toContain('no such folder');
    expect((await w.run(['check', 'cars/a.cage', '--root', 'cars/a.cage'])).exit).toBe(2);
  });

  it('ends where a link leads out of it', async () => {
    const secret = await world({ 'secret.cage': 'node marker-of-the-secret = (1, 2, 3)\n' });
    w = await world({ 'a.cage': using('link.cage') });
    await symlink(secret.path('secret.cage'), w.path('link.cage'));
    const { stdout } = await w.run(['check', 'a.cage']);
    expect(stdout).toContain('use.outside');
    expect((await w.run(['describe', 'a.cage', '--format', 'json'])).stdout).not.toContain('marker-of-the-secret');
    await secret.remove();
  });
});

describe('format', () => {
  it('lays a file out, and then has nothing more to do', async () => {
    w = await world({ 'a.cage': 'node   a=(0,0,0)\n' });
    expect(await w.run(['format', '--check', 'a.cage'])).toEqual({ stdout: 'a.cage\n', stderr: '', exit: 1 });
    expect(await readFile(w.path('a.cage'), 'utf8')).toBe('node   a=(0,0,0)\n');
    expect(await w.run(['format', 'a.cage'])).toEqual({ stdout: '', stderr: '', exit: 0 });
    expect(await readFile(w.path('a.cage'), 'utf8')).toBe('node a = (0, 0, 0)\n');
    expect(await w.run(['format', '--check', 'a.cage'])).toEqual({ stdout: '', stderr: '', exit: 0 });
  });

  it('gives standard input back on standard output', async () => {
    w = await world();
    expect((await w.run(['format', '-'], 'node   a=(0,0,0)\n')).stdout).toBe('node a = (0, 0, 0)\n');
  });

  it('keeps a byte order mark, and leaves bytes alone that are no text', async () => {
    w = await world({ 'a.cage': '\ufeffnode   a=(0,0,0)\r\n' });
    expect((await w.run(['format', 'a.cage'])).exit).toBe(0);
    expect(await readFile(w.path('a.cage'), 'utf8')).toBe('\ufeffnode a = (0, 0, 0)\r\n');
    const bytes = Uint8Array.from([...new TextEncoder().encode('node   a=(0,0,0) # '), 0xff, 0xfe, 0x0a]);
    await w.put('b.cage', bytes);
    const { stderr, exit } = await w.run(['format', 'b.cage']);
    expect([stderr, exit]).toEqual(['cagewright: b.cage: it is not wholly UTF-8 text, so it stays as it is\n', 2]);
    expect([...(await readFile(w.path('b.cage')))]).toEqual([...bytes]);
  });

  it('tells what it cannot write and does the others', async () => {
    w = await world({ 'a.cage': 'node   a=(0,0,0)\n' });
    const { stderr, exit } = await w.run(['format', 'none.cage', 'a.cage']);
    expect([oneLine(stderr), exit]).toEqual([true, 2]);
    expect(await readFile(w.path('a.cage'), 'utf8')).toBe('node a = (0, 0, 0)\n');
  });
});

describe('the rest', () => {
  it('explains codes', async () => {
    w = await world();
    const { stdout, exit } = await w.run(['explain', 'strap.drop']);
    for (const title of ['What', 'Why', 'Measured', 'Source', 'Mend'])
      expect(stdout).toMatch(new RegExp(`^${title}: `, 'm'));
    expect(exit).toBe(0);
    const wrong = await w.run(['explain', 'strap.dorp', 'strap.skew']);
    expect(wrong.stdout).toMatch(/^strap\.skew/);
    expect(wrong.stderr).toBe("cagewright: there is no finding 'strap.dorp'; did you mean 'strap.drop'\n");
    expect(wrong.exit).toBe(2);
    expect((await w.run(['explain'])).exit).toBe(2);
  });

  it('explains codes with the books of a file, and books by their name', async () => {
    const club = 'rulebook heron-club based on fia-253 {\n  limit strap.drop from 0 to 20 cite "yearbook, 4.2"\n}\n';
    w = await world({ 'club.cage': club, 'car.cage': 'cage "x"\nuse "club.cage"\n', 'none.cage': 'units mm\n' });
    const { stdout, stderr, exit } = await w.run(['explain', 'strap.drop', '--rules', 'car.cage']);
    expect([stderr, exit]).toEqual(['', 0]);
    expect(stdout).toContain('fia-253 allows 0 to 45°');
    expect(stdout).toContain('heron-club allows 0 to 20° (yearbook, 4.2, written here): error.');
    const spread = await w.run(['explain', '--rules=club.cage', 'strap.spread']);
    expect(spread.stdout).toContain('heron-club: as fia-253.');
    const book = await w.run(['explain', 'heron-club', '--rules', 'club.cage']);
    expect(book.stdout).toMatch(/^heron-club: a club's own book, based on fia-253\n/);
    expect(book.stdout).toContain('strap.drop allows 0 to 20° (yearbook, 4.2, written here): error.');
    expect(book.stdout).toMatch(/^strap\.spread .*published, from fia-253\): error\.$/m);
    expect((await w.run(['explain', 'fia-253'])).stdout).toMatch(/^fia-253: FIA Appendix J, Article 253\n/);
    const unknown = await w.run(['explain', 'heron-club']);
    expect([unknown.stdout, unknown.exit]).toEqual(['', 2]);
    const none = await w.run(['explain', 'strap.drop', '--rules', 'none.cage']);
    expect([none.stderr, none.exit]).toEqual(['cagewright: none.cage: no rulebook stands in it\n', 2]);
    expect(none.stdout).toMatch(/^strap\.drop/);
    expect((await w.run(['explain', 'strap.drop', '--rules', 'gone.cage'])).stderr).toContain('there is no such file');
  });

  it('helps, and tells its version', async () => {
    w = await world();
    expect((await w.run(['help'])).stdout).toContain('cagewright check FILE');
    expect((await w.run(['help'])).stdout).not.toMatch(/diff/);
    expect((await w.run(['help', 'format'])).stdout).toContain('--check');
    expect((await w.run(['version'])).stdout).toBe('1.2.3\n');
  });

  it('describes one file, and ends with 1 where it has errors', async () => {
    w = await world({ 'good.cage': GOOD, 'bad.cage': BROKEN });
    const good = await w.run(['describe', 'good.cage']);
    expect(good.stdout).toMatch(/^Two posts and a rail\n/);
    expect(good.stdout).toContain('TUBE rail: transverse, rail 38.0 x 2.5');
    expect(good.exit).toBe(0);
    expect((await w.run(['describe', 'bad.cage'])).exit).toBe(1);
    expect((await w.run(['describe', 'good.cage', 'bad.cage'])).exit).toBe(2);
  });

  it('cannot be made to colour a terminal', async () => {
    w = await world({
      'a.cage': `cage "\u001b[31mred"\n${UNVENTED.replace(/^cage.*\n/, '')}node \u001b = (0, 0, 0)\n`,
    });
    for (const argv of [
      ['check', 'a.cage'],
      ['describe', 'a.cage'],
      ['check', '\u001b[31m'],
    ]) {
      const { stdout, stderr } = await w.run(argv);
      expect(stdout + stderr).not.toContain('\u001b');
    }
  });

  it('wants lsp to be told its channel', async () => {
    w = await world();
    expect((await w.run(['lsp'])).exit).toBe(2);
    expect((await w.run(['lsp', '--stdio'])).exit).toBe(0);
  });
});

describe('anything at all', () => {
  const FORMATS = [
    ['check', '--format', 'text'],
    ['check', '--format', 'json'],
    ['check', '--format', 'sarif'],
    ['check', '--format', 'github'],
    ['describe', '--format', 'text'],
    ['describe', '--format', 'json'],
    ['format', '--check'],
  ];

  it('never throws on bytes', async () => {
    w = await world();
    const words = fc.constantFrom(
      'tube',
      'node',
      'a',
      '=',
      '(',
      ')',
      '{',
      '}',
      ';',
      '\n',
      'mirror left {',
      '1 3/4',
      '-',
      '"',
      '\0',
      '\ufeff',
      'use "x"',
      '…',
    );
    const bytes = fc.oneof(
      fc.uint8Array({ maxLength: 300 }),
      fc.array(words, { maxLength: 60 }).map((list) => new TextEncoder().encode(list.join(' '))),
    );
    await fc.assert(
      fc.asyncProperty(bytes, fc.constantFrom(...FORMATS), async (content, argv) => {
        const { stdout, stderr, exit } = await w.run([...argv, '-'], content);
        expect([0, 1]).toContain(exit);
        expect(stderr).toBe('');
        if (argv.includes('json')) JSON.parse(stdout);
      }),
      { numRuns: 150 },
    );
  });

  it('never throws on arguments', async () => {
    w = await world({ 'a.cage': GOOD });
    const argument = fc.oneof(
      fc.string(),
      fc.constantFrom(
        'check',
        'describe',
        'format',
        'explain',
        '--check',
        '--format',
        'json',
        'a.cage',
        '-',
        '--',
        '--root',
        '.',
        '..',
        '--name',
        '--rules',
        '/',
      ),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(argument, { maxLength: 6 }), async (argv) => {
        const { stderr, exit } = await w.run(argv);
        expect([0, 1, 2]).toContain(exit);
        if (exit === 2) expect(stderr).toMatch(/^(cagewright: [^\n]+\n)+$/);
        else expect(stderr).toBe('');
      }),
      { numRuns: 150 },
    );
  });
});
