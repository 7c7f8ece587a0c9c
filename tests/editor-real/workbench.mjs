/** A real VS Code in a headless browser: started, opened on a folder, and driven as a person would, by keyboard. */
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { chromium } from 'playwright-core';

const SPY = new URL('./network-spy.mjs', import.meta.url).href;
/** Slow machines share two processors with others. */
const PATIENCE = 60_000;

const freePort = () =>
  new Promise((done, failed) => {
    const probe = createServer();
    probe.once('error', failed);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => done(port));
    });
  });

/** What the workbench itself would ask the network for is turned off: what is left is ours. */
const SETTINGS = {
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'extensions.ignoreRecommendations': true,
  'workbench.enableExperiments': false,
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'security.workspace.trust.banner': 'never',
  'editor.minimap.enabled': false,
  'editor.hover.delay': 100,
  'files.autoSave': 'off',
};

const run = (command, args, env) =>
  new Promise((done, failed) => {
    const child = spawn(command, args, { env, stdio: ['ignore', 'pipe', 'pipe'] });
    let output = '';
    child.stdout.on('data', (data) => (output += data));
    child.stderr.on('data', (data) => (output += data));
    child.on('error', failed);
    child.on('exit', (code) => (code === 0 ? done(output) : failed(new Error(`${args[0]}: ${output}`))));
  });

/**
 * The VS Code server with one extension.
 * @param {{ server: string, vsix: string, home: string }} options `home`: an empty folder for all that it writes
 */
export const startWorkbenchServer = async ({ server, vsix, home }) => {
  const [extensions, data, spyLog] = [join(home, 'extensions'), join(home, 'data'), join(home, 'network.log')];
  mkdirSync(join(data, 'data/Machine'), { recursive: true });
  writeFileSync(join(data, 'data/Machine/settings.json'), JSON.stringify(SETTINGS));
  writeFileSync(spyLog, '');
  // The workbench's own gallery and telemetry are led to this machine, where nobody listens.
  const nowhere = 'http://127.0.0.1:9';
  const silent = { EXTENSIONS_GALLERY: JSON.stringify({ serviceUrl: nowhere }), CS_TELEMETRY_URL: nowhere };
  const env = { ...process.env, ...silent, NODE_OPTIONS: `--import=${SPY}`, CAGE_NETWORK_LOG: spyLog };
  const folders = ['--extensions-dir', extensions, '--server-data-dir', data];
  await run(process.execPath, [server, '--install-extension', vsix, ...folders], process.env);
  const port = await freePort();
  const options = ['--host', '127.0.0.1', '--port', String(port), '--without-connection-token'];
  const child = spawn(
    process.execPath,
    [server, ...options, '--accept-server-license-terms', '--telemetry-level', 'off', ...folders],
    { env, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let output = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (output += text));
  const until = Date.now() + PATIENCE;
  while (!output.includes('Extension host agent listening')) {
    if (child.exitCode !== null || Date.now() > until) throw new Error(`The VS Code server did not start: ${output}`);
    await sleep(100);
  }
  return {
    url: `http://127.0.0.1:${String(port)}/`,
    /** Lines `pid program` of processes that were watched, and `pid -> target` of what they asked the network for. */
    network: () => readFileSync(spyLog, 'utf8').split('\n').filter(Boolean),
    stop: () => {
      child.kill();
    },
  };
};

/** A headless browser; every request of its pages that leaves the machine is refused and noted. */
export const startBrowser = async (executablePath) => {
  const browser = await chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--use-gl=angle',
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      '--ignore-gpu-blocklist',
      // Whatever tries to leave the machine finds nobody.
      '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1',
    ],
  });
  const left = [];
  return { browser, left, stop: () => browser.close() };
};

/**
 * Opens a folder in a new window and answers the question of trust.
 * @param {boolean} panels panels need the editor's service worker; what it brings does not pass through `route`, so requests
 *   of such a window are noted when they are answered from elsewhere
 */
export const openWindow = async (
  { browser, left },
  url,
  folder,
  trusted,
  { viewport = { width: 1400, height: 900 }, panels = false } = {},
) => {
  const context = await browser.newContext({ viewport, serviceWorkers: panels ? 'allow' : 'block' });
  const goesOut = (request) => {
    const { hostname, protocol } = new URL(request.url());
    return hostname !== '127.0.0.1' && protocol.startsWith('http');
  };
  if (panels) {
    const note = async (request) => {
      if (!goesOut(request)) return;
      const response = await request.response().catch(() => null);
      if (response?.fromServiceWorker() !== true) left.push(request.url());
    };
    context.on('requestfinished', note);
    context.on('requestfailed', note);
  } else {
    await context.route('**/*', (route) => {
      if (!goesOut(route.request())) return route.continue();
      left.push(route.request().url());
      return route.abort();
    });
  }
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  await page.goto(`${url}?folder=${encodeURIComponent(folder)}`);
  await page.waitForSelector('.monaco-workbench');
  await page.getByRole('button', { name: trusted ? /^Yes, I trust/ : /^No, I don't trust/ }).click();
  await page.locator('.monaco-dialog-box').waitFor({ state: 'detached' });
  return new Window(page, context);
};

class Window {
  constructor(page, context) {
    this.page = page;
    this.context = context;
  }

  async openFile(name) {
    await this.page.keyboard.press('Control+p');
    await this.page.locator('.quick-input-widget input').fill(name);
    // Until the list has followed the letters, it offers what was open last.
    await this.page.locator('.quick-input-list .monaco-list-row.focused', { hasText: name }).waitFor();
    await this.page.keyboard.press('Enter');
    await this.page.locator(`.tab.active[data-resource-name="${name}"]`).first().waitFor();
    await this.page.locator('.monaco-editor .view-line').first().waitFor();
  }

  async command(title) {
    await this.page.keyboard.press('F1');
    await this.page.locator('.quick-input-widget input').fill(`>${title}`);
    await this.page.locator('.quick-input-list .monaco-list-row').first().waitFor();
    await this.page.keyboard.press('Enter');
    await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  }

  /** Runs a command that asks for a file, and takes the one that is proposed; its path. */
  async saveAsProposed(title) {
    const input = this.page.locator('.quick-input-widget input').first();
    await this.page.keyboard.press('F1');
    await input.fill(`>${title}`);
    await this.page.locator('.quick-input-list .monaco-list-row').first().waitFor();
    await this.page.keyboard.press('Enter');
    return this.takeProposedFile();
  }

  /** Takes the file that is proposed in answer to whatever was done; its path. */
  async takeProposedFile() {
    const input = this.page.locator('.quick-input-widget input').first();
    const until = Date.now() + PATIENCE;
    for (let path = ''; ; path = (await input.isVisible()) ? await input.inputValue() : '') {
      // The folder comes first, the name a moment later.
      if (/^\/.*\.\w+$/.test(path)) {
        await input.press('Enter');
        await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
        return path;
      }
      if (Date.now() > until) throw new Error('No file is asked for.');
      await sleep(100);
    }
  }

  /** Runs a command that asks for a folder, waits until the wanted one is proposed, and takes it. */
  async takeProposedFolder(title, wanted) {
    const input = this.page.locator('.quick-input-widget input').first();
    await this.page.keyboard.press('F1');
    await input.fill(`>${title}`);
    await this.page.locator('.quick-input-list .monaco-list-row').first().waitFor();
    await this.page.keyboard.press('Enter');
    const until = Date.now() + PATIENCE;
    for (let path = ''; ; path = (await input.isVisible()) ? await input.inputValue() : '') {
      // The folder above it comes first, its name a moment later.
      if (path.replace(/\/$/, '') === wanted) break;
      if (Date.now() > until) throw new Error(`Not ${wanted} is proposed: ${path}`);
      await sleep(100);
    }
    await this.page.locator('.quick-input-widget .quick-input-action .monaco-button').first().click();
    await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  }

  /** Puts the cursor there; line and column from 1. */
  async goTo(line, column) {
    await this.page.keyboard.press('Control+g');
    await this.page.locator('.quick-input-widget input').fill(`:${String(line)}:${String(column)}`);
    await this.page.keyboard.press('Enter');
    await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  }

  /** The text of the hover at the cursor, once it says what is wanted (what comes from a server comes last), or as it is in the end. */
  async hover(wanted) {
    const box = this.page.locator('.monaco-hover:not(.hidden) .monaco-hover-content').first();
    const until = Date.now() + 15_000;
    let said = '';
    while (!wanted.test(said) && Date.now() < until) {
      await this.page.keyboard.press('Control+k');
      await this.page.keyboard.press('Control+i');
      for (let i = 0; i < 20 && !wanted.test(said); i += 1) {
        await sleep(100);
        if (await box.isVisible()) said = await box.innerText();
      }
    }
    return said;
  }

  /** Goes to a file that is open in a tab. */
  async showTab(name) {
    const tab = this.page.locator('.tab', { hasText: name });
    await tab.click();
    await this.page.locator('.tab.active', { hasText: name }).waitFor();
    await this.page.locator('.monaco-editor .view-line').first().waitFor();
  }

  /** Follows the link on a finding's code in the open hover; the tab that comes, and its text without blank runs. */
  async followCode(code) {
    await this.page.locator('.monaco-hover a.code-link', { hasText: code }).first().click();
    const tab = this.page.locator('.tab.active', { hasText: `${code}.md` });
    await tab.waitFor();
    const lines = this.page.locator('.editor-instance .view-lines').last();
    await lines.locator('.view-line', { hasText: 'What.' }).first().waitFor();
    const text = (await lines.innerText()).replace(/[\s\u00a0]+/g, ' ');
    return { tab: await tab.innerText(), text };
  }

  /** Draws the hover larger by its edges, as a person would with the mouse. */
  async growHover() {
    // Once more: the hover takes the focus and stays while the mouse moves.
    await this.page.keyboard.press('Control+k');
    await this.page.keyboard.press('Control+i');
    await sleep(300);
    const box = await this.page.locator('.monaco-resizable-hover').first().boundingBox();
    if (box === null) return;
    const middle = box.x + box.width / 2;
    await this.page.mouse.move(middle, box.y + 20);
    await this.page.mouse.move(middle, box.y + 1, { steps: 5 });
    await sleep(500);
    await this.page.mouse.down();
    await this.page.mouse.move(middle, Math.max(120, box.y - 330), { steps: 20 });
    await this.page.mouse.up();
    await sleep(300);
  }

  /** The same from wherever the keyboard is, a panel for one: to the first group of editors. */
  async goToText(line, column) {
    const editor = this.page.locator('.editor-group-container.active .monaco-editor.focused');
    const until = Date.now() + PATIENCE;
    // A panel tells a quarter of a second late that it has the keyboard, and takes it back then.
    for (let calm = 0; calm < 2 && Date.now() < until; await sleep(300)) {
      if (await editor.isVisible()) calm += 1;
      else {
        calm = 0;
        await this.page.keyboard.press('Control+1');
      }
    }
    await this.goTo(line, column);
  }

  /** The line that the cursor is in, from 1, whether the editor has the keyboard or not. */
  async cursorLine() {
    return Number(await this.page.locator('.editor-instance .line-numbers.active-line-number').first().innerText());
  }

  /** The lines of an editor that are in view, as a person reads them. */
  async text() {
    const lines = await this.page.locator('.editor-instance .view-line').evaluateAll((all) =>
      all
        .map((one) => ({ top: Number.parseFloat(one.style.top), text: one.textContent ?? '' }))
        .sort((a, b) => a.top - b.top)
        .map(({ text }) => text),
    );
    return lines.join('\n').replaceAll('\u00a0', ' ');
  }

  async escape() {
    await this.page.keyboard.press('Escape');
    await this.page.keyboard.press('Escape');
  }

  /** How many squiggles of a kind the editor draws. */
  squiggles(kind) {
    return this.page.locator(`.monaco-editor .squiggly-${kind}`).count();
  }

  /** Waits until the number of squiggles of a kind is as wanted. */
  async untilSquiggles(kind, wanted) {
    const until = Date.now() + PATIENCE;
    for (;;) {
      const count = await this.squiggles(kind);
      if (wanted(count)) return count;
      if (Date.now() > until) throw new Error(`There are ${String(count)} ${kind} squiggles.`);
      await sleep(50);
    }
  }

  /** The quick fixes offered at the cursor. */
  async quickFixes() {
    // The editor looks for fixes by itself a quarter of a second after the cursor has moved, which takes back what is asked.
    await sleep(600);
    await this.page.keyboard.press('Control+.');
    const rows = this.page.locator('.action-widget .monaco-list-row.action');
    await rows.first().waitFor();
    return rows.allInnerTexts();
  }

  /** Takes the first of the offered fixes whose title fits, by keyboard. */
  async takeFix(offered, title) {
    const index = offered.findIndex((one) => title.test(one));
    if (index < 0) throw new Error(`No fix is like ${String(title)}: ${offered.join(' | ')}`);
    for (let i = 0; i < index; i += 1) await this.page.keyboard.press('ArrowDown');
    await this.page.keyboard.press('Enter');
    await this.page.locator('.action-widget').waitFor({ state: 'hidden' });
  }

  async screenshot(path) {
    await this.page.screenshot({ path });
  }

  close() {
    return this.context.close();
  }
}
