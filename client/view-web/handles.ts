/** Nodes as handles: full where a hand may drag them, hollow where they hang on something; dragging, and moving by keys. */
import type { Ray } from 'three';
import { Vector3 } from 'three';
import type { WireModel, WireNode } from '../../server/lsp/view-wire';
import type { Point3 } from '../../server/view/model';
import { type Desk, type Layer, withEnds } from './desk';
import type { Label } from './labels';
import { AXES, draggedTo, flattest, nearestWay, stepOf, stepped, waysOf, type Way } from './move';
import type { Overlay } from './overlay';
import { basisOf } from './pose';

const REACH = 9;
const ARROW = 46;

interface Moving {
  readonly node: WireNode;
  readonly start: Point3;
  /** Of the hand's first grip; null: moved by keys. */
  readonly from: Ray | null;
  /** Along one arrow only. */
  readonly arrow: Way['axis'] | null;
  to: Point3;
  says: string;
  why: string | null;
}

const same = (a: Point3, b: Point3) => a.every((value, index) => value === b[index]);

export class Handles implements Layer {
  private moving: Moving | null = null;
  private number = 0;
  /** The number that the editor has not answered yet, and where to go next. */
  private waiting: number | null = null;
  private next: Point3 | null = null;
  /** Held down while dragging: only along it. */
  private only: Way['axis'] | null = null;

  constructor(private readonly desk: Desk) {}

  get busy(): boolean {
    return this.moving !== null;
  }

  private get nodes(): readonly WireNode[] {
    const { desk } = this;
    if (desk.closeUp) return [];
    const nodes = desk.shown?.nodes ?? [];
    return desk.kept.layers.nodes
      ? nodes.filter(({ at, id }) => id === desk.picked || !desk.isCut(at))
      : nodes.filter(({ id }) => id === desk.picked);
  }

  /** The node under a point of the picture. */
  at(x: number, y: number): WireNode | null {
    let best: { node: WireNode; off: number; depth: number } | null = null;
    for (const node of this.nodes) {
      const seen = this.desk.stage.project(node.at);
      const off = Math.hypot(seen.x - x, seen.y - y);
      if (!seen.ahead || off > REACH) continue;
      const nearer = !best || off < best.off - 2 || (off < best.off + 2 && seen.depth < best.depth);
      if (nearer) best = { node, off, depth: seen.depth };
    }
    return best?.node ?? null;
  }

  /** The ends of the arrows of the picked node, on the picture. */
  private arrows(node: WireNode): { way: Way; tip: Vector3 }[] {
    const long = this.desk.stage.scaleAt(node.at) * ARROW;
    return waysOf(node).map((way) => ({ way, tip: new Vector3(...node.at).addScaledVector(way.unit, long) }));
  }

  private arrowAt(x: number, y: number): { node: WireNode; axis: Way['axis'] } | null {
    const node = this.desk.node(this.desk.picked);
    if (!node) return null;
    const { stage } = this.desk;
    const from = stage.project(node.at);
    for (const { way, tip } of this.arrows(node)) {
      const end = stage.project(tip);
      // Seen end on, an arrow is no handle.
      if (Math.hypot(end.x - from.x, end.y - from.y) < ARROW / 4) continue;
      if (Math.hypot(end.x - x, end.y - y) < REACH) return { node, axis: way.axis };
    }
    return null;
  }

  /** A button went down there: true when a node is dragged from now on. */
  grab(x: number, y: number): boolean {
    const arrow = this.arrowAt(x, y);
    const node = arrow?.node ?? this.at(x, y);
    if (!node || waysOf(node).length === 0 || this.desk.measuring) return false;
    this.begin(node, this.desk.stage.ray(x, y).ray, arrow?.axis ?? null);
    return true;
  }

  private begin(node: WireNode, from: Ray | null, arrow: Way['axis'] | null): Moving {
    this.moving = { node, start: node.at, from, arrow, to: node.at, says: '', why: null };
    this.waiting = null;
    this.next = null;
    return this.moving;
  }

  drag(x: number, y: number, coarse: boolean): void {
    const { moving, desk } = this;
    if (!moving?.from) return;
    const ways = waysOf(moving.node);
    const only = ways.filter(({ axis }) => axis === (moving.arrow ?? this.only));
    const free = only.length > 0 ? only : flattest(ways, basisOf(desk.stage.pose).toward);
    const step = stepOf(desk.model?.units ?? 'mm', coarse);
    const to = draggedTo(moving.start, free, moving.from, desk.stage.ray(x, y).ray, step);
    if (to && !same(to, moving.to)) this.go(moving, to);
  }

  private go(moving: Moving, to: Point3): void {
    moving.to = to;
    this.desk.picked = moving.node.id;
    if (this.waiting === null) this.ask(moving, to);
    else this.next = to;
    this.desk.stage.invalidate();
  }

  private ask(moving: Moving, to: Point3): void {
    this.number += 1;
    this.waiting = this.number;
    this.next = null;
    this.desk.send({ type: 'try', number: this.number, node: moving.node.id, to });
  }

  /** The editor's answer to the newest question; an older one's is dropped. */
  tried(number: number, model: WireModel | null, why: string | null, says: string): void {
    const { desk, moving } = this;
    if (!moving || number !== this.waiting) return;
    this.waiting = null;
    moving.says = says;
    moving.why = why;
    if (model) {
      desk.tried = withEnds(model, desk.model);
      desk.things.try(model);
    }
    if (why !== null) desk.say(why);
    else if (moving.from === null && says !== '') desk.say(says);
    desk.changed();
    if (this.next) this.ask(moving, this.next);
  }

  /** Let go: it is written where it stands. */
  drop(): void {
    const { moving, desk } = this;
    if (!moving) return;
    if (same(moving.to, moving.start) || moving.why !== null) {
      this.cancel(moving.why ?? '');
      return;
    }
    desk.send({ type: 'drop', node: moving.node.id, to: moving.to });
    // What was tried stays on the picture until the judged model comes.
    this.moving = null;
    desk.stage.invalidate();
  }

  /** The editor wrote it, or tells why not. */
  dropped(why: string | null): void {
    if (why === null) return;
    this.desk.say(why);
    this.back();
  }

  cancel(says = 'Put back.'): void {
    if (!this.moving) return;
    this.moving = null;
    this.desk.send({ type: 'cancel' });
    if (says !== '') this.desk.say(says);
    this.back();
  }

  /** A judged model came: what was tried is over, unless a hand still drags. */
  modelCame(): void {
    if (this.moving && !this.desk.model?.nodes.some(({ id }) => id === this.moving?.node.id)) this.moving = null;
  }

  private back(): void {
    this.desk.tried = null;
    this.desk.things.forgetTry();
    this.desk.changed();
  }

  /** X, Y or Z held or let go; true when it is the drag's. */
  hold(key: string, down: boolean): boolean {
    const axis = AXES.find((one) => one === key.toLowerCase());
    if (!axis || !this.moving?.from) return false;
    this.only = down ? axis : this.only === axis ? null : this.only;
    return true;
  }

  /**
   * The picked node by keys: so many steps to the right and up in the picture, or nearer; along the axis that runs that
   * way. Enter writes it, Escape puts it back.
   */
  nudge(right: number, up: number, coarse: boolean): void {
    const { desk } = this;
    const node = desk.node(desk.picked);
    if (!node) {
      desk.say('Pick a node first: then Alt and arrows move it.');
      return;
    }
    const ways = waysOf(node);
    if (ways.length === 0) {
      desk.say(hangsOn(node));
      return;
    }
    const basis = basisOf(desk.stage.pose);
    const way = basis.right.multiplyScalar(right).addScaledVector(basis.up, up);
    const found = nearestWay(ways, way);
    if (!found) {
      desk.say('It cannot be moved that way: look from another side.');
      return;
    }
    const moving = this.moving && this.moving.from === null ? this.moving : this.begin(node, null, null);
    const step = stepOf(desk.model?.units ?? 'mm', coarse);
    this.go(moving, stepped(moving.to, found.way, found.sign, step));
  }

  draw(overlay: Overlay): void {
    const { desk, moving } = this;
    const { palette, stage } = desk;
    const lit = desk.lit();
    for (const node of this.nodes) {
      const free = waysOf(node).length > 0;
      const close = lit.has(node.id) || desk.over === node.id;
      const at = stage.project(node.at);
      if (close) overlay.dot(at, 8, palette.accent, false);
      overlay.dot(at, close ? 5 : 3, close ? palette.accent : palette.foreground, free, close ? 1 : free ? 0.85 : 0.6);
    }
    const picked = desk.node(desk.picked);
    if (picked) {
      const from = stage.project(picked.at);
      for (const { way, tip } of this.arrows(picked)) {
        const to = stage.project(tip);
        const alone = moving?.arrow === way.axis || this.only === way.axis;
        overlay.stroke([from, to], { ink: palette.accent, width: alone ? 3.5 : 2 });
        overlay.head(to, from, 11, palette.accent);
      }
    }
    if (!moving) return;
    // Where it stood, and the way it went.
    overlay.line([moving.start, moving.to], { ink: palette.accent, width: 1.5, dash: [5, 4] });
    overlay.dot(stage.project(moving.start), 4, palette.muted, false);
    overlay.dot(stage.project(moving.to), 6, palette.accent, true);
  }

  grips(): readonly Vector3[] {
    const picked = this.desk.node(this.desk.picked);
    return picked ? this.arrows(picked).map(({ tip }) => tip) : [];
  }

  labels(): readonly Label[] {
    const { desk, moving } = this;
    const labels: Label[] = [];
    const word = (node: WireNode, text: string, rank: number) =>
      labels.push({ key: `node ${node.id}`, at: node.at, text, sign: null, kind: 'name', rank, does: null });
    if (moving) {
      const text = moving.why ?? (moving.says === '' ? moving.node.name : `${moving.node.name}: ${moving.says}`);
      const sign = moving.why === null ? null : 'warning';
      labels.push({ key: 'moving', at: moving.to, text, sign, kind: 'figure', rank: 110, does: null });
    } else {
      const picked = desk.node(desk.picked);
      const over = desk.node(desk.over);
      if (picked) word(picked, waysOf(picked).length > 0 ? picked.name : hangsOn(picked), 90);
      if (over && over !== picked) word(over, over.name, 80);
    }
    const picked = desk.node(desk.picked);
    if (picked) {
      for (const { way, tip } of this.arrows(picked)) {
        const { axis, words: text } = way;
        labels.push({ key: `arrow ${axis}`, at: tip, text, sign: null, kind: 'clock', rank: 75, does: null });
      }
    }
    return labels;
  }
}

/** What a hand can do with it, and what the rest of it hangs on: a sentence. */
export function hangsOn(node: WireNode): string {
  const ways = waysOf(node).map(({ words }) => words);
  const hangs = node.hangs === null ? [] : [node.hangs];
  const moves = ways.length > 0 ? [`can be dragged: ${ways.join(', ')}`] : [];
  return `${node.name} ${[...moves, ...hangs].join('; ')}`;
}
