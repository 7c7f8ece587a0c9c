/** The disk behind `use`: nothing outside the workspace is read, whichever way it is asked for. */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decodeText, LARGEST_FILE, nodeHost } from '../../server/host/node';

let top = '';
let root = '';
let elsewhere = '';

beforeAll(() => {
  top = mkdtempSync(join(tmpdir(), 'cage-host-'));
  root = join(top, 'work');
  elsewhere = join(top, 'work-elsewhere');
  for (const folder of [root, join(root, 'parts'), elsewhere]) mkdirSync(folder);
  writeFileSync(join(root, 'car.cage'), 'use "parts/seat.cage"\n');
  writeFileSync(join(root, 'parts/seat.cage'), 'units mm\n');
  writeFileSync(join(root, 'bytes.cage'), Buffer.from([0x61, 0xff, 0xfe, 0x62]));
  writeFileSync(join(root, 'bom.cage'), '\ufeffunits in\n');
  writeFileSync(join(root, 'giant.cage'), '');
  truncateSync(join(root, 'giant.cage'), LARGEST_FILE + 1);
  writeFileSync(join(elsewhere, 'secret.cage'), 'let secret = 1\n');
  symlinkSync(join(elsewhere, 'secret.cage'), join(root, 'link.cage'));
  symlinkSync(elsewhere, join(root, 'folder-link'));
  symlinkSync(join(elsewhere, 'not-yet.cage'), join(root, 'dangling.cage'));
  symlinkSync(join(root, 'parts/seat.cage'), join(root, 'seat-link.cage'));
  symlinkSync('loop.cage', join(root, 'loop.cage'));
});

afterAll(() => rmSync(top, { recursive: true, force: true }));

describe('a host over a folder', () => {
  const read = (path: string, from = 'car.cage') => nodeHost({ root }).read(from, path);

  it('reads relative to the file that asks', async () => {
    expect(await read('parts/seat.cage')).toEqual({ kind: 'file', file: 'parts/seat.cage', text: 'units mm\n' });
    expect(await read('../car.cage', 'parts/seat.cage')).toMatchObject({ kind: 'file', file: 'car.cage' });
    expect(await read('./parts/../parts/seat.cage')).toMatchObject({ kind: 'file', file: 'parts/seat.cage' });
  });

  it.each([
    '../work-elsewhere/secret.cage',
    'parts/../../work-elsewhere/secret.cage',
    '/etc/hostname',
    'link.cage',
    'folder-link/secret.cage',
    'folder-link/missing.cage',
    'dangling.cage',
    'folder-link',
  ])('refuses %s', async (path) => {
    expect(await read(path)).toEqual({ kind: 'outside' });
  });

  it('lists the cage files of the folder, and none behind a link', async () => {
    const listed = ['bom.cage', 'bytes.cage', 'car.cage', 'giant.cage', 'parts/seat.cage'];
    expect(await nodeHost({ root }).list()).toEqual(listed);
    expect(await nodeHost({ root: join(root, 'nowhere') }).list()).toEqual([]);
  });

  it('asks no overlay about what lies outside', async () => {
    const asked: string[] = [];
    const overlay = (path: string): string => {
      asked.push(path);
      return 'unsaved';
    };
    const host = nodeHost({ root, overlay });
    expect(await host.read('car.cage', 'link.cage')).toEqual({ kind: 'outside' });
    expect(await host.read('car.cage', '../work-elsewhere/secret.cage')).toEqual({ kind: 'outside' });
    expect(asked).toEqual([]);
  });

  it('knows a file by where it lies, so that two ways to it are one file', async () => {
    expect(await read('seat-link.cage')).toMatchObject({ kind: 'file', file: 'parts/seat.cage' });
  });

  it('says why there is no text', async () => {
    expect(await read('gone.cage')).toEqual({ kind: 'missing', file: 'gone.cage' });
    expect(await read('loop.cage')).toMatchObject({ kind: 'missing' });
    expect(await read('seat\0.cage')).toMatchObject({ kind: 'missing' });
    expect(await read('car.cage/seat.cage')).toMatchObject({ kind: 'missing' });
    expect(await read('parts')).toMatchObject({ kind: 'unreadable', why: 'it is a folder' });
    expect(await read('.')).toMatchObject({ kind: 'unreadable', why: 'it is a folder' });
    expect(await read('giant.cage')).toMatchObject({ kind: 'unreadable', why: 'it is larger than 16 MB' });
    expect(await read('a'.repeat(5000))).toMatchObject({ kind: 'unreadable' });
  });

  it('lets an unsaved text win over the disk, also where the file is not saved at all', async () => {
    const held = new Map([
      [join(root, 'parts/seat.cage'), 'units in\n'],
      [join(root, 'fresh.cage'), 'units cm\n'],
    ]);
    const host = nodeHost({ root, overlay: (path) => held.get(path) ?? null });
    expect(await host.read('car.cage', 'parts/seat.cage')).toMatchObject({ text: 'units in\n' });
    expect(await host.read('car.cage', 'seat-link.cage')).toMatchObject({ text: 'units in\n' });
    expect(await host.read('car.cage', 'fresh.cage')).toMatchObject({ kind: 'file', text: 'units cm\n' });
  });

  it('turns bytes that are no UTF-8 into a character that has no place in a cage file, and drops a byte order mark', async () => {
    expect(await read('bytes.cage')).toMatchObject({ text: 'a\ufffd\ufffdb' });
    expect(await read('bom.cage')).toMatchObject({ text: 'units in\n' });
    expect(decodeText(new Uint8Array([0xc3, 0xa4, 0x0d, 0x0a]))).toBe('ä\r\n');
  });

  it('follows a root that is itself a link', async () => {
    const linked = join(top, 'linked-root');
    symlinkSync(root, linked);
    const host = nodeHost({ root: linked });
    expect(await host.read('car.cage', 'parts/seat.cage')).toMatchObject({ kind: 'file', file: 'parts/seat.cage' });
    expect(await host.read('car.cage', 'link.cage')).toEqual({ kind: 'outside' });
  });

  it('turns keys into paths and back', () => {
    const host = nodeHost({ root });
    expect(host.keyOf(join(root, 'parts/seat.cage'))).toBe('parts/seat.cage');
    expect(host.keyOf(join(elsewhere, 'secret.cage'))).toBeNull();
    expect(host.pathOf('parts/seat.cage')).toBe(join(root, 'parts/seat.cage'));
  });
});
