/** The picture as a PNG: bodies, marks and words as they stand, on one page. */
import type { Desk, Layer } from './desk';
import type { Labels } from './labels';
import { rgbOf } from './looks';
import { Overlay } from './overlay';
import { css } from './palette';
import { drawSymbol } from './symbols';

/** Draws everything onto one canvas; null where the page has none to give. */
function composed(desk: Desk, layers: readonly Layer[], labels: Labels): HTMLCanvasElement | null {
  const { stage, palette } = desk;
  const page = document.createElement('canvas');
  page.width = stage.canvas.width;
  page.height = stage.canvas.height;
  const context = page.getContext('2d');
  if (!context) return null;
  // The frame is drawn in this turn of the page: later its pixels are gone.
  stage.draw();
  context.drawImage(stage.canvas, 0, 0);
  const scale = page.width / stage.width;
  context.scale(scale, scale);
  const overlay = new Overlay(context, (at) => stage.project(at), palette.background);
  for (const layer of layers) layer.draw(overlay);
  labels.lead(overlay, palette.muted);
  context.textBaseline = 'middle';
  context.textAlign = 'left';
  context.font = `12px ${palette.font}`;
  for (const { label, placed, width, height } of labels.standing) {
    const ink = label.sign ? rgbOf(palette, label.sign) : palette.foreground;
    if (!placed.short) {
      context.fillStyle = css(palette.background, label.kind === 'ground' ? 0 : 0.88);
      context.fillRect(placed.x, placed.y, width, height);
      context.lineWidth = 1;
      context.strokeStyle = css(ink, label.kind === 'ground' || label.kind === 'clock' ? 0 : 1);
      context.strokeRect(placed.x + 0.5, placed.y + 0.5, width - 1, height - 1);
      context.fillStyle = css(label.kind === 'ground' ? palette.muted : palette.foreground);
      context.fillText(label.text, placed.x + (label.sign ? 22 : 4), placed.y + height / 2 + 0.5);
    }
    if (label.sign) drawSymbol(context, label.sign, placed.x + 3, placed.y + (placed.short ? 1 : height / 2 - 8), ink);
  }
  return page;
}

/** The bytes of the PNG; null when there is nothing to draw on. */
export async function picture(desk: Desk, layers: readonly Layer[], labels: Labels): Promise<Uint8Array | null> {
  const page = composed(desk, layers, labels);
  const blob = await new Promise<Blob | null>((done) => {
    if (page) page.toBlob(done, 'image/png');
    else done(null);
  });
  return blob && new Uint8Array(await blob.arrayBuffer());
}
