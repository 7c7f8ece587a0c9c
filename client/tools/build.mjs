/**
 * Bundles the extension, the language server and the command line, each into one file that needs nothing beside it,
 * and gathers the licences of what went in.
 */
import { chmodSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');

/** The package (folder and name) that a bundled file came from; null for the project's own. */
const packageOf = (input) => {
  const match = /^(.*node_modules\/((?:@[^/]+\/)?[^/]+))\//.exec(input);
  return match ? { folder: match[1], name: match[2] } : null;
};

const licenceText = (folder) => {
  const file = readdirSync(folder).find((name) => /^(licen[cs]e|copying)(\.|$)/i.test(name));
  return file === undefined ? null : readFileSync(join(folder, file), 'utf8').replaceAll('\r\n', '\n').trim();
};

/** One notice for each bundled package, sorted: name, version, licence, its text. */
const notices = (inputs) => {
  const folders = new Map();
  for (const input of inputs) {
    const found = packageOf(input);
    if (found) folders.set(found.folder, found.name);
  }
  const texts = [...folders].map(([folder, name]) => {
    const { version, license, author } = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
    const by = typeof author === 'string' ? author : (author?.name ?? '');
    const text =
      licenceText(join(root, folder)) ?? [`Licence: ${license}`, by && `Author: ${by}`].filter(Boolean).join('\n');
    return `${name} ${version} (${license})\n\n${text}\n`;
  });
  return [...new Set(texts)].sort().join(`\n${'-'.repeat(80)}\n\n`);
};

const shared = {
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  format: 'cjs',
  target: 'node20',
  minify: true,
  legalComments: 'none',
  metafile: true,
  logLevel: 'warning',
};

const targets = [
  { entryPoints: ['client/extension.ts'], outfile: 'client/dist/extension.js', external: ['vscode'] },
  { entryPoints: ['server/lsp/main.ts'], outfile: 'server/dist/server.js' },
  { entryPoints: ['server/cli/main.ts'], outfile: 'server/dist/cli.js', banner: { js: '#!/usr/bin/env node' } },
];

const results = await Promise.all(targets.map((target) => build({ ...shared, ...target })));
chmodSync(join(root, 'server/dist/cli.js'), 0o755);

const dist = join(root, 'client/dist');
mkdirSync(dist, { recursive: true });
writeFileSync(
  join(dist, 'third-party-notices.txt'),
  notices(results.flatMap((result) => Object.keys(result.metafile.inputs))),
);
