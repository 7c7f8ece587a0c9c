/** The shop papers that the editor asks for: of the newest text, in a folder of the disk, nothing of others written over. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { PacketAnswer } from '../../server/lsp/packet-request';
import { GOOD } from '../cli/world';
import { TestClient } from '../support/language-client';

const CAR = GOOD.replace('Two posts and a rail', 'First');

let top = '';
let client: TestClient;
const uri = (name: string): string => pathToFileURL(join(top, name)).href;
const ask = (of: string, folder: unknown, force = false): Promise<PacketAnswer | null> =>
  client.connection.sendRequest('cagewright/packet', { textDocument: { uri: of }, folder, force, version: '9.8.7' });

beforeAll(async () => {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../client/tools/build.mjs', import.meta.url))]);
  top = mkdtempSync(join(tmpdir(), 'cage-packet-'));
  mkdirSync(join(top, 'shop'));
  client = await TestClient.start([top]);
});
afterAll(async () => {
  await client.stop();
  rmSync(top, { recursive: true, force: true });
});

it('are written into a folder of their own in the one that was picked', async () => {
  await client.open(uri('car.cage'), CAR);
  await client.changeOnly(uri('car.cage'), CAR.replace('First', 'Second'));
  const packet = await ask(uri('car.cage'), uri('shop'));
  const folder = join(top, 'shop/car-papers');
  expect(packet).toMatchObject({ why: null, page: join(folder, 'index.html'), errors: 0, stopped: 0 });
  const page = readFileSync(join(folder, 'index.html'), 'utf8');
  expect(page).toMatch(/<title>Second\b/);
  expect(page).not.toMatch(/\bFirst\b/);
  expect(page).toContain('Cagewright 9.8.7');
  expect(readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile())).toHaveLength(
    packet?.papers ?? -1,
  );
  // Picked itself, it is taken as it is.
  expect((await ask(uri('car.cage'), uri('shop/car-papers')))?.page).toBe(join(folder, 'index.html'));
});

it('leave alone what the tool has not made, unless the person says so', async () => {
  writeFileSync(join(top, 'shop/car-papers/index.html'), 'mine');
  expect((await ask(uri('car.cage'), uri('shop')))?.why).toContain('--force');
  expect(readFileSync(join(top, 'shop/car-papers/index.html'), 'utf8')).toBe('mine');
  expect((await ask(uri('car.cage'), uri('shop'), true))?.why).toBeNull();
});

it('are not made for what is not open, nor where there is no disk', async () => {
  expect(await ask(uri('none.cage'), uri('shop'))).toBeNull();
  expect(await ask(uri('car.cage'), 'memfs:/shop')).toBeNull();
  expect(await ask(uri('car.cage'), 7)).toBeNull();
});
