/**
 * Bundles the extension, the language server with the command line, and the picture inside the panel, so that nothing is
 * needed beside them, and gathers the licences of what went in.
 */
import { Buffer } from 'node:buffer';
import { mkdirSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
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
  minify: true,
  legalComments: 'none',
  metafile: true,
  write: false,
  logLevel: 'warning',
};

// A library could read models from a network: that word means nothing here.
const onNode = { ...shared, platform: 'node', target: 'node20', define: { fetch: 'undefined' } };

const SERVER = 'server/dist';

/**
 * The server and the command line share nearly everything, so what they share stands once, in modules beside them. What
 * the code loads with `await import` (shop papers, exports) becomes a module of its own, read when somebody asks for it.
 */
const targets = [
  {
    ...onNode,
    entryPoints: ['client/extension.ts'],
    outfile: 'client/dist/extension.js',
    format: 'cjs',
    external: ['vscode'],
  },
  {
    ...onNode,
    entryPoints: { server: 'server/lsp/main.ts', cli: 'server/cli/main.ts' },
    outdir: SERVER,
    format: 'esm',
    splitting: true,
    chunkNames: 'part-[hash]',
    // Some libraries ask for Node's own modules with `require`.
    banner: {
      js: 'import{createRequire as __createRequire}from"node:module";const require=__createRequire(import.meta.url);',
    },
  },
  // Inside the editor's panel: a browser.
  {
    ...shared,
    platform: 'browser',
    target: 'chrome114',
    format: 'iife',
    entryPoints: { view: 'client/view-web/main.ts' },
    outdir: 'client/dist',
  },
];

/** In one step, so that nobody ever reads half a file: tests build side by side. */
const writeWhole = (file, content, mode) => {
  mkdirSync(dirname(file), { recursive: true });
  const temporary = `${file}.${String(process.pid)}.tmp`;
  writeFileSync(temporary, content, { mode });
  renameSync(temporary, file);
};

const results = await Promise.all(targets.map((target) => build(target)));
for (const { outputFiles } of results) {
  for (const { path, contents } of outputFiles) {
    const program = path.endsWith(`${SERVER}/cli.js`);
    writeWhole(
      path,
      program ? Buffer.concat([Buffer.from('#!/usr/bin/env node\n'), contents]) : contents,
      program ? 0o755 : 0o644,
    );
  }
}
// Node reads these as modules, whatever the package above them says.
writeWhole(join(root, SERVER, 'package.json'), '{ "type": "module" }\n', 0o644);
const made = new Set(results.flatMap(({ outputFiles }) => outputFiles.map(({ path }) => path)));
for (const name of readdirSync(join(root, SERVER))) {
  const path = join(root, SERVER, name);
  if (name.endsWith('.js') && !made.has(path)) rmSync(path, { force: true });
}
writeWhole(
  join(root, 'client/dist/third-party-notices.txt'),
  notices(results.flatMap((result) => Object.keys(result.metafile.inputs))),
  0o644,
);
