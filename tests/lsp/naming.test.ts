/** Names across the files of a folder, through the built server: references and renaming also reach cars that nobody has open. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import {
  CompletionRequest,
  PrepareRenameRequest,
  ReferencesRequest,
  RenameRequest,
  type CompletionItem,
  type TextDocumentEdit,
} from 'vscode-languageserver/node.js';
import { TestClient } from '../support/language-client';

const PARTS = 'units mm\nsection bar { od 38; wall 2.5 }\n';
const car = (more = ''): string => `cage "Car"
use "parts.cage"
node a = (0, 600, 0)
node b = (0, 600, 900)
tube t { section bar; path a, b; first open; last open }
${more}`;

let top = '';
let client: TestClient;
const uri = (name: string): string => pathToFileURL(join(top, name)).href;

beforeAll(() => {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../client/tools/build.mjs', import.meta.url))]);
  top = mkdtempSync(join(tmpdir(), 'cage-names-'));
  writeFileSync(join(top, 'parts.cage'), PARTS);
  writeFileSync(join(top, 'closed.cage'), car());
  writeFileSync(join(top, 'lonely.cage'), 'section bar { od 30; wall 2 }\n');
});
afterAll(() => rmSync(top, { recursive: true, force: true }));
beforeEach(async () => {
  client = await TestClient.start([top]);
});
afterEach(async () => {
  await client.stop();
});

const asked = () => ({ textDocument: { uri: uri('parts.cage') }, position: { line: 1, character: 9 } });

describe('a name of a part', () => {
  it('is renamed in every car that uses the part, open or not, each with its version', async () => {
    await client.open(uri('parts.cage'), PARTS);
    await client.open(uri('open.cage'), car());
    const edit = await client.connection.sendRequest(RenameRequest.type, { ...asked(), newName: 'tube-38' });
    const changes = (edit?.documentChanges ?? []) as TextDocumentEdit[];
    const told = changes.map(({ textDocument, edits }) => [
      textDocument.uri,
      textDocument.version,
      edits.map((one) => ('newText' in one && 'range' in one ? `${String(one.range.start.line)} ${one.newText}` : '')),
    ]);
    expect(told.sort()).toEqual(
      [
        [uri('parts.cage'), 1, ['1 tube-38']],
        [uri('open.cage'), 1, ['4 tube-38']],
        [uri('closed.cage'), null, ['4 tube-38']],
      ].sort(),
    );
  });

  it('is not renamed to what one of these cars names already', async () => {
    await client.open(uri('parts.cage'), PARTS);
    await client.open(uri('open.cage'), car('section thick { od 38; wall 4 }\n'));
    await expect(client.connection.sendRequest(RenameRequest.type, { ...asked(), newName: 'thick' })).rejects.toThrow(
      /'thick' is named already/,
    );
    await expect(client.connection.sendRequest(RenameRequest.type, { ...asked(), newName: 'a b' })).rejects.toThrow(
      /no name/,
    );
  });

  it('is found in every one of them', async () => {
    await client.open(uri('parts.cage'), PARTS);
    const found = await client.connection.sendRequest(ReferencesRequest.type, {
      ...asked(),
      context: { includeDeclaration: false },
    });
    expect(found?.map((one) => [one.uri, one.range.start.line])).toEqual([[uri('closed.cage'), 4]]);
  });

  it('is asked for before the new name is, and words of the language have none', async () => {
    await client.open(uri('parts.cage'), PARTS);
    expect(await client.connection.sendRequest(PrepareRenameRequest.type, asked())).toEqual({
      range: { start: { line: 1, character: 8 }, end: { line: 1, character: 11 } },
      placeholder: 'bar',
    });
    const word = { ...asked(), position: { line: 1, character: 2 } };
    expect(await client.connection.sendRequest(PrepareRenameRequest.type, word)).toBeNull();
  });
});

describe('the path of a use line', () => {
  it('is completed with the files of the folder', async () => {
    await client.openOnly(uri('new.cage'), 'cage "New"\nuse "\n');
    const items = (await client.connection.sendRequest(CompletionRequest.type, {
      textDocument: { uri: uri('new.cage') },
      position: { line: 1, character: 5 },
    })) as CompletionItem[];
    expect(items.map(({ label }) => label)).toEqual(['closed.cage', 'lonely.cage', 'parts.cage']);
    const at = { line: 1, character: 5 };
    expect(items[2]?.textEdit).toEqual({ range: { start: at, end: at }, newText: 'parts.cage"' });
  });
});
