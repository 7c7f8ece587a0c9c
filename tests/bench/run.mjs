/** Bundles the benchmark and runs it: `npm run bench [-- --quick]`. Prints tables; passes or fails nothing. */
import { build } from 'esbuild';
import { spawnSync } from 'node:child_process';

const out = '.build/bench';
await build({
  entryPoints: ['tests/bench/main.ts', 'tests/bench/idle-server.ts', 'tests/bench/heap-probe.ts'],
  bundle: true,
  platform: 'node',
  format: 'cjs',
  target: 'node20',
  outdir: out,
  external: ['manifold-3d'],
  logLevel: 'error',
});
const done = spawnSync(process.execPath, ['--expose-gc', `${out}/main.js`, ...process.argv.slice(2)], { stdio: 'inherit' });
process.exitCode = done.status ?? 1;
