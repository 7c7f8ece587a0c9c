/** The picture of the README. */
import { join } from 'node:path';

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
};
