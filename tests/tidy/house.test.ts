/** House rules that a machine can hold: who may import whom, what the core may not touch, what may stand at the top. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = path.resolve(__dirname, '../..');

/** What each layer may import, besides itself. The order is the flow of data. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  grammar: [],
  'server/centreline': [],
  'server/cage': ['grammar', 'server/centreline'],
  'server/geometry': ['grammar', 'server/centreline', 'server/cage'],
  'server/rules': ['grammar', 'server/centreline', 'server/cage', 'server/geometry'],
  'server/drawing': ['grammar', 'server/centreline', 'server/cage', 'server/geometry'],
  'server/papers': ['grammar', 'server/centreline', 'server/cage', 'server/geometry', 'server/rules', 'server/drawing'],
  'server/mesh': ['grammar', 'server/centreline', 'server/cage', 'server/geometry', 'server/drawing'],
  'server/view': [
    'grammar',
    'server/centreline',
    'server/cage',
    'server/geometry',
    'server/rules',
    'server/drawing',
    'server/papers',
    'server/fixes',
    'server/mesh',
  ],
  'server/fixes': ['grammar', 'server/centreline', 'server/cage', 'server/geometry', 'server/rules', 'server/project'],
  'server/project': [
    'grammar',
    'server/centreline',
    'server/cage',
    'server/geometry',
    'server/rules',
    'server/drawing',
    'server/papers',
    'server/mesh',
    'server/view',
  ],
  'server/editor': [
    'grammar',
    'server/centreline',
    'server/cage',
    'server/geometry',
    'server/rules',
    'server/fixes',
    'server/project',
  ],
  'server/host': ['grammar', 'server/project'],
  'server/lsp': [
    'grammar',
    'server/cage',
    'server/view',
    'server/project',
    'server/fixes',
    'server/editor',
    'server/host',
  ],
  'server/cli': ['grammar', 'server/geometry', 'server/rules', 'server/project', 'server/lsp', 'server/host'],
  // Types of what goes over the protocol, and nothing that runs.
  client: ['server/lsp/view-wire', 'server/view/model'],
};
/** Packages, by layer; the rest of the core uses none. */
const PACKAGES: Readonly<Record<string, RegExp>> = {
  grammar: /^chevrotain$/,
  // Outside what the project is for: integer programs, PDF and DXF files, glTF and PNG.
  'server/papers': /^(yalps|@tarikjabiri\/dxf)$/,
  'server/host': /^(node:|vscode-languageserver-textdocument$)/,
  'server/lsp': /^(node:|vscode-languageserver)/,
  'server/cli': /^(node:|vscode-languageserver)/,
  'server/mesh': /^(@gltf-transform\/core|fast-png)$/,
  client: /^(node:|vscode$|vscode-languageclient|three($|\/))/,
};

const filesIn = (folder: string): string[] =>
  readdirSync(path.join(ROOT, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => path.relative(ROOT, path.join(entry.parentPath, entry.name)))
    .filter((file) => !file.includes('/dist/'));

const importsOf = (file: string): string[] =>
  [
    ...readFileSync(path.join(ROOT, file), 'utf8').matchAll(
      /^(?:import|export)\b[^;]*?\bfrom '([^'\n]+)';|\bimport\('([^'\n]+)'\)/gm,
    ),
  ].map((match) => match[1] ?? match[2] ?? '');

describe('who may import whom', () => {
  for (const [layer, allowed] of Object.entries(MAY_IMPORT)) {
    it(`${layer} imports only what stands before it`, () => {
      const wrong: string[] = [];
      for (const file of filesIn(layer)) {
        for (const target of importsOf(file)) {
          if (!target.startsWith('.')) {
            if (!(PACKAGES[layer]?.test(target) ?? false)) wrong.push(`${file}: ${target}`);
            continue;
          }
          const full = path.relative(ROOT, path.resolve(ROOT, path.dirname(file), target));
          const home = [layer, ...allowed].some((root) => full === root || full.startsWith(`${root}/`));
          if (!home) wrong.push(`${file}: ${full}`);
        }
      }
      expect(wrong).toEqual([]);
    });
  }
});

describe('offsets inside, lines and columns only at the edges', () => {
  it('no core file speaks of a protocol position', () => {
    const core = Object.keys(MAY_IMPORT).filter(
      (l) => !['server/lsp', 'server/cli', 'server/host', 'client'].includes(l),
    );
    const wrong = core
      .flatMap(filesIn)
      .filter((file) => /\bPosition\b|vscode-languageserver/.test(readFileSync(path.join(ROOT, file), 'utf8')));
    expect(wrong).toEqual([]);
  });
});

describe('the tree', () => {
  const tracked = execFileSync('git', ['ls-files'], { cwd: ROOT, encoding: 'utf8' }).split('\n').filter(Boolean);
  it('holds at the top only what the layout allows', () => {
    const top = new Set(tracked.map((file) => file.split('/')[0] ?? ''));
    const allowed =
      /^(README\.md|DEVELOPERS\.md|package\.json|package-lock\.json|tsconfig\.json|client|server|grammar|tests|samples|LICENSE|\..*)$/;
    expect([...top].filter((name) => !allowed.test(name))).toEqual([]);
  });
  it('has no test that is switched off and no check that is silenced', () => {
    const weak = tracked
      .filter((file) => /\.(ts|mts|mjs)$/.test(file) && file !== 'tests/tidy/house.test.ts')
      .filter((file) =>
        /\b(it|test|describe)\.(only|skip|todo)\b|@ts-(ignore|nocheck)|\bas any\b/.test(
          readFileSync(path.join(ROOT, file), 'utf8'),
        ),
      );
    expect(weak).toEqual([]);
  });
  it('names no download address in the lock file', () => {
    expect(readFileSync(path.join(ROOT, 'package-lock.json'), 'utf8')).not.toMatch(/"resolved": *"https?:/);
  });
});
