/**
 * Installs the packages of the lock file if they are not there, so that the test command works from a fresh clone.
 * Does nothing when they are.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));

const versionOf = (folder) => {
  const manifest = join(root, folder, 'package.json');
  return existsSync(manifest) ? JSON.parse(readFileSync(manifest, 'utf8')).version : null;
};

// Optional packages are for one system each and may be missing; the others must be there in the version of the lock.
const lacking = Object.entries(lock.packages).filter(
  ([folder, entry]) => folder !== '' && !entry.optional && versionOf(folder) !== entry.version,
);
if (lacking.length > 0) {
  process.stdout.write(`installing ${lacking.length} packages of the lock file …\n`);
  execFileSync('npm', ['ci', '--no-audit', '--no-fund'], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
}
