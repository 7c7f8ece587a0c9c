/**
 * The life of the server's process: what it answers before `initialize` and after `shutdown`, how it takes requests that
 * are none, and with which status it ends. The codes are those of the Language Server Protocol 3.17, "Server lifecycle".
 */
import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import {
  ErrorCodes,
  ExitNotification,
  InitializeRequest,
  ShutdownRequest,
  type ClientCapabilities,
  type Diagnostic,
} from 'vscode-languageserver/node.js';
import { TestClient } from '../support/language-client';

const CAR = 'cage "Test"\nunits mm\nnode a = (0, 600, 0)\nnode a = (0, 600, 1)\n';
const URI = 'untitled:one';

let client: TestClient;

beforeAll(() => {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../client/tools/build.mjs', import.meta.url))]);
});
afterEach(() => {
  client.process.kill();
});

/** The error code of an answer; null where there is none. */
const codeOf = async (method: string, params: unknown): Promise<number | null> => {
  try {
    await client.connection.sendRequest(method, params);
    return null;
  } catch (fault) {
    return fault !== null && typeof fault === 'object' && 'code' in fault ? Number(fault.code) : Number.NaN;
  }
};

const exitCode = async (): Promise<unknown> => {
  if (client.process.exitCode !== null) return client.process.exitCode;
  const [code] = (await once(client.process, 'exit')) as unknown[];
  return code;
};

describe('the life of the server', () => {
  it('begins with initialize, once, and ends with shutdown', async () => {
    client = TestClient.raw();
    const hover = { textDocument: { uri: URI }, position: { line: 2, character: 5 } };
    expect(await codeOf('textDocument/hover', hover)).toBe(ErrorCodes.ServerNotInitialized);
    await client.shakeHands();
    const again = { processId: null, rootUri: null, capabilities: {} };
    expect(await codeOf(InitializeRequest.method, again)).toBe(ErrorCodes.InvalidRequest);
    await client.open(URI, CAR);
    expect(await codeOf('textDocument/hover', hover)).toBeNull();
    await client.connection.sendRequest(ShutdownRequest.type);
    expect(await codeOf('textDocument/hover', hover)).toBe(ErrorCodes.InvalidRequest);
    await client.connection.sendNotification(ExitNotification.type);
    expect(await exitCode()).toBe(0);
  });

  it('ends with 1 when it is told to go without shutdown', async () => {
    client = TestClient.raw();
    await client.shakeHands();
    await client.connection.sendNotification(ExitNotification.type);
    expect(await exitCode()).toBe(1);
  });

  it('ends when the editor that started it is gone, though its input stays open', async () => {
    client = TestClient.raw();
    const parent = spawn(process.execPath, ['-e', 'setTimeout(() => undefined, 60_000)']);
    await client.shakeHands([], undefined, parent.pid);
    parent.kill();
    expect(await exitCode()).toBe(1);
  }, 20_000);

  it('refuses what it does not know and what is malformed, and goes on', async () => {
    client = TestClient.raw();
    await client.shakeHands();
    const textDocument = { uri: URI };
    expect(await codeOf('cage/unknown', {})).toBe(ErrorCodes.MethodNotFound);
    const position = { line: 2, character: 5 };
    const malformed: readonly (readonly [string, object])[] = [
      ['textDocument/hover', {}],
      ['textDocument/hover', { textDocument, position: { line: -1, character: 0 } }],
      ['textDocument/completion', { textDocument }],
      ['textDocument/definition', { textDocument: {}, position }],
      ['textDocument/rename', { textDocument, position }],
      ['textDocument/rangeFormatting', { textDocument, range: { start: position } }],
      ['textDocument/codeAction', { textDocument }],
      ['textDocument/documentSymbol', { textDocument: 7 }],
    ];
    for (const [method, params] of malformed)
      expect([method, await codeOf(method, params)]).toEqual([method, ErrorCodes.InvalidParams]);
    await client.connection.sendNotification('textDocument/didOpen', {});
    await client.connection.sendNotification('cage/unknown', {});
    expect((await client.open(URI, CAR)).map((one) => one.code)).toEqual(['name.twice']);
  });
});

describe('a client that can do little', () => {
  const problemsOf = async (capabilities: ClientCapabilities) => {
    client = TestClient.raw();
    await client.shakeHands([], capabilities);
    const [problem] = await client.open(URI, CAR);
    return { notes: problem?.relatedInformation?.length ?? 0, lines: problem?.message.split('\n').length };
  };

  it('reads notes in the message', async () => {
    expect(await problemsOf({})).toEqual({ notes: 0, lines: 2 });
  });

  it('sees a used file come and go on the disk though it watches none itself', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'cage-watch-'));
    try {
      const file = join(folder, 'parts.cage');
      const car = pathToFileURL(join(folder, 'car.cage')).href;
      writeFileSync(file, 'units mm\nlet high = 3\n');
      client = TestClient.raw();
      await client.shakeHands([folder], {});
      const codes = (list: readonly Diagnostic[]) => list.map((one) => one.code);
      expect(codes(await client.open(car, 'use "parts.cage"\nnode a = (0, 0, high)\n'))).toEqual([]);
      const gone = client.next(car);
      renameSync(file, join(folder, 'other.cage'));
      expect(codes((await gone).diagnostics)).toContain('use.missing');
      const back = client.next(car);
      renameSync(join(folder, 'other.cage'), file);
      expect(codes((await back).diagnostics)).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('gets them at their own places where it shows them', async () => {
    const shows = { textDocument: { publishDiagnostics: { relatedInformation: true } } };
    expect(await problemsOf(shows)).toEqual({ notes: 1, lines: 1 });
  });
});
