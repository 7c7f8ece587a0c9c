/** Which way the car lies, in a corner of the picture: where front, left and up are. */
import { Vector3 } from 'three';
import type { Desk, Layer } from './desk';
import type { Label } from './labels';
import type { Overlay } from './overlay';
import { css } from './palette';
import { basisOf } from './pose';

const LONG = 30;
const ROOM = 62;
const ARMS = [
  { words: 'FRONT', way: new Vector3(1, 0, 0) },
  { words: 'LEFT', way: new Vector3(0, 1, 0) },
  { words: 'UP', way: new Vector3(0, 0, 1) },
] as const;

export class Compass implements Layer {
  constructor(private readonly desk: Desk) {}

  /** In a small picture it is left out. */
  draw(overlay: Overlay): void {
    const { stage, palette } = this.desk;
    const { width, height } = stage;
    if (width < 420 || height < 220) return;
    const { right, up, toward } = basisOf(stage.pose);
    const { context } = overlay;
    const middle = { x: width - ROOM, y: height - ROOM, depth: 0, ahead: true };
    // The arm that points away is drawn first.
    const arms = [...ARMS].sort((a, b) => a.way.dot(toward) - b.way.dot(toward));
    for (const { words, way } of arms) {
      const tip = { ...middle, x: middle.x + way.dot(right) * LONG, y: middle.y - way.dot(up) * LONG };
      const long = Math.hypot(tip.x - middle.x, tip.y - middle.y);
      // Seen end on it says nothing.
      if (long < LONG * 0.12) continue;
      const main = words === 'FRONT';
      const ink = main ? palette.orange : palette.muted;
      overlay.stroke([middle, tip], { ink, width: main ? 2.2 : 1.4 });
      overlay.head(tip, middle, main ? 9 : 7, ink);
      context.font = `${main ? '600 ' : ''}10px ${palette.font}`;
      context.textAlign = 'center';
      context.textBaseline = 'middle';
      context.fillStyle = css(palette.foreground);
      const off = 12 / Math.max(long, 1);
      context.fillText(words, tip.x + (tip.x - middle.x) * off * 1.45, tip.y + (tip.y - middle.y) * off);
    }
  }

  labels(): readonly Label[] {
    return [];
  }
}
