/** The pictures of the README: the text with its hover, and the car beside it. */
import { join } from 'node:path';
import { Panel } from '../panel.mjs';

/** @param {import('../stage.mjs').Stage} stage */
export const pictureScenes = async ({ root, text, folderOf, scene, open, lineOf }) => {
  await scene('picture', async () => {
    const folder = folderOf('picture', text.replace('2,5', '2.5'));
    const window = await open(folder, { viewport: { width: 1080, height: 760 } });
    await window.openFile('bar.cage');
    await window.untilSquiggles('warning', (count) => count > 0);
    await window.page.keyboard.press('Control+b');
    await window.goTo(36, 1);
    await window.goTo(...lineOf(text, 'path bar-end.left', 'bar-end'));
    await window.hover(/337\.5°/);
    await window.growHover();
    await window.screenshot(join(root, 'client/media/editor.png'));
    await window.close();
  });

  await scene('picture of the car', async () => {
    const written = text.replace('2,5', '2.5');
    const folder = folderOf('picture-of-the-car', written);
    const window = await open(folder, { panels: true, viewport: { width: 1200, height: 680 } });
    await window.openFile('bar.cage');
    await window.command('Cagewright: Show the Car Beside the Text');
    const panel = await Panel.of(window, 'bar.cage');
    await window.page.keyboard.press('Control+b');
    await window.untilSquiggles('warning', (count) => count > 0);
    await panel.button('Lists');
    await panel.rest();
    await panel.button('Frame all');
    await window.goToText(...lineOf(written, 'strap driver-outer', 'driver-outer'));
    await window.page.mouse.move(5, 5);
    await panel.rest();
    await window.screenshot(join(root, 'client/media/car.png'));
    await window.close();
  });
};
