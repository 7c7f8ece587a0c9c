/** What `check` prints and what the editor underlines are one list: over every sample, in every file that it reaches. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { HoverRequest } from 'vscode-languageserver/node.js';
import type { World } from '../cli/world';
import { world } from '../cli/world';
import { TestClient } from '../support/language-client';

const FOLDER = join(__dirname, '../../samples');
const samples = readdirSync(FOLDER).filter((name) => name.endsWith('.cage'));

interface Printed {
  readonly file: string;
  readonly range: { readonly start: unknown; readonly end: unknown };
  readonly severity: string;
  readonly code: string;
  readonly message: string;
  readonly waived: boolean;
}

const SEVERITIES = ['', 'error', 'warning', 'information'];

let w: World;
let client: TestClient;

beforeAll(async () => {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../client/tools/build.mjs', import.meta.url))]);
  w = await world(Object.fromEntries(samples.map((name) => [name, readFileSync(join(FOLDER, name), 'utf8')])));
  client = await TestClient.start([w.cwd]);
});
afterAll(async () => {
  await client.stop();
  await w.remove();
});

/** One line for each finding, in an order that both share. */
const lines = (of: readonly (readonly unknown[])[]): readonly string[] => of.map((one) => JSON.stringify(one)).sort();

describe.each(samples)('%s', (name) => {
  it('has the same findings in the terminal and in the editor', async () => {
    const uri = pathToFileURL(w.path(name)).href;
    const printed = JSON.parse((await w.run(['check', name, '--format', 'json'])).stdout) as {
      readonly findings: readonly Printed[];
    };
    const before = client.published.length;
    await client.open(uri, readFileSync(join(FOLDER, name), 'utf8'));
    // What was sent before an answer has arrived with it.
    await client.connection.sendRequest(HoverRequest.type, {
      textDocument: { uri },
      position: { line: 0, character: 0 },
    });
    const newest = new Map(client.published.slice(before).map((params) => [params.uri, params.diagnostics]));
    const shown = [...newest].flatMap(([file, diagnostics]) =>
      diagnostics.map(({ range, severity, code, message }) => [
        fileURLToPath(file).slice(w.cwd.length + 1),
        range,
        SEVERITIES[severity ?? 0],
        code,
        message.split('\n')[0]?.replace(/^Waived\. /, ''),
      ]),
    );
    expect(lines(shown)).toEqual(
      lines(printed.findings.map(({ file, range, severity, code, message }) => [file, range, severity, code, message])),
    );
    await client.close(uri);
  });
});
