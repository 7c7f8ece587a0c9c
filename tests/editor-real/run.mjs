/**
 * The packed extension in a real VS Code: what a person sees and does. Installs what it needs, makes the package,
 * leaves its screenshots in .build/screenshots, and ends with one line and an exit status. Plays all scenes, or the files of
 * `scenes/` that are named; with `--picture` it also takes the picture of the README anew.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { install } from './install.mjs';
import { judgingScenes } from './scenes/judging.mjs';
import { paperScenes } from './scenes/papers.mjs';
import { pictureScenes } from './scenes/picture.mjs';
import { viewScenes } from './scenes/view.mjs';
import { setStage } from './stage.mjs';
import { startBrowser, startWorkbenchServer } from './workbench.mjs';

/** A file of `scenes/` each, in the order in which they are played. */
const SCENES = { judging: judgingScenes, papers: paperScenes, view: viewScenes };

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const named = process.argv.slice(2).filter((word) => !word.startsWith('-'));
const unknown = named.find((name) => !(name in SCENES));
if (unknown !== undefined) throw new Error(`There are no scenes called ${unknown}.`);

// Always anew: an old package would pass for the sources as they are.
execFileSync('npm', ['run', '--silent', 'package'], { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] });
const { server, chromium } = install(join(root, '.build/vscode'));
const home = mkdtempSync(join(tmpdir(), 'cage-editor-'));
const workbench = await startWorkbenchServer({
  server,
  vsix: join(root, 'cagewright.vsix'),
  home: join(home, 'vscode'),
});
const browser = await startBrowser(chromium);
const { stage, results } = setStage({
  root,
  home,
  text: readFileSync(join(root, 'tests/editor-real/bar.cage'), 'utf8'),
  screenshots: join(root, '.build/screenshots'),
  browser,
  url: workbench.url,
});

try {
  for (const [name, play] of Object.entries(SCENES)) {
    if (named.length === 0 || named.includes(name)) await play(stage);
  }
  if (process.argv.includes('--picture')) await pictureScenes(stage);

  await stage.scene('network', async () => {
    const lines = workbench.network();
    const spied = lines.find((line) => line.includes('server/dist/server.js'));
    stage.check('the language server was watched', spied !== undefined, lines.join('\n'));
    const asked = lines.filter((line) => line.includes(' -> '));
    stage.check('no process asked the network for anything', asked.length === 0, asked.join('\n'));
    stage.check('no page asked for anything beyond this machine', browser.left.length === 0, browser.left.join('\n'));
  });
} finally {
  await browser.stop();
  workbench.stop();
  rmSync(home, { recursive: true, force: true });
}

const failed = results.filter((holds) => !holds).length;
process.stdout.write(`${String(results.length - failed)} passed, ${String(failed)} failed\n`);
process.exit(failed > 0 || results.length === 0 ? 1 : 0);
