/** The page that the editor asks for: of the newest text, and of the car where a part is open. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { STAGES } from '../../grammar/explanations';
import { TestClient } from '../support/language-client';

const PART = 'seat spare { slots (240, -300, 750); recline 10 deg; slot-spacing 220; back 45 }\n';
const CAR = `cage "First"\nuse "part.cage"\nrules fia-253\n${STAGES.harness}`;

let top = '';
let client: TestClient;
const uri = (name: string): string => pathToFileURL(join(top, name)).href;
const ask = (of: string): Promise<{ html: string; uri: string; errors: number } | null> =>
  client.connection.sendRequest('cagewright/report', { textDocument: { uri: of }, version: '9.8.7' });

beforeAll(async () => {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../client/tools/build.mjs', import.meta.url))]);
  top = mkdtempSync(join(tmpdir(), 'cage-report-'));
  writeFileSync(join(top, 'part.cage'), PART);
  client = await TestClient.start([top]);
});
afterAll(async () => {
  await client.stop();
  rmSync(top, { recursive: true, force: true });
});

it('is made from the newest text, with lines and the version of the extension', async () => {
  await client.open(uri('car.cage'), CAR);
  expect((await ask(uri('car.cage')))?.html).toContain('Report for the scrutineer: First');
  await client.changeOnly(uri('car.cage'), `${CAR.replace('First', 'Second')}tube stray { }\n`);
  const report = await ask(uri('car.cage'));
  expect(report?.html).toContain('Report for the scrutineer: Second');
  expect(report?.html).toContain('Cagewright 9.8.7');
  expect(report?.html).toMatch(/car\.cage:\d+/);
  expect(report?.errors).toBeGreaterThan(0);
});

it('is that of the car where a part of it is open, and none for what is not open', async () => {
  await client.open(uri('part.cage'), PART);
  const report = await ask(uri('part.cage'));
  expect(report?.uri).toBe(uri('car.cage'));
  expect(report?.html).toContain('spare');
  expect(await ask(uri('none.cage'))).toBeNull();
});
