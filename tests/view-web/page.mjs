/* global document, window, btoa, Buffer, requestAnimationFrame */
/** The panel's page in a browser, with the real bundle under the real content policy, and an editor in memory behind it. */
import { createServer } from 'node:http';
import { mkdirSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { THEMES } from './themes.mjs';

export const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
export const shots = join(root, '.build/view-web');
const NONCE = 'abcdefgh12345678';

/** Bundles the page as the extension does, and the editor in memory; returns what each weighs or gives. */
export const prepare = async () => {
  mkdirSync(shots, { recursive: true });
  const common = { absWorkingDir: root, bundle: true, logLevel: 'warning' };
  await build({
    ...common,
    minify: true,
    platform: 'browser',
    target: 'chrome114',
    format: 'iife',
    entryPoints: { view: 'client/view-web/main.ts' },
    outdir: join(shots, 'dist'),
  });
  await build({
    ...common,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    entryPoints: { editor: 'tests/view-web/editor.ts', page: 'client/view/page.ts' },
    outdir: join(shots, 'node'),
    outExtension: { '.js': '.mjs' },
    banner: { js: 'import{createRequire as __r}from"node:module";const require=__r(import.meta.url);' },
  });
  const { openEditor } = await import(pathToFileURL(join(shots, 'node/editor.mjs')).href);
  const { pageHtml } = await import(pathToFileURL(join(shots, 'node/page.mjs')).href);
  return { openEditor, pageHtml, bundle: readFileSync(join(shots, 'dist/view.js')).length };
};

/** Serves the page and its two files, and nothing else. */
export const serve = (pageHtml) =>
  new Promise((done) => {
    const server = createServer((request, response) => {
      const send = (type, body) => response.writeHead(200, { 'content-type': type }).end(body);
      const at = `http://127.0.0.1:${String(server.address().port)}`;
      if (request.url === '/')
        send('text/html', pageHtml({ source: at, script: `${at}/view.js`, style: `${at}/view.css`, nonce: NONCE }));
      else if (request.url === '/view.js') send('text/javascript', readFileSync(join(shots, 'dist/view.js')));
      else if (request.url === '/view.css') send('text/css', readFileSync(join(shots, 'dist/view.css')));
      else response.writeHead(404).end();
    });
    server.listen(0, '127.0.0.1', () => done({ url: `http://127.0.0.1:${String(server.address().port)}/`, server }));
  });

/**
 * Opens the page on a car.
 * @param kept what the panel kept the last time
 */
export const openPage = async (
  browser,
  { url, openEditor, sample, theme = 'dark', size = [1100, 760], kept, touch },
) => {
  const context = await browser.newContext({
    viewport: { width: size[0], height: size[1] },
    reducedMotion: 'reduce',
    hasTouch: touch === true,
  });
  const page = await context.newPage();
  const faults = [];
  page.on('pageerror', (fault) => faults.push(String(fault)));
  page.on('console', (line) => {
    if (line.type() === 'error' || line.type() === 'warning') faults.push(line.text());
  });
  const post = (message) => page.evaluate((data) => window.postMessage(data, '*'), message).catch(() => undefined);
  const editor = await openEditor(root, sample, post);
  await page.exposeFunction('heardByEditor', (message) => {
    const bytes = message?.bytes === undefined ? {} : { png: new Uint8Array(Buffer.from(message.bytes, 'base64')) };
    return editor.heard({ ...message, ...bytes });
  });
  await page.addInitScript(
    ({ colours, body, state }) => {
      let held = state;
      window.framesAsked = 0;
      // So that what was drawn can be read back whenever a test asks.
      const canvas = window.HTMLCanvasElement.prototype;
      const context = canvas.getContext;
      canvas.getContext = function (kind, wishes) {
        return context.call(this, kind, kind === 'webgl2' ? { ...wishes, preserveDrawingBuffer: true } : wishes);
      };
      window.timings = [];
      new window.PerformanceObserver((list) => {
        for (const { name, duration, detail } of list.getEntries()) window.timings.push({ name, duration, detail });
      }).observe({ type: 'measure' });
      const ask = window.requestAnimationFrame.bind(window);
      window.requestAnimationFrame = (then) => {
        window.framesAsked += 1;
        return ask(then);
      };
      const dress = () => {
        for (const [name, value] of Object.entries(colours))
          document.documentElement.style.setProperty(`--vscode-${name}`, value);
        document.body.className = body;
      };
      if (document.body) dress();
      else document.addEventListener('DOMContentLoaded', dress);
      window.acquireVsCodeApi = () => {
        dress();
        return {
          postMessage: (message) => {
            let sent = message;
            if (message.png instanceof Uint8Array) {
              let text = '';
              for (const byte of message.png) text += String.fromCharCode(byte);
              sent = { ...message, png: null, bytes: btoa(text) };
            }
            void window.heardByEditor(sent);
          },
          getState: () => held,
          setState: (next) => {
            held = JSON.parse(JSON.stringify(next));
            window.kept = held;
          },
        };
      };
    },
    { ...THEMES[theme], state: kept },
  );
  await page.goto(url);
  await page.waitForSelector('[role="option"]', { state: 'attached', timeout: 60_000 });
  const frame = () =>
    page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  await frame();
  return {
    page,
    editor,
    faults,
    frame,
    kept: () => page.evaluate(() => window.kept),
    shot: (name) => page.screenshot({ path: join(shots, `${name}.png`) }),
    wear: (name) =>
      page.evaluate(({ colours, body }) => {
        document.documentElement.removeAttribute('style');
        for (const [key, value] of Object.entries(colours))
          document.documentElement.style.setProperty(`--vscode-${key}`, value);
        document.body.className = body;
      }, THEMES[name]),
    close: () => context.close(),
  };
};
