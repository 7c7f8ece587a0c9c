/** The built server as a process, spoken to over standard input and output. Few and quick: the features have tests of their own. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, unlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import {
  CodeActionRequest,
  CodeActionResolveRequest,
  CompletionRequest,
  DefinitionRequest,
  DiagnosticRefreshRequest,
  DidChangeWatchedFilesNotification,
  DocumentDiagnosticRequest,
  DocumentFormattingRequest,
  DocumentSymbolRequest,
  FileChangeType,
  HoverRequest,
  RenameRequest,
  type CodeAction,
  type CompletionItem,
  type Diagnostic,
  type DocumentSymbol,
} from 'vscode-languageserver/node.js';
import { ASKING, SERVER, TestClient } from '../support/language-client';

const CAR = `cage "Test"
units mm
section s { od 45; wall 2.5 }
node a = (0, 600, 0)
node b = (0, 600, 1000)
tube t { section s; path a, b; first open; last open }
`;

const codes = (diagnostics: readonly Diagnostic[]): unknown[] => diagnostics.map((one) => one.code);
const errors = (diagnostics: readonly Diagnostic[]): unknown[] =>
  diagnostics.filter((one) => one.severity === 1).map((one) => one.code);

let top = '';
let client: TestClient;
const uri = (name: string): string => pathToFileURL(join(top, 'work', name)).href;

beforeAll(() => {
  // The tests run the bundle that is packed, made from the sources as they are now.
  execFileSync(process.execPath, [fileURLToPath(new URL('../../client/tools/build.mjs', import.meta.url))]);
  top = mkdtempSync(join(tmpdir(), 'cage-lsp-'));
  mkdirSync(join(top, 'work'));
  writeFileSync(join(top, 'secret.cage'), 'let secret = 1\n');
  symlinkSync(join(top, 'secret.cage'), join(top, 'work/link.cage'));
  writeFileSync(join(top, 'work/parts.cage'), 'units mm\nsection s { od 45; wall 2.5 }\n');
});
afterAll(() => rmSync(top, { recursive: true, force: true }));
afterEach(async () => {
  if (client.process.exitCode === null) await client.stop();
});

const start = async (capabilities?: typeof ASKING): Promise<TestClient> => {
  client = await TestClient.start([join(top, 'work')], capabilities);
  return client;
};

describe('problems', () => {
  it('come on opening, follow every edit with its version, and go on closing', async () => {
    await start();
    expect(errors(await client.open(uri('car.cage'), CAR))).toEqual([]);
    const broken = await client.change(uri('car.cage'), CAR.replace('node a', 'nod a'));
    expect(codes(broken)).toContain('kind.unknown');
    expect(broken.find((one) => one.code === 'kind.unknown')?.range).toEqual({
      start: { line: 3, character: 0 },
      end: { line: 3, character: 3 },
    });
    expect(
      errors(
        await client.change(uri('car.cage'), 'node', {
          start: { line: 3, character: 0 },
          end: { line: 3, character: 3 },
        }),
      ),
    ).toEqual([]);
    await client.change(uri('car.cage'), CAR.replace('node a', 'nod a'));
    const gone = client.next(uri('car.cage'));
    await client.close(uri('car.cage'));
    expect((await gone).diagnostics).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  it('are about the newest text after a burst of edits, and never of an older one', async () => {
    await start();
    await client.open(uri('car.cage'), CAR);
    const last = client.next(uri('car.cage'), 41);
    for (let i = 0; i < 39; i += 1)
      await client.changeOnly(uri('car.cage'), CAR.replace('node a', `nod${'x'.repeat(i)} a`));
    await client.changeOnly(uri('car.cage'), CAR);
    expect(errors((await last).diagnostics)).toEqual([]);
    const versions = client.published.map((params) => params.version ?? 0);
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
  });

  it('count in UTF-16 units, behind emoji, accents and CRLF', async () => {
    await start();
    const text = 'units mm\r\n# 🏁 ä\r\nnode ä = (0, 0, 0); nod b = (0, 0, 0)\r\n';
    const found = await client.open(uri('wide.cage'), text);
    const wrong = found.find((one) => one.code === 'kind.unknown');
    expect(wrong?.range.start).toEqual({ line: 2, character: 'node ä = (0, 0, 0); '.length });
  });

  it('hang on the unsaved text of a used file, and on the disk when it is closed', async () => {
    await start();
    const car = CAR.replace('section s { od 45; wall 2.5 }', 'use "parts.cage"');
    expect(errors(await client.open(uri('car.cage'), car))).toEqual([]);
    await client.open(uri('parts.cage'), 'units mm\nsection s { od 45; wall 2.5 }\n');
    const next = client.next(uri('car.cage'));
    await client.change(uri('parts.cage'), 'units mm\nsection other { od 45; wall 2.5 }\n');
    expect(errors((await next).diagnostics)).toEqual(['name.unknown']);
    const back = client.next(uri('car.cage'));
    await client.close(uri('parts.cage'));
    expect(errors((await back).diagnostics)).toEqual([]);
  });

  it('follow files that come, change and go on the disk', async () => {
    await start();
    const car = CAR.replace('section s { od 45; wall 2.5 }', 'use "late.cage"');
    expect(errors(await client.open(uri('car.cage'), car))).toContain('use.missing');
    const changed = async (type: FileChangeType): Promise<Diagnostic[]> => {
      const next = client.next(uri('car.cage'));
      await client.connection.sendNotification(DidChangeWatchedFilesNotification.type, {
        changes: [{ uri: uri('late.cage'), type }],
      });
      return (await next).diagnostics;
    };
    writeFileSync(join(top, 'work/late.cage'), 'units mm\nsection s { od 45; wall 2.5 }\nnod x = 1\n');
    const inUsed = client.next(uri('late.cage'));
    expect(errors(await changed(FileChangeType.Created))).toEqual([]);
    expect(codes((await inUsed).diagnostics)).toEqual(['kind.unknown']);
    unlinkSync(join(top, 'work/late.cage'));
    const cleared = client.next(uri('late.cage'));
    expect(errors(await changed(FileChangeType.Deleted))).toContain('use.missing');
    expect((await cleared).diagnostics).toEqual([]);
  });

  it('keep what is waived in the list, marked', async () => {
    await start();
    // Two equal tubes at 20 degrees: the shallow end is waived.
    const car = (waiver: string): string => `cage "Waived"
section s { od 45; wall 2.5 }
node a = (0, 0, 0)
node b = (1000, 0, 0)
node m = (500, 0, 0)
node far = m + (aft 470, up 171)
tube post { section s; path a, b; first open; last open }
tube arm { section s; path m, far; last open }
${waiver}`;
    const shallow = (list: readonly Diagnostic[]) => list.find((one) => one.code === 'cope.shallow');
    expect(shallow(await client.open(uri('waived.cage'), car('')))?.severity).toBe(2);
    const told = await client.change(uri('waived.cage'), car('waive cope.shallow on arm first because "gusseted"\n'));
    expect(shallow(told)?.message).toMatch(/^Waived\. /);
    expect(shallow(told)?.severity).toBe(3);
  });

  it('refuse what lies outside the workspace', async () => {
    await start();
    const found = await client.open(
      uri('car.cage'),
      `${CAR}use "../secret.cage"\nuse "link.cage"\nnode c = (secret, 0, 0)\n`,
    );
    expect(errors(found)).toEqual(['use.outside', 'use.outside', 'name.unknown']);
  });

  it('see the files of their own folder, where there are several', async () => {
    const [one, two] = [join(top, 'one'), join(top, 'two')];
    for (const folder of [one, two]) mkdirSync(folder);
    writeFileSync(join(one, 'parts.cage'), 'units mm\nsection s { od 45; wall 2.5 }\n');
    writeFileSync(join(two, 'parts.cage'), 'units mm\nsection other { od 45; wall 2.5 }\n');
    client = await TestClient.start([one, two]);
    const car = CAR.replace('section s { od 45; wall 2.5 }', 'use "parts.cage"');
    const of = (folder: string): string => pathToFileURL(join(folder, 'car.cage')).href;
    expect(errors(await client.open(of(one), car))).toEqual([]);
    expect(errors(await client.open(of(two), car))).toEqual(['name.unknown']);
    const other = CAR.replace('section s { od 45; wall 2.5 }', 'use "../one/parts.cage"');
    expect(errors(await client.change(of(two), other))).toContain('use.outside');
  });

  it('come for untitled documents, and for files outside every folder', async () => {
    await start();
    expect(codes(await client.open('untitled:Untitled-1', 'nod a = (0, 0, 0)\n'))).toContain('kind.unknown');
    expect(
      errors(
        await client.open('untitled:Untitled-2', CAR.replace('section s { od 45; wall 2.5 }', 'use "parts.cage"')),
      ),
    ).toEqual([]);
    const lone = pathToFileURL(join(top, 'lone.cage')).href;
    expect(
      errors(await client.open(lone, CAR.replace('section s { od 45; wall 2.5 }', 'use "work/parts.cage"'))),
    ).toEqual([]);
  });
});

describe('a client that asks', () => {
  const ask = (name: string, previousResultId?: string) =>
    client.connection.sendRequest(DocumentDiagnosticRequest.type, {
      textDocument: { uri: uri(name) },
      ...(previousResultId === undefined ? {} : { previousResultId }),
    });

  it('is answered, told when nothing changed, and sent nothing', async () => {
    await start(ASKING);
    await client.openOnly(uri('car.cage'), CAR.replace('node a', 'nod a'));
    const first = await ask('car.cage');
    expect(first.kind === 'full' && codes(first.items)).toContain('kind.unknown');
    expect(await ask('car.cage', first.kind === 'full' ? first.resultId : '')).toMatchObject({ kind: 'unchanged' });
    await client.changeOnly(uri('car.cage'), CAR);
    const mended = await ask('car.cage');
    expect(mended.kind === 'full' && errors(mended.items)).toEqual([]);
    expect(client.published).toEqual([]);
  });

  it('is asked to ask again when a used file changes what it was told', async () => {
    await start(ASKING);
    await client.openOnly(uri('car.cage'), CAR.replace('section s { od 45; wall 2.5 }', 'use "parts.cage"'));
    await ask('car.cage');
    const refreshed = new Promise<void>((done) => {
      client.connection.onRequest(DiagnosticRefreshRequest.type, () => done());
    });
    await client.openOnly(uri('parts.cage'), 'units mm\n');
    await refreshed;
    const again = await ask('car.cage');
    expect(again.kind === 'full' && errors(again.items)).toEqual(['name.unknown']);
  });
});

describe('features', () => {
  it('answer hover, completion, definition, outline, formatting, renaming and quick fixes', async () => {
    await start();
    await client.open(uri('car.cage'), CAR);
    const textDocument = { uri: uri('car.cage') };
    const hover = await client.connection.sendRequest(HoverRequest.type, {
      textDocument,
      position: { line: 5, character: 5 },
    });
    expect(hover?.contents).toMatchObject({
      kind: 'markdown',
      value: expect.stringContaining('Centreline | 1000.0 | 39.370'),
    });
    expect(hover?.range).toEqual({ start: { line: 5, character: 5 }, end: { line: 5, character: 6 } });

    const items = await client.connection.sendRequest(CompletionRequest.type, {
      textDocument,
      position: { line: 5, character: 17 },
    });
    expect(items as CompletionItem[]).toContainEqual(
      expect.objectContaining({
        label: 's',
        textEdit: { range: { start: { line: 5, character: 17 }, end: { line: 5, character: 17 } }, newText: 's' },
      }),
    );

    const definition = await client.connection.sendRequest(DefinitionRequest.type, {
      textDocument,
      position: { line: 5, character: 25 },
    });
    expect(definition).toEqual([
      { uri: uri('car.cage'), range: { start: { line: 3, character: 5 }, end: { line: 3, character: 6 } } },
    ]);

    const symbols = (await client.connection.sendRequest(DocumentSymbolRequest.type, {
      textDocument,
    })) as DocumentSymbol[];
    expect(symbols.map(({ name }) => name)).toEqual(['Test', 'units mm', 's', 'a', 'b', 't']);

    const renamed = await client.connection.sendRequest(RenameRequest.type, {
      textDocument,
      position: { line: 3, character: 5 },
      newName: 'low',
    });
    expect(renamed?.documentChanges?.[0]).toMatchObject({
      textDocument: { version: 1 },
      edits: [{ newText: 'low' }, { newText: 'low' }],
    });

    await client.change(
      uri('car.cage'),
      CAR.replace('node a =   ', 'node a =').replace(
        'node b = (0, 600, 1000)',
        'nod b   =   (0, 600, 1000)\nnode  c=(0,0,0)',
      ),
    );
    const edits = await client.connection.sendRequest(DocumentFormattingRequest.type, {
      textDocument,
      options: { tabSize: 2, insertSpaces: true },
    });
    expect(edits?.some(({ newText }) => newText.includes('node c = (0, 0, 0)'))).toBe(true);

    const range = { start: { line: 4, character: 0 }, end: { line: 4, character: 3 } };
    const actions = (await client.connection.sendRequest(CodeActionRequest.type, {
      textDocument,
      range,
      context: { diagnostics: [] },
    })) as CodeAction[];
    const fix = actions.find((action) => action.isPreferred === true);
    expect(fix?.edit).toBeUndefined();
    const solved = await client.connection.sendRequest(CodeActionResolveRequest.type, fix as CodeAction);
    expect(solved.edit?.documentChanges?.[0]).toMatchObject({ edits: [{ range, newText: 'node' }] });
  });

  it('survive garbage', async () => {
    await start();
    const texts = ['\0\0\ufffd{{{{', '('.repeat(100_000), 'node a = '.repeat(20_000), '"', '}'.repeat(5000), 'use "'];
    await client.open(uri('bad.cage'), '');
    for (const text of texts) {
      await client.change(uri('bad.cage'), text);
      const textDocument = { uri: uri('bad.cage') };
      for (const position of [
        { line: 0, character: 0 },
        { line: 0, character: text.length },
        { line: 99, character: 99 },
      ]) {
        await client.connection.sendRequest(HoverRequest.type, { textDocument, position });
        await client.connection.sendRequest(CompletionRequest.type, { textDocument, position });
      }
      await client.connection.sendRequest(DocumentSymbolRequest.type, { textDocument });
      await client.connection.sendRequest(DocumentFormattingRequest.type, {
        textDocument,
        options: { tabSize: 2, insertSpaces: true },
      });
    }
    expect(errors(await client.change(uri('bad.cage'), CAR))).toEqual([]);
    expect(client.log).toEqual([]);
  });

  it('is the same server behind the command line', async () => {
    const command = [process.execPath, join(dirname(SERVER), 'cli.js'), 'lsp', '--stdio'];
    client = await TestClient.start([join(top, 'work')], undefined, command);
    expect(codes(await client.open(uri('car.cage'), CAR.replace('node a', 'nod a')))).toContain('kind.unknown');
    expect(await client.stop()).toBe(0);
  });

  it('ends when its client is gone', async () => {
    await start();
    const ended = new Promise((done) => client.process.once('exit', done));
    client.process.stdin?.end();
    await ended;
  });
});
