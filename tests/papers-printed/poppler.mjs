/** PDF pages as poppler renders and reads them. */
import { execFileSync } from 'node:child_process';

const MOST = 256 * 1024 * 1024;

/** A page as it would be printed, in greys. `page` from 1. */
export const render = (pdf, page, dpi) => {
  const bytes = execFileSync(
    'pdftoppm',
    ['-r', String(dpi), '-f', String(page), '-l', String(page), '-gray', '-singlefile', pdf],
    { maxBuffer: MOST },
  );
  // P5, width, height, 255, then a byte a pixel (the format's own description, netpbm).
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.toString('latin1', 0, 64));
  if (head === null) throw new Error(`pdftoppm gave no picture of ${pdf}`);
  const [width, height] = [Number(head[1]), Number(head[2])];
  const start = head[0].length;
  return { width, height, perMm: dpi / 25.4, at: (x, y) => bytes[start + y * width + x] ?? 255 };
};

/** Sizes of all pages, mm. */
export const sizes = (pdf) =>
  [
    ...execFileSync('pdfinfo', ['-l', '999', pdf])
      .toString()
      .matchAll(/size:\s+([\d.]+) x ([\d.]+) pts/g),
  ].map(([, width, height]) => [(Number(width) * 25.4) / 72, (Number(height) * 25.4) / 72]);

/** The text of a page, laid out as it stands. */
export const textOf = (pdf, page) =>
  execFileSync('pdftotext', ['-layout', '-f', String(page), '-l', String(page), pdf, '-']).toString();

/** Words of a page with the place of each, mm from the upper left. */
export const wordsOf = (pdf, page) =>
  [
    ...execFileSync('pdftotext', ['-bbox', '-f', String(page), '-l', String(page), pdf, '-'])
      .toString()
      .matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)<\/word>/g),
  ].map(([, left, top, right, bottom, word]) => ({
    word,
    left: (Number(left) * 25.4) / 72,
    top: (Number(top) * 25.4) / 72,
    right: (Number(right) * 25.4) / 72,
    bottom: (Number(bottom) * 25.4) / 72,
  }));
