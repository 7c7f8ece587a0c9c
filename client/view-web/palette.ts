/** The editor's own colours, read from the page; everything that is drawn takes its colours from here. */
import { Color, SRGBColorSpace } from 'three';

/** Red, green, blue from 0 to 255. */
export type Rgb = readonly [number, number, number];

export interface Palette {
  readonly dark: boolean;
  readonly contrast: boolean;
  readonly background: Rgb;
  readonly foreground: Rgb;
  readonly muted: Rgb;
  readonly accent: Rgb;
  readonly error: Rgb;
  readonly warning: Rgb;
  readonly information: Rgb;
  readonly hint: Rgb;
  readonly blue: Rgb;
  readonly green: Rgb;
  readonly orange: Rgb;
  readonly yellow: Rgb;
  readonly purple: Rgb;
  readonly font: string;
}

export const css = ([r, g, b]: Rgb, alpha = 1): string =>
  `rgba(${String(Math.round(r))}, ${String(Math.round(g))}, ${String(Math.round(b))}, ${String(alpha)})`;

/** Part of the way from one colour to another. */
export const mixed = (a: Rgb, b: Rgb, share: number): Rgb => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
  a[2] + (b[2] - a[2]) * share,
];

export const colour = ([r, g, b]: Rgb): Color => new Color().setRGB(r / 255, g / 255, b / 255, SRGBColorSpace);

/** Resolves what a style sheet may say, by painting it; null: it says nothing. */
function painted(context: CanvasRenderingContext2D, value: string, under: Rgb): Rgb | null {
  if (value === '') return null;
  context.fillStyle = css(under);
  context.fillRect(0, 0, 1, 1);
  context.fillStyle = value;
  context.fillRect(0, 0, 1, 1);
  const [r = 0, g = 0, b = 0] = context.getImageData(0, 0, 1, 1).data;
  return [r, g, b];
}

/** What the page's theme is now. Where a theme leaves a colour out, one is mixed from those that it has. */
export function readPalette(): Palette {
  const { classList } = document.body;
  const contrast = classList.contains('vscode-high-contrast') || classList.contains('vscode-high-contrast-light');
  const light = classList.contains('vscode-light') || classList.contains('vscode-high-contrast-light');
  const style = getComputedStyle(document.documentElement);
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = 1;
  const context = canvas.getContext('2d', { willReadFrequently: true });
  const base: Rgb = light ? [255, 255, 255] : [30, 30, 30];
  const read = (name: string, under: Rgb, otherwise: Rgb): Rgb =>
    (context && painted(context, style.getPropertyValue(`--vscode-${name}`).trim(), under)) ?? otherwise;
  const background = read('editor-background', base, base);
  const foreground = read('editor-foreground', background, light ? [40, 40, 40] : [210, 210, 210]);
  const over = (name: string, otherwise: Rgb) => read(name, background, otherwise);
  const muted = over('descriptionForeground', mixed(background, foreground, 0.7));
  const error = over('editorError-foreground', mixed(foreground, [220, 40, 40], 0.8));
  const warning = over('editorWarning-foreground', mixed(foreground, [200, 150, 20], 0.8));
  const information = over('editorInfo-foreground', mixed(foreground, [60, 130, 220], 0.8));
  return {
    dark: !light,
    contrast,
    background,
    foreground,
    muted,
    accent: over('focusBorder', information),
    error,
    warning,
    information,
    hint: over('editorHint-foreground', muted),
    blue: over('charts-blue', information),
    green: over('charts-green', mixed(foreground, [60, 160, 90], 0.7)),
    orange: over('charts-orange', warning),
    yellow: over('charts-yellow', warning),
    purple: over('charts-purple', mixed(foreground, [140, 90, 190], 0.7)),
    font: style.getPropertyValue('--vscode-font-family').trim() || 'sans-serif',
  };
}

/** Calls when the editor changes its theme; returns what ends it. */
export function watchTheme(changed: () => void): () => void {
  const observer = new MutationObserver(changed);
  observer.observe(document.body, { attributes: true, attributeFilter: ['class', 'data-vscode-theme-id'] });
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['style', 'class'] });
  return () => {
    observer.disconnect();
  };
}
