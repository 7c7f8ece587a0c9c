/** The package: what is in it, how large it is, and that nothing in it talks to a network. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const node = (script: string, ...args: string[]): string =>
  execFileSync(process.execPath, [join(root, script), ...args], { cwd: root, encoding: 'utf8' });
const read = (file: string): string => readFileSync(join(root, file), 'utf8');

const VSCE = 'node_modules/@vscode/vsce/vsce';
const SERVER = 'server/dist';
const modules = (): readonly string[] =>
  readdirSync(join(root, SERVER))
    .filter((name) => name.endsWith('.js'))
    .map((name) => `${SERVER}/${name}`);
const bundles = (): readonly string[] => ['client/dist/extension.js', 'client/dist/view.js', ...modules()];
const LARGEST_PACKAGE = 1024 * 1024;
const LARGEST_VIEW = 700_000;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cage-package-'));
  node('client/tools/build.mjs');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the package', () => {
  it('holds these files and no others', () => {
    const files = node(VSCE, 'ls', '--no-dependencies').trim().split('\n').sort();
    // What the server and the command line share is called by its content.
    expect(files.map((file) => file.replace(/part-[0-9A-Z]{8}/, 'part'))).toEqual([
      'LICENSE',
      'README.md',
      'client/dist/extension.js',
      'client/dist/third-party-notices.txt',
      'client/dist/view.css',
      'client/dist/view.js',
      'client/media/icon.png',
      'grammar/cage.tmLanguage.json',
      'grammar/language-configuration.json',
      'grammar/snippets.json',
      'package.json',
      'server/dist/cli.js',
      'server/dist/package.json',
      ...modules().flatMap((file) => (file.includes('/part-') ? [file.replace(/part-[0-9A-Z]{8}/, 'part')] : [])),
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

  it('has a picture for the panel under 700 kB, that needs nothing which the panel forbids', () => {
    expect(statSync(join(root, 'client/dist/view.js')).size).toBeLessThan(LARGEST_VIEW);
    expect(read('client/dist/view.js')).not.toMatch(/\beval\(|\bnew Function\b|\bimport\(/);
    expect(read('client/dist/view.css')).not.toMatch(/@import|url\(/);
  });

  it('carries the licence of everything that is bundled', () => {
    const notices = read('client/dist/third-party-notices.txt');
    const { dependencies } = JSON.parse(read('package.json')) as { dependencies: Record<string, string> };
    for (const [name, version] of Object.entries(dependencies)) expect(notices).toContain(`${name} ${version} (`);
    expect(notices).toContain('Apache License');
  });

  it('has no way to a network', () => {
    for (const text of bundles().map(read)) {
      // `net` and `child_process` stay: the protocol's library can speak over pipes and starts the server with them.
      for (const name of ['http', 'https', 'http2', 'dgram', 'tls', 'dns', 'inspector']) {
        expect(text).not.toMatch(new RegExp(`(?:require\\(|from|import\\(|import)"(?:node:)?${name}(?:/promises)?"`));
      }
      expect(text).not.toMatch(/\bfetch\(|XMLHttpRequest|WebSocket\(|EventSource\(|sendBeacon/);
      expect(text).not.toMatch(/createTelemetryLogger|applicationinsights|isTelemetryEnabled/i);
    }
  });

  it('loads the shop papers only when they are asked for', () => {
    const mark = 'a paper of a packet';
    const holding = modules().filter((file) => read(file).includes(mark));
    expect(holding).not.toEqual([]);
    const atOnce = new Set<string>();
    const follow = (file: string): void => {
      if (atOnce.has(file)) return;
      atOnce.add(file);
      for (const [, name] of read(file).matchAll(/(?:from|import)"\.\/([^"]+)"/g)) follow(`${SERVER}/${name ?? ''}`);
    };
    for (const start of [`${SERVER}/server.js`, `${SERVER}/cli.js`]) follow(start);
    expect(atOnce.size).toBeGreaterThan(2);
    expect([...atOnce].filter((file) => holding.includes(file))).toEqual([]);
  });

  it('needs nothing beside it', () => {
    const builtIn =
      /^(?:node:)?(?:assert|buffer|child_process|crypto|events|fs|fs\/promises|module|net|os|path|process|stream|string_decoder|timers|timers\/promises|url|util|worker_threads)$/;
    const wanted = bundles().flatMap((bundle) =>
      [...read(bundle).matchAll(/\b(?:require\(|from|import\(|import)"([\w@.][\w@.:/-]*)"/g)].map(
        (match) => match[1] ?? '',
      ),
    );
    expect(wanted).toContain('node:fs');
    const own = new Set(modules().map((file) => file.replace(SERVER, '.')));
    expect(wanted.filter((name) => !builtIn.test(name) && name !== 'vscode' && !own.has(name))).toEqual([]);
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
