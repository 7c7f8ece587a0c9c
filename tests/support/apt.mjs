/** Programs from Debian that some tests need and the project does not. */
import { execFileSync } from 'node:child_process';

/** Whether a program is on the path. */
export const has = (program) => {
  try {
    execFileSync('sh', ['-c', `command -v ${program}`], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
};

/** Where a program is; throws where it is nowhere. */
export const pathOf = (program) =>
  execFileSync('sh', ['-c', `command -v ${program}`])
    .toString()
    .trim();

/** Runs apt-get, through sudo when not root and sudo is there. */
const apt = (args) => {
  const options = {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  };
  if (process.getuid?.() !== 0 && has('sudo')) execFileSync('sudo', ['apt-get', ...args], options);
  else execFileSync('apt-get', args, options);
};

/**
 * Installs what is missing; fails where apt is not at hand or has it not.
 * @param {Record<string, string>} programs name to look for -> package that brings it
 */
export const installPrograms = (programs) => {
  const wanted = Object.entries(programs).filter(([program]) => !has(program));
  if (wanted.length === 0) return;
  const packages = wanted.map(([, name]) => name);
  process.stdout.write(`installing ${packages.join(', ')} …\n`);
  apt(['update', '-qq']);
  // Whatever draws letters needs some.
  const fonts = packages.some((name) => ['chromium', 'poppler-utils'].includes(name)) ? ['fonts-dejavu-core'] : [];
  apt(['install', '-qq', '-y', '--no-install-recommends', ...packages, ...fonts]);
};
