/** What scenes play on: windows of the real editor, checks that are counted, and pictures. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWindow } from './workbench.mjs';

/**
 * @typedef {object} Stage
 * @property {string} root the project
 * @property {string} home a folder for all that scenes write
 * @property {string} text the car `bar.cage`, with a mistake in it
 * @property {(name: string, car?: string) => string} folderOf a new folder with that car as `bar.cage`. Scenes have one each:
 *   the editor keeps unsaved text for a folder, also when its window is gone
 * @property {(name: string, play: () => Promise<void>) => Promise<void>} scene one that breaks off is a failure, and a picture
 *   shows where it stood
 * @property {(what: string, holds: boolean, found?: unknown) => void} check
 * @property {(name: string) => Promise<void>} picture of the window that was opened last
 * @property {(folder: string, options?: { trusted?: boolean, panels?: boolean, viewport?: object }) => Promise<object>} open
 * @property {(name: string, address: string) => Promise<void>} printed a picture of a page by itself, as it prints
 * @property {(text: string, part: string, within?: string) => [number, number]} lineOf line and column, from 1
 */

/** Line and column (from 1) where a text stands in the file. */
const lineOf = (text, part, within = part) => {
  const lines = text.split('\n');
  const line = lines.findIndex((one) => one.includes(part));
  return [line + 1, (lines[line] ?? '').indexOf(within) + 2];
};

/**
 * @param {{ root: string, home: string, text: string, screenshots: string, browser: object, url: string }} options
 *   `screenshots`: emptied first
 * @returns {{ stage: Stage, results: boolean[] }}
 */
export const setStage = ({ root, home, text, screenshots, browser, url }) => {
  rmSync(screenshots, { recursive: true, force: true });
  mkdirSync(screenshots, { recursive: true });
  const results = [];
  let shot = 0;
  let current = null;

  const nextPicture = (name) => {
    shot += 1;
    return join(screenshots, `${String(shot).padStart(2, '0')}-${name}.png`);
  };
  const check = (what, holds, found = '') => {
    results.push(holds);
    process.stdout.write(
      `${holds ? 'ok    ' : 'FAILED'} ${what}${holds ? '' : `\n       found: ${String(found).slice(0, 2000)}`}\n`,
    );
  };
  const scene = async (name, play) => {
    try {
      await play();
    } catch (fault) {
      check(name, false, fault instanceof Error ? fault.message : fault);
      await current?.screenshot(join(screenshots, `failed-${name.replaceAll(' ', '-')}.png`)).catch(() => undefined);
    }
  };
  const stage = {
    root,
    home,
    text,
    check,
    scene,
    lineOf,
    folderOf: (name, car = text) => {
      const folder = join(home, name);
      mkdirSync(folder);
      writeFileSync(join(folder, 'bar.cage'), car);
      return folder;
    },
    picture: (name) => current.screenshot(nextPicture(name)),
    open: async (folder, { trusted = true, ...options } = {}) => {
      current = await openWindow(browser, url, folder, trusted, options);
      return current;
    },
    printed: async (name, address) => {
      // As wide as A4.
      const page = await browser.browser.newPage({ viewport: { width: 794, height: 1123 } });
      await page.emulateMedia({ media: 'print' });
      await page.goto(address);
      await page.screenshot({ path: nextPicture(name), fullPage: true });
      await page.close();
    },
  };
  return { stage, results };
};
