/** Signs for how bad a finding is: each its own shape, so that it is read without its colour. */
import type { Severity } from './looks';
import { css, type Rgb } from './palette';

/** In a square of 16: the body, and what is cut out of it. */
const SHAPES: Readonly<Record<Severity, { readonly body: string; readonly sign: string; readonly word: string }>> = {
  error: { body: 'M5 1h6l4 4v6l-4 4H5l-4-4V5z', sign: 'M7 3.5h2v5.5H7zM7 10.5h2v2H7z', word: 'Error' },
  warning: { body: 'M8 1l7.5 14H.5z', sign: 'M7.1 5.5h1.8v5H7.1zM7.1 11.7h1.8v1.8H7.1z', word: 'Warning' },
  information: {
    body: 'M8 .8a7.2 7.2 0 1 0 0 14.4A7.2 7.2 0 1 0 8 .8z',
    sign: 'M7 3.8h2v2H7zM7 7h2v5.4H7z',
    word: 'Information',
  },
  hint: { body: 'M8 1.5L14.5 8 8 14.5 1.5 8z', sign: 'M7 7h2v2H7z', word: 'Hint' },
};

export const severityWord = (severity: Severity): string => SHAPES[severity].word;

const NS = 'http://www.w3.org/2000/svg';

/** The sign as an element of the page, in the colour of its class. */
export function symbol(severity: Severity): SVGElement {
  const { body, sign, word } = SHAPES[severity];
  const svg = document.createElementNS(NS, 'svg');
  svg.setAttribute('viewBox', '0 0 16 16');
  svg.setAttribute('class', `sign ${severity}`);
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', word);
  const path = document.createElementNS(NS, 'path');
  path.setAttribute('d', `${body}${sign}`);
  path.setAttribute('fill-rule', 'evenodd');
  svg.append(path);
  return svg;
}

/** The sign on a canvas, its upper left corner there. */
export function drawSymbol(
  context: CanvasRenderingContext2D,
  severity: Severity,
  x: number,
  y: number,
  ink: Rgb,
): void {
  const { body, sign } = SHAPES[severity];
  context.save();
  context.translate(x, y);
  context.fillStyle = css(ink);
  context.fill(new Path2D(`${body}${sign}`), 'evenodd');
  context.restore();
}
