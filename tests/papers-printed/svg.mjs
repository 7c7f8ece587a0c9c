/** An SVG file as a browser draws it. */
import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { decode } from 'fast-png';
import { chromium } from 'playwright-core';

/** Pixels of the screen to a pixel of CSS, of which 96 are an inch (CSS Values and Units 3). */
const SCALE = 4;
const CSS_PER_MM = 96 / 25.4;

/** The picture in greys, kept as `png` for whoever looks at it. */
export const drawnByBrowser = async (executablePath, file, png) => {
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  try {
    const page = await browser.newPage({ viewport: { width: 900, height: 1400 }, deviceScaleFactor: SCALE });
    await page.goto(pathToFileURL(file).href);
    const bytes = await page.screenshot({ clip: { x: 0, y: 0, width: 900, height: 1400 } });
    writeFileSync(png, bytes);
    const { width, height, channels, data } = decode(bytes);
    return { width, height, perMm: CSS_PER_MM * SCALE, at: (x, y) => data[(y * width + x) * channels] ?? 255 };
  } finally {
    await browser.close();
  }
};
