/** The car beside the text: that picture and text are one, that nothing is lost when the panel is hidden, and how it looks. */
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { BARE, changed, colours, Panel, until } from '../panel.mjs';

const SHOW = 'Cagewright: Show the Car Beside the Text';
/** Line and column of the first line, a remark, which nothing is drawn of. */
const NOWHERE = [1, 1];
const THEMES = {
  dark: 'Default Dark Modern',
  light: 'Default Light Modern',
  'high-contrast': 'Default High Contrast',
  'high-contrast-light': 'Default High Contrast Light',
};

/** The share of `part` that is in `whole`. */
const shareIn = (part, whole) => {
  const all = new Set(whole);
  return part.filter((at) => all.has(at)).length / Math.max(1, part.length);
};

/** @param {import('../stage.mjs').Stage} stage */
export const viewScenes = async ({ root, text, folderOf, scene, check, picture, open, lineOf }) => {
  const bar = text.replace('2,5', '2.5');
  const carsIn = (name, written = bar) => {
    const folder = folderOf(name, written);
    mkdirSync(join(folder, '.vscode'), { recursive: true });
    cpSync(join(root, 'samples/plover-rollbar.cage'), join(folder, 'plover.cage'));
    for (const file of ['curlew-cage.cage', 'curlew-seats.cage'])
      cpSync(join(root, 'samples', file), join(folder, file));
    writeFileSync(join(folder, '.vscode/settings.json'), '{}');
    return folder;
  };
  const showCar = async (window, name) => {
    await window.openFile(name);
    await window.command(SHOW);
    return Panel.of(window, name);
  };

  await scene('the car beside the text', async () => {
    const window = await open(carsIn('view'), { panels: true });
    const panel = await showCar(window, 'bar.cage');
    check('the car is drawn beside its text', colours(await panel.rest()) > 16);
    check(
      'and its parts are listed in words',
      (await panel.lines('parts')).some((line) => /^harness-bar: harness bar, 38 × 2\.5/.test(line)),
      (await panel.lines('parts')).join(' | '),
    );
    await picture('car');

    // From the text to the picture, and what is where in it; what is said on the picture would be in the way of the hand.
    await panel.leaveOut('Findings on the parts', 'Figures of what is picked', 'Nodes');
    const atBar = lineOf(bar, 'tube harness-bar', 'harness-bar');
    const atFoot = lineOf(bar, 'foot hoop-foot', 'hoop-foot');
    const barPixels = await panel.litBy(atBar, NOWHERE);
    await picture('lit-by-the-cursor');
    const feet = await panel.litBy(atFoot, NOWHERE);
    check('the cursor in a tube lights the tube', barPixels.pixels.length > 200, barPixels.pixels.length);
    check('and in a mirrored foot both feet', feet.pixels.length > 100, feet.pixels.length);
    check('which is another part of the picture', shareIn(feet.pixels, barPixels.pixels) < 0.2);

    // From the picture to the text.
    await window.goToText(...NOWHERE);
    await until('the cursor to be elsewhere', async () => (await window.cursorLine()) === NOWHERE[0]);
    await window.page.mouse.click(barPixels.point.x, barPixels.point.y);
    const line = await until('the cursor to move', async () => {
      const at = await window.cursorLine();
      return at !== NOWHERE[0] && at;
    });
    check('a click on the tube puts the cursor into its statement', line === atBar[0], line);
    await picture('picked-in-the-picture');
    await panel.rest();

    // The same hover as in the text.
    await window.page.mouse.move(barPixels.point.x + 1, barPixels.point.y);
    const said = await until('a hover on the picture', async () => {
      const tip = panel.frame.locator('.tip');
      return (await tip.isVisible()) && /Centreline/.test(await tip.innerText()) && (await tip.innerText());
    });
    check('resting on the tube says what the text says', /harness-bar/.test(said), said);
    await picture('hover-in-the-picture');
    await window.page.mouse.move(5, 5);

    // Typing shows.
    await window.goToText(...NOWHERE);
    const before = await panel.rest(BARE);
    const [bendLine] = lineOf(bar, 'node bar-bend');
    await window.goToText(bendLine, 1);
    await window.page.keyboard.press('End');
    for (let sign = 0; sign < '700)'.length; sign += 1) await window.page.keyboard.press('Shift+ArrowLeft');
    await window.page.keyboard.type('580)');
    await window.goToText(...NOWHERE);
    const after = await until('the picture to follow the text', async () => {
      const now = await panel.rest(BARE);
      return changed(before, now).length > 200 ? now : null;
    });
    const differs = changed(before, after);
    check('a number typed in the text moves the tube in the picture', shareIn(barPixels.pixels, differs) > 0.3);
    check('and leaves the feet as they are', shareIn(feet.pixels, differs) < 0.02, shareIn(feet.pixels, differs));
    await picture('typed');
    await window.page.keyboard.press('Control+z');
    await until('the picture to go back', async () => changed(before, await panel.rest(BARE)).length === 0);
    check('undone, the picture is as it was', true);
    await window.close();
  });

  await scene('a node dragged in the picture', async () => {
    const written = bar
      .replace('\nmirror left', '\nlet rise = 505\nlet wide = 910\nmirror left')
      .replace('out 455, up 1010', 'out wide / 2, up rise * 2');
    const folder = carsIn('drag', written);
    const window = await open(folder, { panels: true });
    const panel = await showCar(window, 'bar.cage');
    await panel.button('Side');
    await panel.rest();
    const at = lineOf(written, 'node bar-bend', 'bar-bend');
    const was = (await window.text()).split('\n').find((one) => one.includes('node bar-bend')) ?? '';
    await panel.pickLine('nodes', /^bar-bend\.left/);
    await panel.button('Frame picked');
    await panel.rest();
    const handle = await panel.handle(at, NOWHERE);
    await window.page.mouse.move(handle.x, handle.y);
    await window.page.mouse.down();
    await window.page.mouse.move(handle.x, handle.y - 15, { steps: 5 });
    await window.page.mouse.move(handle.x, handle.y - 40, { steps: 10 });
    await until('figures to follow the hand', async () => /z/.test(await panel.movingLabel()));
    await picture('dragging');
    const live = (await window.text()).split('\n').find((one) => one.includes('node bar-bend')) ?? '';
    check('while the hand drags, nothing is written', live === was, live);
    await window.page.mouse.up();
    const after = await until('the text to change', async () => {
      const now = (await window.text()).split('\n').find((one) => one.includes('node bar-bend')) ?? '';
      return now !== was && now;
    });
    const [, x, y, z] = /\((-?\d+(?:\.\d+)?), (-?\d+(?:\.\d+)?), (-?\d+(?:\.\d+)?)\)/.exec(after) ?? [];
    check('letting go writes the numbers, rounded', Number(z) > 700 && Number(y) === 560 && x !== undefined, after);
    await panel.rest();
    await picture('dragged');
    // The hand is on the picture still.
    await window.page.keyboard.press('Control+z');
    const back = await until('the text to go back', async () => {
      const now = (await window.text()).split('\n').find((one) => one.includes('node bar-bend')) ?? '';
      return now === was && now;
    });
    check('one undo takes it back, where the hand is', back === was, back);

    // A node that hangs on something cannot be dragged, and says on what.
    await panel.pickLine('nodes', /^crown\.left/);
    const nodes = await panel.lines('nodes');
    const crown = nodes.find((one) => one.startsWith('crown.left')) ?? '';
    check('a computed node says what it hangs on', /rise/.test(crown) && !/drag along/.test(crown), crown);
    await window.close();
  });

  await scene('measured and saved', async () => {
    const folder = carsIn('save');
    const window = await open(folder, { panels: true });
    await window.context.grantPermissions(['clipboard-read', 'clipboard-write']);
    const panel = await showCar(window, 'bar.cage');

    // From one node to the other, by keyboard: as far as their coordinates are apart.
    for (const node of ['bar-bend.left', 'bar-bend.right']) {
      await panel.pickLine('nodes', new RegExp(`^${node.replace('.', '\\.')}`));
      await window.page.keyboard.press('m');
    }
    await panel.openTab('tools');
    const figures = await until('figures', async () => {
      const words = await panel.frame.locator('#page-tools').innerText();
      return /1120(\.0)? mm/.test(words) && words;
    });
    check('two nodes at y 560 and -560 are 1120 mm apart', figures !== '', figures);
    await picture('measured');
    await panel.button('Copy as text');
    await until('the copy', async () => (await panel.said()) === 'Copied.');
    const copied = await window.page.evaluate(() => globalThis.navigator.clipboard.readText());
    check('and the figures are on the clipboard', /1120/.test(copied), copied);

    const saves = [
      ['Drawing: side (SVG)', 'bar.side.svg', '<svg'],
      ['This picture (PNG)', 'bar.png', '\u0089PNG'],
      ['For other programs (glTF, GLB)', 'bar.glb', 'glTF'],
    ];
    for (const [item, name, head] of saves) {
      await panel.choose('Save', item);
      const path = await window.takeProposedFile();
      check(`${item}: ${name} is proposed beside the car`, path === join(folder, name), path);
      await until('the word that it is written', async () => (await panel.said()) === `${name} is written.`);
      const begin = readFileSync(path, 'latin1').slice(0, 400);
      check('and written', begin.includes(head), begin);
    }
    await picture('saved');
    await window.close();
  });

  await scene('hidden and shown', async () => {
    const folder = carsIn('hide');
    const window = await open(folder, { panels: true });
    let panel = await showCar(window, 'bar.cage');
    await panel.canvas.click({ position: { x: 8, y: 8 } });
    for (const key of ['ArrowLeft', 'ArrowLeft', 'ArrowUp', '+']) await window.page.keyboard.press(key);
    // Where the keyboard is, there is a frame round the picture.
    await window.goToText(...NOWHERE);
    const before = await panel.rest(BARE);
    // Another file in the panel's own group hides it.
    await panel.canvas.click({ position: { x: 8, y: 8 } });
    // The workbench hears of a click in the panel a while after the panel does.
    const active = window.page.locator('.editor-group-container.active .tab.active');
    await until('the panel to be the active editor', async () => /Car: bar/.test(await active.innerText()));
    await window.page.locator('.explorer-folders-view .monaco-list-row', { hasText: 'plover.cage' }).dblclick();
    await until('the panel to be gone', async () => (await Panel.frameOf(window, 'bar.cage')) === null);
    await window.page.locator('.tab', { hasText: 'Car: bar.cage' }).click();
    // Over the tab its hint would come up.
    await window.page.mouse.move(5, 5);
    panel = await Panel.of(window, 'bar.cage');
    await window.goToText(...NOWHERE);
    const shown = await panel.rest(BARE);
    check(
      'a panel that was hidden shows the car from the same side',
      changed(before, shown).length === 0,
      changed(before, shown).length,
    );
    await picture('shown-again');

    // The window starts again.
    await sleep(1500);
    await window.page.reload();
    await window.page.waitForSelector('.monaco-workbench');
    panel = await Panel.of(window, 'bar.cage');
    const restored = await panel.rest(BARE);
    const off =
      restored.width === before.width && restored.height === before.height ? changed(before, restored).length : -1;
    check('and so does the window when it has started again', off === 0, off);
    await picture('restored');
    await window.close();
  });

  await scene('two cars', async () => {
    const window = await open(carsIn('two'), { panels: true, viewport: { width: 1800, height: 900 } });
    const first = await showCar(window, 'bar.cage');
    const second = await showCar(window, 'plover.cage');
    check('each car has a panel of its own', second.frame !== first.frame);
    await window.goToText(1, 1);
    await window.command(SHOW);
    await sleep(1000);
    const tabs = await window.page.locator('.tab', { hasText: 'Car: plover.cage' }).count();
    check('and only one', tabs === 1, tabs);
    const parts = await second.lines('parts');
    check(
      'with its own parts',
      !parts.some((line) => line.startsWith('harness-bar: harness bar, 38 × 2.5 mm, 1378')),
      parts.join(' | '),
    );
    await picture('two-cars');
    await window.close();
  });

  await scene('themes', async () => {
    const folder = carsIn('themes');
    const window = await open(folder, { panels: true, viewport: { width: 1680, height: 1000 } });
    const panel = await showCar(window, 'curlew-cage.cage');
    await window.page.keyboard.press('Control+b');
    const backgrounds = new Set();
    for (const [name, theme] of Object.entries(THEMES)) {
      writeFileSync(join(folder, '.vscode/settings.json'), JSON.stringify({ 'workbench.colorTheme': theme }));
      await until(`the theme ${theme}`, () =>
        panel.frame.evaluate((id) => globalThis.document.body.dataset['vscodeThemeId'] === id, theme),
      );
      const { data, channels } = await panel.rest(BARE);
      backgrounds.add([...data.slice(0, channels)].join(' '));
      await picture(`theme-${name}`);
    }
    check('the picture takes the editor’s own colours', backgrounds.size === 4, [...backgrounds].join(' | '));
    await window.close();
  });
};
