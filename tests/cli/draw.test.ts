/** `draw` to pictures of points and to glTF: what is written, over what, and what is said. */
import { readFile } from 'node:fs/promises';
import { decode } from 'fast-png';
import { afterEach, expect, it } from 'vitest';
import { NOT_OURS } from '../../server/host/write';
import type { World } from './world';
import { GOOD, world } from './world';

let w: World;
afterEach(() => w.remove());

const bytes = (name: string): Promise<Buffer> => readFile(w.path(name));
const done = { stdout: '', stderr: '', exit: 0 };

it('draws a picture of points from every side, the same bytes twice', async () => {
  w = await world({ 'bar.cage': GOOD });
  for (const view of ['plan', 'side', 'front', 'free']) {
    expect(await w.run(['draw', 'bar.cage', '--view', view, '--out', `${view}.png`])).toEqual(done);
    const first = await bytes(`${view}.png`);
    // Over its own again.
    expect(await w.run(['draw', 'bar.cage', '--view', view, '--out', `${view}.png`])).toEqual(done);
    expect((await bytes(`${view}.png`)).equals(first)).toBe(true);
    const { width, height, channels, data, text } = decode(first);
    expect(Math.max(width, height)).toBe(1600);
    expect(channels).toBe(3);
    expect(text).toEqual({ Software: 'Cagewright 1.2.3' });
    const dark = data.filter((value) => value < 200).length / data.length;
    expect(dark).toBeGreaterThan(0.005);
    expect(dark).toBeLessThan(0.6);
  }
});

it('writes the whole car as glTF, and says that a view is not used', async () => {
  w = await world({ 'bar.cage': GOOD });
  expect(await w.run(['draw', 'bar.cage', '--out', 'bar.glb'])).toEqual(done);
  const first = await bytes('bar.glb');
  // The magic of a binary file, and its version (ISO/IEC 12113, 4.4.2).
  expect(first.subarray(0, 4).toString()).toBe('glTF');
  expect(first.readUInt32LE(4)).toBe(2);
  expect(first.readUInt32LE(8)).toBe(first.length);
  expect(await w.run(['draw', 'bar.cage', '--view', 'side', '--out', 'bar.glb'])).toEqual({
    ...done,
    stderr: 'cagewright: a .glb holds the whole car: --view is not used\n',
  });
  expect((await bytes('bar.glb')).equals(first)).toBe(true);
});

it('writes over nothing that somebody else has made, and draws nothing where nothing is known', async () => {
  w = await world({ 'bar.cage': GOOD, 'empty.cage': 'cage "empty"\n', 'mine.png': 'x', 'mine.glb': 'glTF and more' });
  for (const [argv, why] of [
    [['draw', 'bar.cage', '--view', 'free', '--out', 'mine.png'], `mine.png: ${NOT_OURS}`],
    [['draw', 'bar.cage', '--out', 'mine.glb'], `mine.glb: ${NOT_OURS}`],
    ...['x.svg', 'x.png', 'x.glb'].map(
      (out) =>
        [
          ['draw', 'empty.cage', '--view', 'side', '--out', out],
          'empty.cage: nothing to draw: no tube has a centreline and a section that are known',
        ] as const,
    ),
  ] as const)
    expect(await w.run(argv)).toEqual({ stdout: '', stderr: `cagewright: ${why}\n`, exit: 2 });
  expect((await bytes('mine.png')).toString()).toBe('x');
  expect(await w.run(['draw', 'bar.cage', '--out', 'mine.glb', '--force'])).toEqual(done);
  expect((await bytes('mine.glb')).subarray(0, 4).toString()).toBe('glTF');
});

/** A whole tube, one whose node is not known, and one without a section. */
const PARTLY = `cage "Partly"
section t { od 40; wall 2 }
node a = (0, 0, 0)
node b = (0, 0, 600)
node c = (0, 0, nowhere)
tube whole { section t; path a, b; first open; last open }
tube lost { section t; path a, c }
tube bare { path a, b }
`;

it('names the tubes that it cannot draw, on the drawing and on standard error, and tells of open errors', async () => {
  w = await world({ 'bar.cage': PARTLY, 'good.cage': GOOD });
  const lacks = 'not drawn, since their centreline or section is not known: lost, bare.';
  for (const out of ['x.svg', 'x.png', 'x.glb']) {
    const { stdout, stderr, exit } = await w.run([
      'draw',
      'bar.cage',
      ...(out === 'x.glb' ? [] : ['--view', 'side']),
      '--out',
      out,
    ]);
    expect([stdout, exit], out).toEqual(['', 1]);
    expect(stderr, out).toBe(`cagewright: bar.cage: ${lacks}\n`);
  }
  const svg = (await bytes('x.svg')).toString();
  expect(svg).toContain('Not drawn, since their centreline or section is not known: lost, bare.');
  expect(svg).toContain('2 errors are open in this car: see its findings.');
  await w.run(['draw', 'good.cage', '--view', 'side', '--out', 'good.svg']);
  const good = (await bytes('good.svg')).toString();
  expect(good).not.toMatch(/Not drawn|open in this car/);
});

it('shows a file of seats alone as surfaces, of which a drawing has nothing', async () => {
  w = await world({ 'seat.cage': 'seat s { slots (200, 0, 700); recline 10 deg; slot-spacing 200; back 45 }\n' });
  expect((await w.run(['draw', 'seat.cage', '--out', 'x.glb'])).exit).toBe(0);
  expect((await w.run(['draw', 'seat.cage', '--view', 'free', '--out', 'x.png'])).exit).toBe(0);
  expect((await w.run(['draw', 'seat.cage', '--view', 'free', '--out', 'x.svg'])).exit).toBe(2);
});
