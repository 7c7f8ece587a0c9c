/** The link behind a finding's code, and the page that it leads to. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver/node.js';
import { CODES } from '../../grammar/codes';
import { STAGES } from '../../grammar/explanations';
import { ASKING, TestClient } from '../support/language-client';

const CLUB = 'rulebook heron-club based on fia-253 {\n  limit strap.drop from 0 to 5 cite "yearbook 2026, 4.2"\n}\n';
const CAR = `use "club.cage"\nrules heron-club\n${STAGES.harness}
strap inner { seat driver; slot inner; to bar; width 75; hardware 110; collars 20 gap 1.5 }
`;

let top = '';
let client: TestClient;
const uri = (name: string): string => pathToFileURL(join(top, name)).href;
const page = (code: unknown, of: unknown = uri('car.cage')): Promise<string | null> =>
  client.connection.sendRequest('cagewright/explain', { code, uri: of });

const start = async (options: unknown): Promise<Diagnostic[]> => {
  client = TestClient.raw();
  const { diagnostic: _, ...textDocument } = ASKING.textDocument ?? {};
  await client.shakeHands([top], { ...ASKING, textDocument }, process.pid, options);
  return client.open(uri('car.cage'), CAR);
};

beforeAll(() => {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../client/tools/build.mjs', import.meta.url))]);
  top = mkdtempSync(join(tmpdir(), 'cage-explain-'));
  writeFileSync(join(top, 'club.cage'), CLUB);
});
afterAll(() => rmSync(top, { recursive: true, force: true }));

it("leads to a page with every book's limit, also the club's, with citation and state of source", async () => {
  const found = await start({ explainScheme: 'cagewright-explain' });
  const drop = found.find(({ code }) => code === 'strap.drop');
  const href = drop?.codeDescription?.href ?? '';
  expect(href).toBe(`cagewright-explain:/strap.drop.md?${encodeURIComponent(uri('car.cage'))}`);
  const { pathname, search } = new URL(href);
  const said = await page(pathname.slice(1).replace(/\.md$/, ''), decodeURIComponent(search.slice(1)));
  for (const words of [
    '# strap.drop',
    '**What.**',
    '**Why.**',
    '**Measured.**',
    '**Not so',
    '**But so**',
    'fia-253 allows 0 to 45° (Appendix J, Article 253-6.2, 2013 text, published): error.',
    'heron-club allows 0 to 5° (yearbook 2026, 4.2, written here): error.',
  ])
    expect(said).toContain(words);
  await client.stop();
});

it('has a page for every code, none for what is no code, and no fault on odd questions', async () => {
  await start({ explainScheme: 'cagewright-explain' });
  for (const code of Object.keys(CODES)) expect(await page(code)).toContain(`# ${code}`);
  expect(await page('strap.dropp')).toBeNull();
  expect(await page('strap.drop', '')).not.toContain('heron-club');
  expect(await page('strap.drop', uri('gone.cage'))).toContain('fia-253');
  for (const odd of [5, null, {}]) expect(await page(odd)).toBeNull();
  expect(client.log).toEqual([]);
  await client.stop();
});

it('is not given to an editor that has no such pages', async () => {
  for (const options of [undefined, {}, { explainScheme: 5 }, { explainScheme: 'no scheme' }]) {
    const found = await start(options);
    expect(found.length).toBeGreaterThan(0);
    expect(found.filter(({ codeDescription }) => codeDescription !== undefined)).toEqual([]);
    await client.stop();
  }
});
