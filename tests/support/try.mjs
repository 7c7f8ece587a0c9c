/** The README's first command ends here: one sample through the tool that was just built. Exits as `check` does. */
import { spawnSync } from 'node:child_process';

const SAMPLE = 'samples/plover-rollbar.cage';
const cagewright = (...args) => {
  process.stdout.write(`\n$ cagewright ${args.join(' ')}\n`);
  return spawnSync(process.execPath, ['server/dist/cli.js', ...args], { stdio: 'inherit' }).status ?? 2;
};

const checked = cagewright('check', SAMPLE);
const described = cagewright('describe', SAMPLE);
process.exitCode = Math.max(checked, described);
