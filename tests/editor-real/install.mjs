/**
 * Installs what the real-editor test needs and this project does not: a browser and two command line tools from Debian, and the
 * VS Code server out of the npm package code-server, into a folder of its own that git ignores. Does nothing when all is there.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { installPrograms, pathOf } from '../support/apt.mjs';

/** The last line of code-server that runs on Node 20; it carries VS Code 1.100. */
const PACKAGE = 'code-server@4.100.3';

const said = (text) => process.stdout.write(`${text}\n`);

const run = (command, args, options = {}) =>
  execFileSync(command, args, { stdio: ['ignore', 'ignore', 'inherit'], ...options });

/** Programs from Debian: name to look for -> package that brings it. */
const PROGRAMS = { chromium: 'chromium', rg: 'ripgrep', make: 'make', 'g++': 'g++', python3: 'python3' };

/** Takes the editor's own extensions away but for its colours: some of them talk to a network, and ours is what is watched. */
const keepThemesOnly = (folder) => {
  for (const name of readdirSync(folder)) {
    if (!name.startsWith('theme-')) rmSync(join(folder, name), { recursive: true, force: true });
  }
};

/**
 * Puts the VS Code server below `folder`.
 * @param {string} folder absolute; made if missing
 * @returns {{ server: string, chromium: string }} the server's entry file and the browser's executable
 */
export const install = (folder) => {
  installPrograms(PROGRAMS);
  const vscode = join(folder, 'node_modules/code-server/lib/vscode');
  const server = join(vscode, 'out/server-main.js');
  const done = join(folder, 'complete');
  if (!existsSync(done)) {
    said(`installing ${PACKAGE} (a minute or two) …`);
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'package.json'), '{ "private": true }\n');
    const npm = (args, cwd) => run('npm', [...args, '--no-audit', '--no-fund', '--loglevel=error'], { cwd });
    npm(['install', PACKAGE, '--ignore-scripts'], folder);
    npm(['install', '--omit=dev', '--ignore-scripts'], vscode);
    npm(['rebuild', '@vscode/spdlog', 'native-watchdog', '@parcel/watcher'], vscode);
    if (!existsSync(join(vscode, 'node_modules.asar'))) symlinkSync('node_modules', join(vscode, 'node_modules.asar'));
    const bin = join(vscode, 'node_modules/@vscode/ripgrep/bin');
    mkdirSync(bin, { recursive: true });
    if (!existsSync(join(bin, 'rg'))) symlinkSync(pathOf('rg'), join(bin, 'rg'));
    writeFileSync(done, `${PACKAGE}\n`);
  }
  keepThemesOnly(join(vscode, 'extensions'));
  return { server, chromium: pathOf('chromium') };
};
