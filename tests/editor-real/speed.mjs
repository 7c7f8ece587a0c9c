/* global performance, PerformanceObserver */
/**
 * How long a person waits for the picture of the cage of over forty tubes, in the real editor, from the key to the frame:
 * `node tests/editor-real/speed.mjs [edits]`. Prints figures; passes or fails nothing. The processor draws here, and every
 * message passes through a browser: a machine with graphics is quicker.
 */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { install } from './install.mjs';
import { Panel, until } from './panel.mjs';
import { openWindow, startBrowser, startWorkbenchServer } from './workbench.mjs';

const SHOW = 'Cagewright: Show the Car Beside the Text';
const FILE = 'curlew-cage.cage';
/** Windows that are quiet long enough for what comes after an edit: words, the window of the harness bar. */
const QUIET_MS = 2200;
/** What is edited: the last figure of a line, or the last letter of a remark; how many bodies are new then, at least. */
const EDITS = [
  { what: 'a remark, which moves nothing: the way there and back', line: '# X in the hoop', last: /.$/, least: 0 },
  { what: 'the knee of a half-lateral, 80 surfaces', line: 'node knee = (1180, 600, 640)', last: /\d\D*$/, least: 1 },
  { what: 'a strut tower, 10 surfaces', line: 'node tower = (', last: /\d\D*$/, least: 1 },
];

/** Runs in every page before all else: keeps when keys went down, and when the picture's page got and drew a car; ms since 1970. */
const keepTimes = () => {
  const now = (at) => performance.timeOrigin + at;
  globalThis.cageTimes = { page: now(0), keys: [], cars: [], frames: [] };
  const { keys, cars, frames } = globalThis.cageTimes;
  globalThis.addEventListener('keydown', ({ timeStamp }) => keys.push(now(timeStamp)), true);
  new PerformanceObserver((list) => {
    for (const { name, startTime, detail } of list.getEntries()) {
      if (name === 'cagewright.bodies') cars.push({ at: now(startTime), built: detail });
      if (name === 'cagewright.frame') frames.push(now(startTime));
    }
  }).observe({ entryTypes: ['measure', 'mark'] });
};

const sorted = (list) => [...list].sort((a, b) => a - b);
const at = (list, share) => sorted(list)[Math.max(0, Math.ceil(share * list.length) - 1)] ?? NaN;
const ms = (value) => value.toFixed(0);
const said = (text) => process.stdout.write(`${text}\n`);

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const rounds = Number(process.argv[2] ?? 20);
execFileSync('npm', ['run', '--silent', 'package'], { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] });
const { server, chromium } = install(join(root, '.build/vscode'));
const home = mkdtempSync(join(tmpdir(), 'cage-speed-'));
const workbench = await startWorkbenchServer({
  server,
  vsix: join(root, 'cagewright.vsix'),
  home: join(home, 'vscode'),
});
const browser = await startBrowser(chromium);

/** A window with the cage in its editor, judged. */
const opened = async (name) => {
  const folder = join(home, name);
  mkdirSync(folder);
  for (const file of [FILE, 'curlew-seats.cage']) cpSync(join(root, 'samples', file), join(folder, file));
  const window = await openWindow(browser, workbench.url, folder, true, { panels: true });
  await window.context.addInitScript(keepTimes);
  await window.page.evaluate(keepTimes);
  await window.openFile(FILE);
  await window.untilSquiggles('info', (count) => count >= 0);
  await sleep(QUIET_MS);
  return window;
};

const timesOf = (where) => where.evaluate(() => globalThis.cageTimes);

/** The first car with so many new bodies after a moment, and the first frame after that; null: not yet. */
const shownAfter = ({ cars, frames }, since, least) => {
  const car = cars.find(({ at: when, built }) => when > since && built >= least);
  const frame = car && frames.find((when) => when >= car.at);
  return frame === undefined ? null : { car: car.at, frame };
};

try {
  said(`load of the machine ${loadavg()[0].toFixed(1)}`);
  const firsts = [];
  let window;
  let panel;
  for (let i = 0; i < Math.max(2, Math.round(rounds / 5)); i += 1) {
    await window?.close();
    window = await opened(`first-${String(i)}`);
    await window.command(SHOW);
    panel = await Panel.of(window, FILE);
    const { keys } = await timesOf(window.page);
    const times = await timesOf(panel.frame);
    // The last key is the Enter that ran the command.
    const since = keys.at(-1);
    const { car, frame } = shownAfter(times, 0, 1);
    firsts.push({ page: times.page - since, car: car - since, frame: frame - since });
  }
  for (const [what, key] of [
    ['the panel has a page (the editor’s own part)', 'page'],
    ['the car is in it', 'car'],
    ['first frame', 'frame'],
  ]) {
    const list = firsts.map((one) => one[key]);
    said(
      `from the command: ${what}: median ${ms(at(list, 0.5))}, least ${ms(at(list, 0))}, most ${ms(at(list, 1))} ms`,
    );
  }

  const text = readFileSync(join(root, 'samples', FILE), 'utf8').split('\n');
  for (const { what, line, last, least } of EDITS) {
    const row = text.findIndex((one) => one.includes(line));
    const column = (text[row] ?? '').search(last);
    const waits = [];
    for (let i = 0; i < rounds; i += 1) {
      await window.goToText(row + 1, column + 1);
      await window.page.keyboard.press('Shift+ArrowRight');
      await sleep(QUIET_MS);
      await window.page.keyboard.press(String((i % 9) + 1));
      const { keys } = await timesOf(window.page);
      const since = keys.at(-1);
      const { car, frame } = await until('the edit to show', async () =>
        shownAfter(await timesOf(panel.frame), since, least),
      );
      waits.push({ car: car - since, frame: frame - since });
    }
    const list = (key) => waits.map((one) => one[key]);
    said(
      `an edit of ${what}, key to frame: median ${ms(at(list('frame'), 0.5))}, p95 ${ms(at(list('frame'), 0.95))} ms ` +
        `(the car is there after ${ms(at(list('car'), 0.5))}, ${ms(at(list('car'), 0.95))} ms)`,
    );
  }
  said(`load of the machine ${loadavg()[0].toFixed(1)}`);
} finally {
  await browser.stop();
  workbench.stop();
  rmSync(home, { recursive: true, force: true });
}
