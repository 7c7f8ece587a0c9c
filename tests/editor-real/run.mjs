/**
 * The packed extension in a real VS Code: what a person sees and does. Installs what it needs, makes the package,
 * leaves its screenshots in .build/screenshots, and ends with one line and an exit status. With `--picture` it also takes the
 * picture of the README anew.
 */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { install } from './install.mjs';
import { openWindow, startBrowser, startWorkbenchServer } from './workbench.mjs';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const vsix = join(root, 'cagewright.vsix');
const screenshots = join(root, '.build/screenshots');

const results = [];
let shot = 0;
let current = null;

const check = (what, holds, found = '') => {
  results.push(holds);
  process.stdout.write(
    `${holds ? 'ok    ' : 'FAILED'} ${what}${holds ? '' : `\n       found: ${String(found).slice(0, 2000)}`}\n`,
  );
};

/** Runs a scene; one that breaks off is a failure, and the picture shows where it stood. */
const scene = async (name, play) => {
  try {
    await play();
  } catch (fault) {
    check(name, false, fault instanceof Error ? fault.message : fault);
    await current?.screenshot(join(screenshots, `failed-${name.replaceAll(' ', '-')}.png`)).catch(() => undefined);
  }
};

const picture = async (name) => {
  shot += 1;
  await current.screenshot(join(screenshots, `${String(shot).padStart(2, '0')}-${name}.png`));
};

/** Line and column (from 1) where a text stands in the file. */
const lineOf = (text, part, within = part) => {
  const lines = text.split('\n');
  const line = lines.findIndex((one) => one.includes(part));
  return [line + 1, (lines[line] ?? '').indexOf(within) + 2];
};

const readText = async (name) => (await import('node:fs/promises')).readFile(join(work, name), 'utf8');

// Always anew: an old package would pass for the sources as they are.
execFileSync('npm', ['run', '--silent', 'package'], { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] });
const { server, chromium } = install(join(root, '.build/vscode'));
rmSync(screenshots, { recursive: true, force: true });
mkdirSync(screenshots, { recursive: true });
const home = mkdtempSync(join(tmpdir(), 'cage-editor-'));
const work = join(home, 'work');
// A folder of its own: the editor keeps unsaved text for a folder, also when its window is gone.
const strange = join(home, 'strange');
for (const folder of [work, strange]) {
  mkdirSync(folder);
  cpSync(join(root, 'tests/editor-real/bar.cage'), join(folder, 'bar.cage'));
}

const workbench = await startWorkbenchServer({ server, vsix, home: join(home, 'vscode') });
const browser = await startBrowser(chromium);

try {
  const text = await readText('bar.cage');

  await scene('trusted window', async () => {
    current = await openWindow(browser, workbench.url, work, true);
    await current.openFile('bar.cage');
    const errors = await current.untilSquiggles('error', (count) => count > 0);
    check('an error is underlined when the file is opened', errors > 0);
    await picture('opened');

    // A decimal comma: the fix writes a point, and the underline goes.
    await current.goTo(...lineOf(text, 'wall 2,5', '2,5'));
    const offered = await current.quickFixes();
    await picture('quick-fix');
    check(
      'a fix is offered for the decimal comma',
      offered.some((title) => title.includes('2.5')),
      offered.join(' | '),
    );
    await current.takeFix(offered, /2\.5/);
    const left = await current.untilSquiggles('error', (count) => count === 0);
    check('the underline goes when the fix is taken', left === 0);

    // Now the bar can be computed: the straps drop too steeply.
    await current.untilSquiggles('warning', (count) => count > 0);
    await picture('mended');
    await current.goTo(...lineOf(text, 'strap driver-outer', 'driver-outer'));
    const strap = await current.hover(/Free run/);
    await picture('hover-strap');
    check('the hover on a strap tells that it drops too steeply', /drops .*°.*fia-253/s.test(strap), strap);
    check('and gives its figures', /Drop/.test(strap) && /Free run/.test(strap), strap);
    const link = await current.followCode('strap.drop');
    await picture('link');
    check('the link on its code leads to a page', /strap\.drop\.md/.test(link.tab), link.tab);
    check(
      "that has every book's limit with article, edition and state",
      /fia-253 allows 0 to 45° \(Appendix J, Article 253-6\.2, 2013 text, published\)/.test(link.text),
      link.text,
    );
    await current.showTab('bar.cage');
    await current.escape();

    await current.goTo(...lineOf(text, 'path bar-end.left', 'bar-end'));
    const cope = await current.hover(/337\.5°/);
    await picture('hover-cope');
    check('the hover on a tube end reads how to cope it', /coped to main-hoop/.test(cope), cope);
    check(
      'with the included angle, the depth and the rule of thumb',
      /Included angle.*°.*Depth.*Rule of thumb/s.test(cope),
      cope,
    );
    check(
      'and sixteen marks round the tube',
      ['22.5°', '180.0°', '337.5°'].every((mark) => cope.includes(mark)),
      cope,
    );
    check(
      'counted from TOP or FRONT, with the inside of the bend',
      /(TOP|FRONT).*inside of the nearest bend/s.test(cope),
      cope,
    );
    await current.escape();

    // Where the bar may be is in its hover; the fix that raises it there is solved when it is asked for.
    await current.goTo(...lineOf(text, 'tube harness-bar', 'harness-bar'));
    const where = await current.hover(/axis may lie/);
    await picture('hover-window');
    check('the hover on the harness bar tells where it may be', /x -?\d+ to -?\d+, z \d+ to \d+/.test(where), where);
    await current.escape();
    const steep = await current.squiggles('warning');
    await current.goTo(...lineOf(text, 'strap driver-outer', 'driver-outer'));
    const solved = await current.quickFixes();
    await picture('solved');
    check(
      'a fix is solved that raises all nodes of the bar, with its figures',
      solved.some((title) => /^Raise bar-end and bar-bend from z = 700 to 7\d\d mm, 4 nodes move/.test(title)),
      solved.join(' | '),
    );
    await current.takeFix(solved, /^Raise bar-end and bar-bend/);
    const flat = await current.untilSquiggles('warning', (count) => count < steep);
    check('the warning goes when the bar is raised', flat < steep, `${String(steep)} -> ${String(flat)}`);
    await picture('raised');

    // The bar's bore cannot breathe: the fix writes the vent.
    const before = await current.squiggles('warning');
    await current.goTo(...lineOf(text, 'tube harness-bar', 'harness-bar'));
    const vents = await current.quickFixes();
    check(
      'a vent is offered for the closed bore',
      vents.some((title) => /vent/i.test(title)),
      vents.join(' | '),
    );
    await current.takeFix(vents, /vent/i);
    const after = await current.untilSquiggles('warning', (count) => count < before);
    check('a warning goes when the vent is written', after < before, `${String(before)} -> ${String(after)}`);
    await picture('vented');

    // A line is broken and mended again, by hand.
    const calm = await current.squiggles('error');
    await current.goTo(3, 1);
    await current.page.keyboard.press('End');
    await current.page.keyboard.type(' (');
    const broken = await current.untilSquiggles('error', (count) => count > calm);
    check('breaking a line underlines it', broken > calm);
    await picture('broken');
    await current.page.keyboard.press('Backspace');
    await current.page.keyboard.press('Backspace');
    await current.page.keyboard.press('End');
    await current.page.keyboard.press('Shift+Home');
    await current.page.keyboard.type('units mm');
    await current.escape();
    const again = await current.untilSquiggles('error', (count) => count === calm);
    check('mending it takes the underline away', again === calm);

    // An untitled file is judged like any other.
    await current.command('Cagewright: New Cage File');
    await current.page.locator('.tab.active', { hasText: 'Untitled' }).waitFor();
    await current.page.keyboard.press('Control+End');
    await current.page.keyboard.type('nod a = (0, 0, 0)');
    await current.escape();
    const untitled = await current.untilSquiggles('error', (count) => count > 0);
    check('a mistake in an untitled file is underlined', untitled > 0);
    await picture('untitled');
    await current.close();
  });

  await scene('report', async () => {
    const folder = join(home, 'paper');
    mkdirSync(folder);
    cpSync(join(root, 'tests/editor-real/bar.cage'), join(folder, 'bar.cage'));
    current = await openWindow(browser, workbench.url, folder, true);
    await current.openFile('bar.cage');
    await current.untilSquiggles('error', (count) => count > 0);
    await current.goTo(...lineOf(text, 'cage "Wagtail', 'Wagtail'));
    await current.page.keyboard.type('Unsaved ');
    const place = await current.saveAsProposed('Cagewright: Report for the Scrutineer');
    check('the report is proposed beside the file', place === join(folder, 'bar-report.html'), place);
    await current.page.locator('.notification-toast', { hasText: 'The report is written' }).waitFor();
    await picture('report');
    const page = readFileSync(place, 'utf8');
    check(
      'and is the page for the text as it stands, saved or not',
      /Report for the scrutineer: .*Unsaved .*, roll bar<\/title>/.test(page),
      page.slice(0, 400),
    );
    await current.close();
  });

  await scene('untrusted window', async () => {
    current = await openWindow(browser, workbench.url, strange, false);
    await current.openFile('bar.cage');
    const errors = await current.untilSquiggles('error', (count) => count > 0);
    check('an error is underlined in an untrusted folder', errors > 0);
    await current.goTo(...lineOf(text, 'tube main-hoop', 'main-hoop'));
    const tube = await current.hover(/Centreline/);
    await picture('untrusted');
    check('and the hover works there', /Centreline/.test(tube), tube);
    await current.close();
  });

  if (process.argv.includes('--picture')) {
    await scene('picture', async () => {
      const folder = join(home, 'picture');
      mkdirSync(folder);
      writeFileSync(join(folder, 'bar.cage'), text.replace('2,5', '2.5'));
      const viewport = { width: 1080, height: 760 };
      current = await openWindow(browser, workbench.url, folder, true, { viewport });
      await current.openFile('bar.cage');
      await current.untilSquiggles('warning', (count) => count > 0);
      await current.page.keyboard.press('Control+b');
      await current.goTo(36, 1);
      await current.goTo(...lineOf(text, 'path bar-end.left', 'bar-end'));
      await current.hover(/337\.5°/);
      await current.growHover();
      await current.screenshot(join(root, 'client/media/editor.png'));
      await current.close();
    });
  }

  await scene('network', async () => {
    const lines = workbench.network();
    const spied = lines.find((line) => line.includes('server/dist/server.js'));
    check('the language server was watched', spied !== undefined, lines.join('\n'));
    const asked = lines.filter((line) => line.includes(' -> '));
    check('no process asked the network for anything', asked.length === 0, asked.join('\n'));
    check('no page asked for anything beyond this machine', browser.left.length === 0, browser.left.join('\n'));
  });
} finally {
  await browser.stop();
  workbench.stop();
  rmSync(home, { recursive: true, force: true });
}

const failed = results.filter((holds) => !holds).length;
process.stdout.write(`${String(results.length - failed)} passed, ${String(failed)} failed\n`);
process.exit(failed > 0 || results.length === 0 ? 1 : 0);
