/** The picture over the protocol: the model of the newest text, what is sent again, a node tried, what a client is told. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ExportAnswer, MeasureAnswer, TextPlace, TryAnswer, WireModel } from '../../server/lsp/view-wire';
import { TestClient } from '../support/language-client';

const PART = 'node tail = (-700, 0, 300)\n';
const CAR = `cage "Plain"
units mm
use "part.cage"
section t38 { od 38; wall 2.5 }
die d38 { od 38; radius 114 }
mirror left {
  node foot = (0, 600, 0)
  node top = (0, 500, 1000)
  tube leg { section t38; path foot, top; first open; last open }
}
tube back { section t38; path top.left, tail; last open }
`;

let top = '';
let client: TestClient;
const judged: string[] = [];
const uri = (name: string): string => pathToFileURL(join(top, name)).href;

const request = <T>(method: string, of: string, more: object = {}): Promise<T> =>
  client.connection.sendRequest(`cagewright/${method}`, { textDocument: { uri: of }, ...more });
const view = (of = uri('car.cage'), have: unknown = {}): Promise<WireModel | null> =>
  request<WireModel | null>('view', of, { have });
const tried = (node: unknown, to: unknown, more: object = {}): Promise<TryAnswer> =>
  request<TryAnswer>('viewTry', uri('car.cage'), { node, to, have: {}, ...more });

/** What stands at a place of a text. */
const at = (text: string, { start, end }: TextPlace): string => {
  const lines = text.split('\n');
  expect(start.line).toBe(end.line);
  return (lines[start.line] ?? '').slice(start.character, end.character);
};

const keysOf = (model: WireModel | null): Record<string, string> =>
  Object.fromEntries((model?.things ?? []).map(({ id, key }) => [id, key]));

beforeAll(async () => {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../client/tools/build.mjs', import.meta.url))]);
  top = mkdtempSync(join(tmpdir(), 'cage-view-'));
  writeFileSync(join(top, 'part.cage'), PART);
  client = TestClient.raw();
  client.connection.onNotification('cagewright/judged', (params: { uri: string }) => judged.push(params.uri));
  await client.shakeHands([top], {}, process.pid, { view: true });
  await client.open(uri('car.cage'), CAR);
});
afterAll(async () => {
  await client.stop();
  rmSync(top, { recursive: true, force: true });
});

it('is the whole car: tubes with surfaces, places, nodes, findings', async () => {
  const model = await view();
  expect(model?.title).toBe('Plain');
  expect(model?.uri).toBe(uri('car.cage'));
  expect(model?.version).toBe(1);
  const leg = model?.things.find(({ id }) => id === 'tube:leg.left');
  expect(leg?.place === null || leg === undefined ? '' : at(CAR, leg.place)).toBe('leg');
  expect(leg?.mesh?.positions.length).toBeGreaterThan(1000);
  // A twin is written where the other one is.
  expect(model?.things.find(({ id }) => id === 'tube:leg.right')?.place).toEqual(leg?.place);
  const tail = model?.nodes.find(({ name }) => name === 'tail');
  expect(tail?.place?.uri).toBe(uri('part.cage'));
  expect(model?.findings.length).toBeGreaterThan(0);
});

it('sends no mesh again that the asker has', async () => {
  const first = await view();
  const again = await view(uri('car.cage'), keysOf(first));
  expect(again?.things.map(({ mesh }) => mesh)).toEqual(again?.things.map(() => null));
  await client.change(uri('car.cage'), CAR.replace('(0, 500, 1000)', '(0, 510, 1000)'));
  const after = await view(uri('car.cage'), keysOf(first));
  const sent = after?.things.filter(({ mesh }) => mesh !== null).map(({ id }) => id);
  expect(sent?.sort()).toEqual(['tube:back', 'tube:leg.left', 'tube:leg.right']);
  await client.change(uri('car.cage'), CAR);
});

it('shows the car where a part of it is open, and nothing for what is not', async () => {
  await client.open(uri('part.cage'), PART);
  expect((await view(uri('part.cage')))?.uri).toBe(uri('car.cage'));
  expect(await view(uri('none.cage'))).toBeNull();
  expect(await request('viewTry', uri('none.cage'), { node: 'x', to: [0, 0, 0] })).toBeNull();
  expect(await request('viewWindow', uri('none.cage'))).toBeNull();
});

it('tells when a car was judged anew', async () => {
  judged.length = 0;
  await client.change(uri('part.cage'), PART.replace('300', '310'));
  await view();
  expect(judged).toContain(uri('car.cage'));
  await client.change(uri('part.cage'), PART);
});

it('tries a node elsewhere: the car as it would be, and the edit that makes it so', async () => {
  const before = await view();
  const answer = await tried('node:top.left', [12.3, 480, 1000], { have: keysOf(before) });
  expect(answer.why).toBeNull();
  expect(answer.says).toBe('x 12, y 480');
  expect(answer.edits.map(({ place, text }) => [at(CAR, place), text])).toEqual([
    ['0', '12'],
    ['500', '480'],
  ]);
  expect(answer.model?.nodes.find(({ name }) => name === 'top.right')?.at).toEqual([12, -480, 1000]);
  expect(answer.model?.things.filter(({ mesh }) => mesh !== null).map(({ id }) => id)).toHaveLength(3);
  // Nothing is written: the car is what it was.
  expect((await view())?.nodes.find(({ name }) => name === 'top.left')?.at).toEqual([0, 500, 1000]);
});

it('measures between two picked things of the newest text', async () => {
  const a = { id: 'node:foot.left', at: [0, 0, 0] };
  const b = { id: 'node:foot.right', at: [0, 0, 0] };
  const answer = await request<MeasureAnswer | null>('measure', uri('car.cage'), { a, b });
  // The feet stand 600 to each side.
  expect(answer?.lines[0]?.says).toBe('1200 mm');
  for (const wrong of [null, {}, { id: 'tube:none', at: [0, 0, 0] }, { id: 'node:foot.left', at: ['0', 0, 0] }, 7])
    expect(await request('measure', uri('car.cage'), { a, b: wrong })).toBeNull();
});

it('gives drawings and glTF with the bytes that the command line writes', async () => {
  writeFileSync(join(top, 'car.cage'), CAR);
  const program = fileURLToPath(new URL('../../server/dist/cli.js', import.meta.url));
  const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
    version: string;
  };
  for (const kind of ['plan', 'side', 'front', 'glb']) {
    const out = join(top, kind === 'glb' ? 'x.glb' : 'x.svg');
    const view = kind === 'glb' ? [] : ['--view', kind];
    // It ends with 1: the car has errors, and the drawing is written all the same.
    spawnSync(process.execPath, [program, 'draw', 'car.cage', ...view, '--out', out], { cwd: top });
    const answer = await request<ExportAnswer | null>('export', uri('car.cage'), { kind, version });
    expect(answer?.name).toBe(kind === 'glb' ? 'car.glb' : `car.${kind}.svg`);
    expect(Buffer.from(answer?.content ?? '', 'base64').equals(readFileSync(out))).toBe(true);
  }
  expect(await request('export', uri('car.cage'), { kind: 'pdf', version })).toBeNull();
  // Of a car without a tube there is nothing to write.
  await client.open(uri('blank.cage'), 'cage "Blank"\n');
  for (const kind of ['plan', 'side', 'front', 'glb'])
    expect(await request('export', uri('blank.cage'), { kind, version }), kind).toBeNull();
});

it('answers whatever it is asked', async () => {
  for (const [node, to] of [
    [7, [0, 0, 0]],
    ['node:top.left', 'up'],
    ['node:top.left', [0, null, 1]],
    ['node:top.left', [0, 1e300, 1]],
    ['node:top.left', [1, 2]],
    ['node:nobody', [0, 0, 0]],
    ['__proto__', [0, 0, 0]],
  ]) {
    const answer = await tried(node, to, { have: 'all of them' });
    expect(answer.model).toBeNull();
    expect(answer.why).toMatch(/\w/);
  }
  expect((await view(uri('car.cage'), { 'tube:back': 5, __proto__: 'x' }))?.things).toHaveLength(3);
  await expect(client.connection.sendRequest('cagewright/view', { have: {} })).rejects.toThrow(/textDocument/);
});
