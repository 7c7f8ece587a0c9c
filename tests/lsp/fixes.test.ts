/**
 * Quick fixes as an editor takes them: for every finding of every fixture, asked for at its place, resolved, applied to the
 * text that the server has open. The preferred one must make its finding go.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  CodeActionKind,
  CodeActionRequest,
  CodeActionResolveRequest,
  CodeActionTriggerKind,
  CancellationTokenSource,
  type CodeAction,
  type Diagnostic,
  type Position,
  type TextDocumentEdit,
} from 'vscode-languageserver/node.js';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { readAnnotated } from '../support/annotated';
import { TestClient } from '../support/language-client';

const fixtures = new URL('../findings/fixtures/', import.meta.url);

let top = '';
let client: TestClient;
const uri = (name: string): string => pathToFileURL(join(top, name)).href;

beforeAll(async () => {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../client/tools/build.mjs', import.meta.url))]);
  top = mkdtempSync(join(tmpdir(), 'cage-fixes-'));
  client = await TestClient.start([top]);
});
afterAll(async () => {
  await client.stop();
  rmSync(top, { recursive: true, force: true });
});

const actionsAt = async (where: string, at: Position, diagnostics: Diagnostic[] = [], only?: string[]) =>
  ((await client.connection.sendRequest(CodeActionRequest.type, {
    textDocument: { uri: where },
    range: { start: at, end: at },
    context: { diagnostics, ...(only === undefined ? {} : { only }) },
  })) ?? []) as CodeAction[];

/** The text after a fix, where it changes the document alone. */
const applied = async (action: CodeAction, document: TextDocument): Promise<string | null> => {
  const { edit } = await client.connection.sendRequest(CodeActionResolveRequest.type, action);
  const changes = (edit?.documentChanges ?? []) as TextDocumentEdit[];
  if (changes.length !== 1 || changes[0]?.textDocument.uri !== document.uri) return null;
  expect(changes[0].textDocument.version).toBe(document.version);
  return TextDocument.applyEdits(
    document,
    changes[0].edits.flatMap((one) => ('newText' in one ? [one] : [])),
  );
};

const count = (list: readonly Diagnostic[], { code, message }: Diagnostic): number =>
  list.filter((one) => one.code === code && one.message === message).length;

describe('quick fixes', () => {
  it('that are preferred make their finding go', async () => {
    const mended = new Set<unknown>();
    for (const name of readdirSync(fixtures)) {
      const { text, files } = readAnnotated(readFileSync(new URL(name, fixtures), 'utf8'), name);
      for (const [file, content] of Object.entries(files)) {
        mkdirSync(dirname(join(top, name, file)), { recursive: true });
        writeFileSync(join(top, name, file), content);
      }
      const where = uri(join(name, name));
      const found = await client.open(where, text);
      for (const finding of found) {
        const actions = await actionsAt(where, finding.range.start, [finding]);
        for (const action of actions) {
          expect(action.kind).toBe(CodeActionKind.QuickFix);
          expect(action.edit).toBeUndefined();
        }
        const mine = actions.filter((action) => action.diagnostics?.length === 1 && action.isPreferred === true);
        expect(mine.length, `${name} ${String(finding.code)}`).toBeLessThan(3);
        const [action] = mine;
        if (action === undefined) continue;
        const version = client.versionOf(where);
        const document = TextDocument.create(where, 'cage', version, text);
        const after = await applied(action, document);
        if (after === null) continue;
        expect(after).not.toBe(text);
        const left = await client.change(where, after);
        expect(count(left, finding), `${name}: ${action.title}`).toBeLessThan(count(found, finding));
        mended.add(finding.code);
        await client.change(where, text);
      }
      await client.close(where);
    }
    // The codes whose fixes were asked for first.
    for (const code of [
      'syntax.decimal-comma',
      'syntax.degree-sign',
      'syntax.inch-sign',
      'number.mixed-fraction',
      'unit.unknown',
      'unit.inch-after-angle',
      'name.unknown',
      'name.case',
      'kind.unknown',
      'fact.unknown',
      'role.unknown',
      'place.near-miss',
      'space.unvented',
    ])
      expect([...mended]).toContain(code);
  }, 60_000);

  it('are offered only where their finding stands, and only to who asks for quick fixes', async () => {
    const where = uri('here.cage');
    await client.open(where, 'nod a = (0, 0, 0)\nnode b = (0, 0, 0)\n');
    expect(await actionsAt(where, { line: 1, character: 2 })).toEqual([]);
    expect((await actionsAt(where, { line: 0, character: 1 })).map(({ title }) => title)).not.toEqual([]);
    expect(await actionsAt(where, { line: 0, character: 1 }, [], ['refactor'])).toEqual([]);
    expect(await actionsAt(where, { line: 0, character: 1 }, [], ['quickfix'])).not.toEqual([]);
  });

  it('solve a number when a person asks, and never because the cursor moved', async () => {
    const sample = readFileSync(new URL('../../samples/plover-rollbar.cage', import.meta.url), 'utf8');
    const text = sample.replace('let bar-height = 756', 'let bar-height = 715').replace(/^rules .*$/m, 'rules shop');
    const where = uri('low-bar.cage');
    const found = await client.open(where, text);
    const drop = found.find(({ code }) => code === 'strap.drop');
    const ask = async (triggerKind: 1 | 2): Promise<CodeAction[]> =>
      ((await client.connection.sendRequest(CodeActionRequest.type, {
        textDocument: { uri: where },
        range: drop?.range ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
        context: { diagnostics: drop === undefined ? [] : [drop], triggerKind },
      })) ?? []) as CodeAction[];
    const raised = (actions: readonly CodeAction[]): CodeAction | undefined =>
      actions.find(({ title }) =>
        /^Raise bar-height from 715 to 7\d\d mm, 4 nodes move: then strap .* drops/.test(title),
      );
    expect(raised(await ask(CodeActionTriggerKind.Automatic))).toBeUndefined();
    const action = raised(await ask(CodeActionTriggerKind.Invoked));
    expect(action?.isPreferred).toBe(true);
    const document = TextDocument.create(where, 'cage', client.versionOf(where), text);
    const after = (await applied(action ?? { title: '' }, document)) ?? '';
    expect(after).toMatch(/^let bar-height = 7\d\d {2}# centre of the harness bar/m);
    const left = await client.change(where, after);
    expect(left.some(({ message }) => message === drop?.message)).toBe(false);
    expect(left.length).toBeLessThan(found.length);
  });

  it('are given up when the editor cancels', async () => {
    const sample = readFileSync(new URL('../../samples/plover-rollbar.cage', import.meta.url), 'utf8');
    const where = uri('cancelled.cage');
    const found = await client.open(where, sample.replace('let bar-height = 756', 'let bar-height = 715'));
    const drop = found.find(({ code }) => code === 'strap.drop');
    const cancel = new CancellationTokenSource();
    const asked = client.connection.sendRequest(
      CodeActionRequest.type,
      {
        textDocument: { uri: where },
        range: drop?.range ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
        context: { diagnostics: [], triggerKind: CodeActionTriggerKind.Invoked },
      },
      cancel.token,
    );
    cancel.cancel();
    await expect(asked).rejects.toThrow(/[Cc]ancel/);
  });

  it('that are taken after the text has changed are refused', async () => {
    const where = uri('late.cage');
    await client.open(where, 'nod a = (0, 0, 0)\n');
    const [action] = await actionsAt(where, { line: 0, character: 1 });
    await client.change(where, '# above\nnod a = (0, 0, 0)\n');
    await expect(client.connection.sendRequest(CodeActionResolveRequest.type, action ?? { title: '' })).rejects.toThrow(
      /changed/,
    );
  });
});
