/** The picture on the page: the bodies, over them what is measured, over that the words; dressed in the editor's theme. */
import type { Plane } from 'three';
import type { WireModel, WireThing } from '../../server/lsp/view-wire';
import type { Desk, Layer } from './desk';
import { el, setAttribute, setText } from './dom';
import { Ground } from './ground';
import { Labels, type Label } from './labels';
import { Looks } from './looks';
import { Overlay } from './overlay';
import { readPalette, watchTheme } from './palette';
import { basisOf } from './pose';
import { Stage } from './stage';
import type { LayerName } from './state';
import { Things } from './things';

/** Kinds that a choice under "Show" takes away. */
const LAYER_OF: Readonly<Partial<Record<WireThing['kind'], LayerName>>> = {
  seat: 'seats',
  helmet: 'seats',
  strap: 'straps',
  anchor: 'straps',
  panel: 'panels',
  padding: 'panels',
};

/** How long words of the moment stay on the picture, ms. */
const STAY = 9000;

export class Frame {
  readonly canvas = el('canvas', {
    class: 'bodies',
    tabindex: 0,
    role: 'application',
    'aria-roledescription': 'picture of the car in three dimensions',
  });
  private readonly over = el('canvas', { class: 'over', 'aria-hidden': 'true' });
  private readonly words = el('div', { class: 'labels', 'aria-hidden': 'true' });
  private readonly trouble = el('div', { class: 'trouble', role: 'alert', hidden: true });
  private readonly status = el('div', { class: 'status', role: 'status', 'aria-live': 'polite' });
  readonly tip = el('div', { class: 'tip', role: 'tooltip', hidden: true });
  readonly element = el('div', { class: 'picture' });
  readonly stage = new Stage(this.canvas);
  readonly looks = { now: new Looks(readPalette()) };
  readonly things = new Things(this.looks.now);
  readonly labels = new Labels(this.words);
  private readonly ground = new Ground();
  private layers: readonly Layer[] = [];
  private wanted: Label[] = [];
  private saying: ReturnType<typeof setTimeout> | undefined;

  constructor() {
    this.element.append(this.canvas, this.over, this.words, this.trouble, this.status, this.tip);
    this.stage.scene.add(this.ground.group, this.things.group);
    this.name('The car');
    if (!this.stage.works)
      this.tell('This window cannot draw in three dimensions (WebGL is off). The lists work all the same.');
  }

  /** Begins to draw what the layers give, whenever it has to. */
  begin(desk: Desk, layers: readonly Layer[]): void {
    this.layers = layers;
    this.stage.after = () => {
      this.drawOver(desk);
    };
    desk.watch(() => {
      this.render(desk);
    });
    watchTheme(() => {
      this.restyle(desk);
    });
    new ResizeObserver(() => {
      this.resize();
    }).observe(this.element);
    this.resize();
    this.restyle(desk);
  }

  /** Whose picture it is, for a screen reader. */
  name(name: string): void {
    setAttribute(this.canvas, 'aria-label', `${name}. Arrows turn it; question mark lists all keys.`);
  }

  /** Says why there is nothing to see; null: there is. */
  tell(text: string | null): void {
    if (text === null && !this.stage.works) return;
    this.trouble.hidden = text === null;
    setText(this.trouble, text ?? '');
  }

  /** To the eye and to a screen reader. */
  say(text: string): void {
    clearTimeout(this.saying);
    setText(this.status, text);
    this.saying = setTimeout(() => {
      setText(this.status, '');
    }, STAY);
  }

  /** A judged model. Returns how many bodies were built for it. */
  update(model: WireModel): number {
    this.tell(null);
    const built = this.things.update(model);
    const { box, units } = model;
    if (box) this.stage.extent = Math.hypot(...box[0], ...box[1]) * 1.5 + 1500;
    this.ground.update(box, units);
    return built;
  }

  /** What lies on the plane's negative side is taken away; null: nothing is. */
  cut(plane: Plane | null): void {
    this.looks.now.section(plane);
  }

  private resize(): void {
    const { clientWidth, clientHeight } = this.element;
    this.stage.resize(clientWidth, clientHeight, this.looks.now);
    const ratio = Math.min(2, devicePixelRatio || 1);
    this.over.width = Math.round(clientWidth * ratio);
    this.over.height = Math.round(clientHeight * ratio);
  }

  private restyle(desk: Desk): void {
    const before = this.looks.now;
    const looks = new Looks(readPalette(), before);
    this.looks.now = looks;
    desk.palette = looks.palette;
    this.stage.restyle(looks.palette);
    this.ground.restyle(looks.palette);
    this.things.restyle(looks);
    before.dispose();
    desk.changed();
  }

  private render(desk: Desk): void {
    const { layers } = desk.kept;
    const worst = desk.worst();
    // Looked at closely, a cut is seen in the metal's own colour.
    const lit = desk.closeUp ? new Set<string>() : desk.lit();
    this.things.show({
      lit,
      worst: layers.problems ? worst : new Map(),
      clear: desk.clear,
      hidden: ({ id, kind }) => {
        if (kind === 'space') return !layers.spaces && !(layers.problems && worst.has(id));
        const layer = LAYER_OF[kind];
        return layer !== undefined && !layers[layer];
      },
    });
    this.ground.group.visible = layers.ground;
    this.canvas.classList.toggle('measuring', desk.measuring);
    this.gather(desk, lit);
  }

  /** Asks all layers for their words. */
  private gather(desk: Desk, lit: ReadonlySet<string>): void {
    this.wanted = this.layers.flatMap((layer) => layer.labels());
    if (desk.finding === null && desk.closeUp === null) this.wanted.push(...this.names(desk, lit));
    this.write(desk);
  }

  private write(desk: Desk): void {
    const { ground } = desk.kept.layers;
    this.labels.update(ground ? [...this.wanted, ...this.ground.labels()] : this.wanted);
  }

  /** Names of what stands out; once where several of one name do, as a strap with its collars. */
  private names(desk: Desk, lit: ReadonlySet<string>): readonly Label[] {
    const told = new Set<string>();
    return [...lit].flatMap((id): Label[] => {
      const at = this.things.middle(id);
      const text = desk.thing(id)?.name;
      if (!at || text === undefined || told.has(text)) return [];
      told.add(text);
      return [{ key: `lit ${id}`, at, text, sign: null, kind: 'name', rank: 85, does: null }];
    });
  }

  private drawOver(desk: Desk): void {
    const context = this.over.getContext('2d');
    if (!context) return;
    const { stage } = this;
    const ratio = this.over.width / Math.max(1, stage.width);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    context.clearRect(0, 0, stage.width, stage.height);
    const faced = this.ground.face(basisOf(stage.pose).toward);
    const turned = this.layers.filter((layer) => layer.turned?.()).length > 0;
    if (turned) this.gather(desk, desk.lit());
    else if (faced) this.write(desk);
    const project = stage.project.bind(stage);
    const overlay = new Overlay(context, project, desk.palette.background);
    for (const layer of this.layers) layer.draw(overlay);
    const grips = [
      ...[...desk.lit()].map((id) => desk.node(id)?.at).filter((at) => at !== undefined),
      ...this.layers.flatMap((layer) => layer.grips?.() ?? []),
    ];
    const nodes = desk.kept.layers.nodes ? (desk.shown?.nodes ?? []).map(({ at }) => at) : [];
    const drawn = this.layers.flatMap((layer) => layer.strokes?.() ?? []);
    this.labels.place(project, stage.width, stage.height, grips, nodes, drawn);
    this.labels.lead(overlay, desk.palette.muted);
  }
}
