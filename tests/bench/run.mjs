/** Bundles the benchmark and runs it: `npm run bench [-- --quick]`. Prints tables; passes or fails nothing. */
import { build } from 'esbuild';
import { spawnSync } from 'node:child_process';

const out = '.build/bench';
const common = { bundle: true, platform: 'node', target: 'node20', outdir: out, logLevel: 'error' };
await build({
  ...common,
  entryPoints: ['tests/bench/main.ts', 'tests/bench/idle-server.ts'],
  format: 'esm',
  packages: 'external',
  outExtension: { '.js': '.mjs' },
});
await build({ ...common, entryPoints: ['tests/bench/heap-probe.ts'], format: 'cjs' });
const done = spawnSync(process.execPath, [`${out}/main.mjs`, ...process.argv.slice(2)], { stdio: 'inherit' });
process.exitCode = done.status ?? 1;
