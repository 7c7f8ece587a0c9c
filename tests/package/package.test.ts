/** The package: what is in it, how large it is, and that nothing in it talks to a network. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const node = (script: string, ...args: string[]): string =>
  execFileSync(process.execPath, [join(root, script), ...args], { cwd: root, encoding: 'utf8' });
const read = (file: string): string => readFileSync(join(root, file), 'utf8');

const VSCE = 'node_modules/@vscode/vsce/vsce';
const BUNDLES = ['client/dist/extension.js', 'server/dist/server.js', 'server/dist/cli.js', 'server/dist/papers.js'];
const LARGEST_PACKAGE = 1024 * 1024;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cage-package-'));
  node('client/tools/build.mjs');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the package', () => {
  it('holds these files and no others', () => {
    const files = node(VSCE, 'ls', '--no-dependencies').trim().split('\n').sort();
    expect(files).toEqual([
      'LICENSE',
      'README.md',
      'client/dist/extension.js',
      'client/dist/third-party-notices.txt',
      'client/media/icon.png',
      'grammar/cage.tmLanguage.json',
      'grammar/language-configuration.json',
      'grammar/snippets.json',
      'package.json',
      'server/dist/cli.js',
      'server/dist/papers.js',
      'server/dist/server.js',
    ]);
  });

  it('is made without a question and is at most 1 MB', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    const options = (scripts['package'] ?? '').split('vsce package ')[1]?.split(' ') ?? [];
    const out = join(folder, 'cagewright.vsix');
    options[options.indexOf('--out') + 1] = out;
    node(VSCE, 'package', ...options);
    expect(statSync(out).size).toBeLessThanOrEqual(LARGEST_PACKAGE);
  });

  it('carries the licence of everything that is bundled', () => {
    const notices = read('client/dist/third-party-notices.txt');
    const { dependencies } = JSON.parse(read('package.json')) as { dependencies: Record<string, string> };
    for (const [name, version] of Object.entries(dependencies)) expect(notices).toContain(`${name} ${version} (`);
    expect(notices).toContain('Apache License');
  });

  it.each(BUNDLES)('%s has no way to a network', (bundle) => {
    const text = read(bundle);
    // `net` and `child_process` stay: the protocol's library can speak over pipes and starts the server with them.
    for (const name of ['http', 'https', 'http2', 'dgram', 'tls', 'dns', 'inspector']) {
      expect(text).not.toMatch(new RegExp(`require\\("(?:node:)?${name}(?:/promises)?"\\)`));
    }
    expect(text).not.toMatch(/\bfetch\(|XMLHttpRequest|WebSocket\(|EventSource\(|sendBeacon/);
    expect(text).not.toMatch(/createTelemetryLogger|applicationinsights|isTelemetryEnabled/i);
  });

  it('loads the shop papers only when they are asked for', () => {
    const mark = 'a paper of a packet';
    expect(read('server/dist/papers.js')).toContain(mark);
    for (const bundle of ['server/dist/server.js', 'server/dist/cli.js']) {
      expect(read(bundle)).not.toContain(mark);
      expect(read(bundle)).toContain('import("./papers.js")');
    }
  });

  it.each(BUNDLES)('%s needs nothing beside it', (bundle) => {
    const wanted = [...read(bundle).matchAll(/\brequire\("([^"]+)"\)/g)].map((match) => match[1] ?? '');
    const builtIn =
      /^(?:node:)?(?:assert|buffer|child_process|crypto|events|fs|fs\/promises|module|net|os|path|process|stream|string_decoder|timers|timers\/promises|url|util|worker_threads)$/;
    expect(wanted.filter((name) => !builtIn.test(name) && name !== 'vscode')).toEqual([]);
  });

  it('works in untrusted and in virtual workspaces, and its settings have scopes', () => {
    const manifest = JSON.parse(read('package.json')) as {
      capabilities: unknown;
      contributes: { configuration: { properties: Record<string, { scope?: string }> } };
    };
    expect(manifest.capabilities).toEqual({ untrustedWorkspaces: { supported: true }, virtualWorkspaces: true });
    for (const setting of Object.values(manifest.contributes.configuration.properties))
      expect(setting.scope).toBeDefined();
  });
});
