/**
 * Bundles the extension, the language server and the command line, each into one file that needs nothing beside it,
 * and gathers the licences of what went in.
 */
import { mkdirSync, readFileSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
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
  write: false,
  logLevel: 'warning',
};

/**
 * The shop papers are a bundle of their own, which the other two load when somebody asks for it. For `lsp --stdio` the
 * command line loads the server's.
 */
const papersApart = {
  name: 'papers-apart',
  setup: (bundle) => {
    bundle.onResolve({ filter: /\/project\/packet$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './papers.js', external: true } : undefined,
    );
    bundle.onResolve({ filter: /\/lsp\/main$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './server.js', external: true } : undefined,
    );
  },
};

const targets = [
  { entryPoints: ['client/extension.ts'], outfile: 'client/dist/extension.js', external: ['vscode'] },
  { entryPoints: ['server/lsp/main.ts'], outfile: 'server/dist/server.js', plugins: [papersApart] },
  { entryPoints: ['server/project/packet.ts'], outfile: 'server/dist/papers.js' },
  {
    entryPoints: ['server/cli/main.ts'],
    outfile: 'server/dist/cli.js',
    plugins: [papersApart],
    banner: { js: '#!/usr/bin/env node' },
  },
];

/** In one step, so that nobody ever reads half a file: tests build side by side. */
const writeWhole = (file, content, mode) => {
  mkdirSync(dirname(file), { recursive: true });
  const temporary = `${file}.${String(process.pid)}.tmp`;
  writeFileSync(temporary, content, { mode });
  renameSync(temporary, file);
};

const results = await Promise.all(targets.map((target) => build({ ...shared, ...target })));
for (const { outputFiles } of results) {
  for (const { path, contents } of outputFiles) writeWhole(path, contents, path.endsWith('cli.js') ? 0o755 : 0o644);
}
writeWhole(
  join(root, 'client/dist/third-party-notices.txt'),
  notices(results.flatMap((result) => Object.keys(result.metafile.inputs))),
  0o644,
);
