/** Mouse, trackpad and fingers: what turns, shifts and nears the picture, and what is a click. */
import { panned, turned, zoomed } from './pose';
import type { Stage } from './stage';

export interface Hand {
  readonly x: number;
  readonly y: number;
}

export interface Gestures {
  /** A click or tap; `again`: the second of two. */
  click(at: Hand, again: boolean): void;
  /** The pointer moves with nothing pressed; null: it left. */
  over(at: Hand | null): void;
  /** Asked when a button goes down: true when something takes the drag, and the picture stays. */
  grab(at: Hand): boolean;
  drag(at: Hand, fine: boolean): void;
  drop(at: Hand): void;
}

/** Pixels that a hand may shake, and ms between the two clicks of a double click. */
const STILL = 4;
const TWICE = 400;
const TURN = 0.0085;

export function watchPointer(canvas: HTMLCanvasElement, stage: Stage, gestures: Gestures): void {
  const down = new Map<number, Hand>();
  let start: Hand | null = null;
  let moved = false;
  let grabbed = false;
  let shifts = false;
  let last = { x: 0, y: 0, time: -TWICE };

  const place = (event: PointerEvent | WheelEvent): Hand => {
    const { left, top } = canvas.getBoundingClientRect();
    return { x: event.clientX - left, y: event.clientY - top };
  };
  const zoomAt = (at: Hand, factor: number) => {
    const { width, height } = stage;
    stage.pose = zoomed(stage.pose, factor, (at.x / width) * 2 - 1, 1 - (at.y / height) * 2, stage.aspect);
  };

  canvas.addEventListener('pointerdown', (event) => {
    const at = place(event);
    down.set(event.pointerId, at);
    canvas.setPointerCapture(event.pointerId);
    canvas.focus({ preventScroll: true });
    if (down.size > 1) {
      moved = true;
      return;
    }
    start = at;
    moved = false;
    shifts = event.button === 1 || event.button === 2 || event.shiftKey;
    grabbed = event.button === 0 && !shifts && gestures.grab(at);
    // The middle button would begin to scroll the page.
    if (event.button === 1) event.preventDefault();
  });

  canvas.addEventListener('pointermove', (event) => {
    const at = place(event);
    const before = down.get(event.pointerId);
    if (!before) {
      gestures.over(at);
      return;
    }
    down.set(event.pointerId, at);
    if (start && Math.hypot(at.x - start.x, at.y - start.y) > STILL) moved = true;
    if (!moved) return;
    if (down.size === 2) {
      const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
      if (!other) return;
      const apart = Math.hypot(at.x - other.x, at.y - other.y);
      const wasApart = Math.hypot(before.x - other.x, before.y - other.y);
      stage.pose = panned(stage.pose, (at.x - before.x) / 2, (at.y - before.y) / 2, stage.height);
      if (apart > 1 && wasApart > 1) zoomAt({ x: (at.x + other.x) / 2, y: (at.y + other.y) / 2 }, wasApart / apart);
    } else if (grabbed) gestures.drag(at, event.shiftKey);
    else if (shifts) stage.pose = panned(stage.pose, at.x - before.x, at.y - before.y, stage.height);
    else stage.pose = turned(stage.pose, -(at.x - before.x) * TURN, (at.y - before.y) * TURN);
  });

  const up = (event: PointerEvent) => {
    const at = place(event);
    if (!down.delete(event.pointerId) || down.size > 0) return;
    if (grabbed && moved) gestures.drop(at);
    else if (!moved && event.type === 'pointerup' && event.button === 0) {
      const again = event.timeStamp - last.time < TWICE && Math.hypot(at.x - last.x, at.y - last.y) <= STILL;
      last = { ...at, time: again ? -TWICE : event.timeStamp };
      gestures.click(at, again);
    }
    grabbed = false;
    start = null;
  };
  canvas.addEventListener('pointerup', up);
  canvas.addEventListener('pointercancel', up);
  canvas.addEventListener('pointerleave', () => {
    gestures.over(null);
  });
  canvas.addEventListener('contextmenu', (event) => {
    event.preventDefault();
  });
  canvas.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 30 : 1;
      if (event.shiftKey) {
        stage.pose = panned(stage.pose, -(event.deltaX || event.deltaY) * lines, 0, stage.height);
        return;
      }
      // A pinch on a trackpad comes as a wheel with Ctrl, in small steps.
      const speed = event.ctrlKey ? 0.01 : 0.0015;
      zoomAt(place(event), Math.exp(Math.min(300, Math.max(-300, event.deltaY * lines)) * speed));
    },
    { passive: false },
  );
}
