/** What lies under the pointer: clicked, dragged, hovered. */
import type { Choice } from './choice';
import type { Desk } from './desk';
import type { Frame } from './frame';
import type { Handles } from './handles';
import type { Hover } from './hover';
import type { Measure } from './measure';
import { waysOf } from './move';
import { pickAt, type Hit } from './pick';
import { watchPointer, type Hand } from './pointer';

export class Under {
  private at: Hand | null = null;
  private asked = false;

  constructor(
    private readonly frame: Frame,
    private readonly desk: Desk,
    private readonly choice: Choice,
    private readonly handles: Handles,
    private readonly measure: Measure,
    private readonly hover: Hover,
  ) {}

  private hit({ x, y }: Hand): Hit | null {
    const node = this.handles.at(x, y);
    if (node) return { id: node.id, at: node.at };
    return pickAt(this.frame.stage, this.frame.things, this.desk.plane, x, y);
  }

  listen(): void {
    const { desk, handles, hover, measure } = this;
    watchPointer(this.frame.canvas, this.frame.stage, {
      click: (at, again) => {
        hover.close();
        const hit = this.hit(at);
        if (handles.busy) handles.cancel('');
        if (!desk.measuring) this.choice.pick(hit?.id ?? null, again);
        else if (hit) measure.pick(hit);
      },
      over: (at) => {
        this.at = at;
        if (!at) this.look();
        else if (!this.asked) {
          // Once a frame at most, however often the pointer tells.
          this.asked = true;
          requestAnimationFrame(() => {
            this.asked = false;
            this.look();
          });
        }
      },
      grab: ({ x, y }) => {
        hover.close();
        return handles.grab(x, y);
      },
      drag: ({ x, y }, coarse) => {
        handles.drag(x, y, coarse);
      },
      drop: () => {
        handles.drop();
      },
    });
  }

  private look(): void {
    const { desk, at } = this;
    const id = at && (this.hit(at)?.id ?? null);
    this.hover.over(id, at?.x ?? 0, at?.y ?? 0);
    if (id === desk.over) return;
    const named = desk.node(id) ?? desk.node(desk.over);
    desk.over = id;
    const node = desk.node(id);
    this.frame.canvas.classList.toggle('over-part', id !== null);
    this.frame.canvas.classList.toggle('over-handle', node !== null && waysOf(node).length > 0);
    if (named) desk.changed();
  }
}
