/** Debian's Chromium, drawing without a graphics card, which finds nobody but this machine. */
import { startBrowser } from '../editor-real/workbench.mjs';
import { installPrograms, pathOf } from '../support/apt.mjs';

/** Starts it; it is installed first where it is missing and apt is at hand. */
export const openBrowser = async () => {
  installPrograms({ chromium: 'chromium' });
  const { browser } = await startBrowser(pathOf('chromium'));
  return browser;
};
