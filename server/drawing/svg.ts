/** A scene as SVG: self-contained, the same bytes for the same scene, legible in black and white. */
import type { Look } from './looks';
import { LOOKS } from './looks';
import type { Item, Point, Scene, Style } from './scene';

/** The attributes of a style. */
function attributes({ fill, stroke, width, dash, roundJoin, roundCap }: Look): string {
  return [
    `fill="${fill ?? 'none'}" stroke="${stroke}"`,
    ...(width === null ? [] : [`stroke-width="${String(width)}"`]),
    ...(dash.length === 0 ? [] : [`stroke-dasharray="${dash.join(' ')}"`]),
    ...(roundJoin ? ['stroke-linejoin="round"'] : []),
    ...(roundCap ? ['stroke-linecap="round"'] : []),
  ].join(' ');
}

/** Worked out once: a page has thousands of lines. */
const ATTRIBUTES: ReadonlyMap<string, string> = new Map(
  Object.entries(LOOKS).map(([style, look]) => [style, attributes(look)]),
);
const drawnAs = (style: Style): string => ATTRIBUTES.get(style) ?? '';

/** Hundredths of a millimetre of paper: finer than any line. */
const figure = (value: number): string => {
  const rounded = Math.round(value * 100) / 100;
  return Number.isFinite(rounded) ? String(rounded + 0) : '0';
};

const at = ({ x, y }: Point): string => `${figure(x)} ${figure(y)}`;

/**
 * Control characters other than blanks and line ends, halves of pairs, code points that are no characters (XML 1.0, section
 * 2.2, and the preprocessing of HTML's input stream), and orders to turn the direction of writing round.
 */
const NO_TEXT = /[^\P{Cc}\t\n\r]|\p{Cs}|\p{Noncharacter_Code_Point}|[\u202a-\u202e\u2066-\u2069]/gu;

/** Text for the content and the attributes of XML and HTML. What is no text becomes the replacement sign. */
export const escaped = (text: string): string =>
  text
    .replace(NO_TEXT, '\ufffd')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');

const path = (points: readonly Point[], closed: boolean): string =>
  points.map((one, i) => `${i === 0 ? 'M' : 'L'}${at(one)}`).join('') + (closed ? 'Z' : '');

function arcPath(item: Extract<Item, { kind: 'arc' }>): string {
  const { centre, radius, from, to } = item;
  const on = (angle: number): Point => ({
    x: centre.x + radius * Math.cos(angle),
    y: centre.y + radius * Math.sin(angle),
  });
  const large = to - from > Math.PI ? 1 : 0;
  return `M${at(on(from))}A${figure(radius)} ${figure(radius)} 0 ${String(large)} 1 ${at(on(to))}`;
}

function textMarkup(item: Extract<Item, { kind: 'text' }>): string {
  const anchor = item.anchor === 'start' ? '' : ` text-anchor="${item.anchor}"`;
  const bold = item.bold ? ' font-weight="bold"' : '';
  const halo = item.halo ? ' stroke="#fff" stroke-width="0.7" stroke-linejoin="round" style="paint-order:stroke"' : '';
  return `<text x="${figure(item.at.x)}" y="${figure(item.at.y)}" font-size="${figure(item.size)}"${anchor}${bold}${halo}>${escaped(item.text)}</text>`;
}

function markup(item: Item): string {
  switch (item.kind) {
    case 'line':
      return item.points.length < 2 ? '' : `<path d="${path(item.points, item.closed)}" ${drawnAs(item.style)}/>`;
    case 'band':
      return item.points.length < 2
        ? ''
        : `<path d="${path(item.points, false)}" ${drawnAs(item.style)} stroke-width="${figure(item.width)}"/>`;
    case 'arc':
      return `<path d="${arcPath(item)}" ${drawnAs(item.style)}/>`;
    case 'circle':
      return `<circle cx="${figure(item.centre.x)}" cy="${figure(item.centre.y)}" r="${figure(item.radius)}" ${drawnAs(item.style)}/>`;
    case 'text':
      return textMarkup(item);
    case 'group': {
      const data = Object.entries(item.data).map(([key, value]) => ` data-${key}="${escaped(value)}"`);
      return `<g class="${escaped(item.name)}"${data.join('')}>\n${markups(item.items)}</g>`;
    }
    case 'clip':
      // A nested picture cuts off what lies outside, without names that would have to differ from picture to picture.
      return `<svg x="${figure(item.at.x)}" y="${figure(item.at.y)}" width="${figure(item.width)}" height="${figure(item.height)}" viewBox="${at(item.at)} ${figure(item.width)} ${figure(item.height)}" overflow="hidden">\n${markups(item.items)}</svg>`;
  }
}

const isPath = (item: Item): item is Extract<Item, { kind: 'line' }> => item.kind === 'line' && item.points.length >= 2;

/** One after the other; runs of lines of one style are one path. */
function markups(items: readonly Item[]): string {
  const parts: string[] = [];
  let run: string[] = [];
  let style: Style | null = null;
  const flush = (): void => {
    if (style !== null && run.length > 0) parts.push(`<path d="${run.join('')}" ${drawnAs(style)}/>\n`);
    run = [];
    style = null;
  };
  for (const item of items) {
    if (isPath(item)) {
      if (item.style !== style) flush();
      style = item.style;
      run.push(path(item.points, item.closed));
      continue;
    }
    flush();
    const written = markup(item);
    if (written !== '') parts.push(`${written}\n`);
  }
  flush();
  return parts.join('');
}

/**
 * The SVG element of a scene, as wide as its millimetres of paper. It stands inside HTML as it is; {@link svgFile} makes a
 * file of it.
 */
export function svgElement(scene: Scene): string {
  const { width, height, title, description } = scene;
  const told = description === '' ? '' : `<desc>${escaped(description)}</desc>\n`;
  return `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="${figure(width)}mm" height="${figure(height)}mm" viewBox="0 0 ${figure(width)} ${figure(height)}" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif" fill="#000">
<title>${escaped(title)}</title>
${told}${markups(scene.items)}</svg>`;
}

/** A whole SVG file. `note`: a comment at its top. */
export const svgFile = (scene: Scene, note: string): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n<!-- ${note.replaceAll('--', '- -')} -->\n${svgElement(scene)}\n`;
