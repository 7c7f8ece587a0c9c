/**
 * The benchmark: tables of figures, measured beside peers in the same run. Nothing here passes or fails.
 * `--quick` takes fewer edits.
 */
import { existsSync, readdirSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import path from 'node:path';
import { measureBooks } from './books';
import { measureCopes } from './copes';
import { measureFixes } from './fixes';
import { measureHeap } from './heap';
import { measurePacket } from './packet';
import { measureReruns } from './reruns';
import { measureStock } from './stock';
import { measureView, measureViewHeap } from './view';
import { measurePull, measureYaml, schemaText, useSchema, type TypingRow } from './typing';

const quick = process.argv.includes('--quick');
const print = (line = ''): void => {
  process.stdout.write(`${line}\n`);
};
const ms = (value: number): string => value.toFixed(value < 10 ? 2 : 1);

/** A Markdown table. */
const table = (head: readonly string[], rows: readonly (readonly string[])[]): void => {
  print(`| ${head.join(' | ')} |`);
  print(`| ${head.map(() => '---').join(' | ')} |`);
  for (const row of rows) print(`| ${row.join(' | ')} |`);
  print();
};

async function typing(): Promise<void> {
  print('## Keystroke to diagnostics, over stdio, milliseconds');
  print();
  const yamlServer = path.resolve('node_modules/yaml-language-server/bin/yaml-language-server');
  const rows: TypingRow[] = [];
  for (const lines of [300, 3000, 30000]) {
    const edits = Math.max(20, Math.round((quick ? 100 : 400) / (lines > 3000 ? 4 : 1)));
    rows.push(
      await measurePull('answers with nothing (floor)', ['.build/bench/idle-server.mjs', '--stdio'], lines, edits),
    );
    rows.push(await measurePull('cagewright', ['server/dist/server.js', '--stdio'], lines, edits));
    if (existsSync(yamlServer)) {
      rows.push(await measureYaml([yamlServer, '--stdio'], lines, lines > 3000 ? 5 : quick ? 10 : 30));
    }
  }
  table(
    ['server', 'lines', 'edits', 'median', 'p95', 'start to first diagnostics'],
    rows.map((row) => [
      row.server,
      String(row.lines),
      String(row.edits),
      ms(row.median),
      ms(row.p95),
      ms(row.coldStart),
    ]),
  );
  print('The YAML server waits 200 ms of its own before it validates; its figures hold that delay.');
  print();
}

async function main(): Promise<void> {
  mkdirSync('.build/bench', { recursive: true });
  writeFileSync('.build/bench/schema.json', schemaText());
  useSchema(path.resolve('.build/bench/schema.json'));
  print(`# Cagewright benchmark, Node ${process.version}, ${cpus().length} cores`);
  print();
  await typing();
  print('## Copes');
  print();
  table(['what', 'copes', 'per second', 'ratio'], await measureCopes(quick));
  print('## All rulebooks at once, warm, milliseconds');
  print();
  table(['what', 'tubes', 'findings', 'median', 'p95'], await measureBooks(quick));
  print('## Fixes that solve, in a cage of over forty tubes, milliseconds');
  print();
  table(['finding', 'ways', 'first', 'median', 'p95'], await measureFixes(quick));
  print('## The picture of the cage of over forty tubes, server side, milliseconds on the processor');
  print();
  table(['what', 'surfaces sent', 'kB', 'median', 'p95'], await measureView(quick));
  print('## Heap of the server with the picture open, after a forced collection');
  print();
  table(['after edits', 'heap, MB', 'against the first'], await measureViewHeap(quick ? [50, 200] : [200, 2000]));
  print('## Shop papers, a whole packet from start to end of the process, seconds');
  print();
  table(['file', 'papers', 'kB', 'median', 'worst'], measurePacket(quick));
  print('## 120 pieces laid out on sticks, seconds');
  print();
  table(['sold', 'proven', 'widest gap, %', 'longest'], measureStock(quick));
  print('## Stages that ran again after one edit, 3,000 lines');
  print();
  table(['edit', 'ran again'], await measureReruns());
  print('## Heap of the server, after a forced collection');
  print();
  table(['after edits', 'heap, MB', 'against 1,000'], await measureHeap(quick ? [100, 1000] : [1000, 10000]));
  print('## Size');
  print();
  const sizes = [
    'cagewright.vsix',
    'client/dist/extension.js',
    'client/dist/view.js',
    ...readdirSync('server/dist').map((name) => `server/dist/${name}`),
  ].filter((f) => existsSync(f));
  table(
    ['file', 'kB'],
    sizes.map((file) => [file, (statSync(file).size / 1000).toFixed(0)]),
  );
  if (!existsSync('cagewright.vsix')) print('(`npm run package` makes the .vsix)');
  print(`Machine: ${cpus()[0]?.model ?? 'unknown'}.`);
}

main().catch((error: unknown) => {
  process.stderr.write(`bench: ${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
});
