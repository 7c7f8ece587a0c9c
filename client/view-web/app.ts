/** Puts the panel together: the page, the picture, the tools, and what the editor and the hand do to them. */
import type { WireModel } from '../../server/lsp/view-wire';
import type { FromView, ToView } from '../view/messages';
import { Cope } from './cope';
import { Desk, type Layer } from './desk';
import { el, setText } from './dom';
import { Figures } from './figures';
import { Ground } from './ground';
import { Handles } from './handles';
import { Hover } from './hover';
import { watchKeys } from './keys';
import { Labels, type Label } from './labels';
import { Looks } from './looks';
import { Measure } from './measure';
import { Overlay } from './overlay';
import { readPalette, watchTheme } from './palette';
import { pickAt } from './pick';
import { PickedBox } from './picked';
import { picture } from './picture';
import { watchPointer } from './pointer';
import { framed, halfHeight, panned, standard, turned, viewOf, zoomed, type StandardView } from './pose';
import { SectionTool } from './section';
import { findingIds, Side } from './side';
import { Stage } from './stage';
import type { Kept, LayerName } from './state';
import { Things } from './things';
import { Toolbar } from './toolbar';

/** Kinds that a choice under "Show" takes away. */
const LAYER_OF: Readonly<Record<string, LayerName>> = {
  seat: 'seats',
  helmet: 'seats',
  strap: 'straps',
  anchor: 'straps',
  panel: 'panels',
  padding: 'panels',
};

/** What the page is to the editor around it. */
export interface Host {
  readonly send: (message: FromView) => void;
  readonly keep: (kept: Kept) => void;
  readonly kept: Kept;
}

export class App {
  private readonly canvas = el('canvas', {
    class: 'bodies',
    tabindex: 0,
    role: 'application',
    'aria-roledescription': 'picture of the car in three dimensions',
    'aria-label': 'The car. Arrows turn it; question mark lists all keys.',
  });
  private readonly over = el('canvas', { class: 'over', 'aria-hidden': 'true' });
  private readonly words = el('div', { class: 'labels', 'aria-hidden': 'true' });
  private readonly tip = el('div', { class: 'tip', role: 'tooltip', hidden: true });
  private readonly status = el('div', { class: 'status', role: 'status', 'aria-live': 'polite' });
  private readonly trouble = el('div', { class: 'trouble', role: 'alert', hidden: true });
  private readonly frame = el(
    'div',
    { class: 'picture' },
    this.canvas,
    this.over,
    this.words,
    this.trouble,
    this.status,
    this.tip,
  );
  private readonly stage = new Stage(this.canvas);
  private readonly ground = new Ground();
  private looks = new Looks(readPalette());
  private readonly things = new Things(this.looks);
  private readonly labels = new Labels(this.words);
  readonly desk: Desk;
  private readonly figures: Figures;
  private readonly handles: Handles;
  private readonly measure: Measure;
  private readonly cope: Cope;
  private readonly section: SectionTool;
  private readonly side: Side;
  private readonly toolbar: Toolbar;
  private readonly hover: Hover;
  private readonly layers: readonly Layer[];
  private readonly page: HTMLElement;
  private framedOnce = false;
  private saving: ReturnType<typeof setTimeout> | undefined;
  private lastOver: { x: number; y: number } | null = null;
  private looking = false;

  constructor(
    root: HTMLElement,
    private readonly host: Host,
  ) {
    this.desk = new Desk(
      this.stage,
      this.things,
      host.kept,
      this.looks.palette,
      host.send,
      (text) => {
        setText(this.status, text);
      },
      host.keep,
    );
    const { desk } = this;
    this.figures = new Figures(desk, (index) => {
      this.chooseFinding(index, false);
    });
    this.handles = new Handles(desk);
    this.measure = new Measure(desk);
    this.cope = new Cope(desk);
    this.section = new SectionTool(desk, (plane) => {
      this.looks.section(plane);
    });
    this.layers = [this.figures, this.handles, this.cope, this.measure];
    const pickedBox = new PickedBox(desk, {
      toText: () => {
        this.toText();
      },
      frame: () => {
        this.frameOn(false);
      },
      finding: (index) => {
        this.chooseFinding(index, false);
      },
      end: (id, which) => {
        this.cope.show(id, which);
        const box = this.cope.box();
        if (box) this.stage.goTo(framed({ ...this.stage.pose }, box, this.stage.aspect));
      },
    });
    this.side = new Side(
      desk,
      {
        pick: (id, go) => {
          this.pick(id, go);
        },
        finding: (index, go) => {
          this.chooseFinding(index, go);
        },
        measureFrom: (id) => {
          this.measureAt(id);
        },
        nudge: (event) => this.nudgeBy(event),
      },
      [this.measure.element, this.section.element],
      el('div', { class: 'foot' }, this.cope.element, pickedBox.element),
    );
    const deeds = this.deeds();
    this.toolbar = new Toolbar({
      ...deeds,
      save: (kind) => {
        host.send({ type: 'export', kind });
      },
      picture: () => {
        void this.savePicture();
      },
      lists: () => {
        desk.remember({ lists: !desk.kept.lists });
        desk.changed();
      },
    });
    this.page = el(
      'div',
      { class: 'app' },
      this.toolbar.element,
      el('div', { class: 'work' }, this.frame, this.side.element),
    );
    root.replaceChildren(this.page);
    this.hover = new Hover(this.tip, (id) => {
      host.send({ type: 'hover', id });
    });
    watchKeys(this.canvas, deeds);
    this.listen();
    this.stage.scene.add(this.ground.group, this.things.group);
    this.stage.after = () => {
      this.drawOver();
    };
    this.stage.rested = (pose) => {
      clearTimeout(this.saving);
      this.saving = setTimeout(() => {
        desk.remember({ pose });
      }, 250);
      this.renderBar();
    };
    if (host.kept.pose) {
      this.framedOnce = true;
      this.stage.pose = host.kept.pose;
    }
    desk.watch(() => {
      this.render();
    });
    watchTheme(() => {
      this.restyle();
    });
    this.restyle();
    new ResizeObserver(() => {
      this.resize();
    }).observe(this.frame);
    this.resize();
    if (!this.stage.works)
      this.tell('This window cannot draw in three dimensions (WebGL is off). The lists work all the same.');
    desk.changed();
  }

  /** For what is measured of the picture from outside: frames drawn, and ms of the last. */
  get drawn(): { readonly frames: number; readonly last: number; readonly things: number } {
    return { frames: this.stage.frames, last: this.stage.lastFrame, things: this.things.count.things };
  }

  private tell(text: string | null): void {
    this.trouble.hidden = text === null;
    setText(this.trouble, text ?? '');
  }

  /** A message of the editor, known to be one. */
  receive(message: ToView): void {
    const { desk } = this;
    switch (message.type) {
      case 'begin':
        desk.remember({ uri: message.uri });
        this.canvas.setAttribute('aria-label', `${message.name}. Arrows turn it; question mark lists all keys.`);
        break;
      case 'model':
        this.setModel(message.model, message.turn);
        break;
      case 'trouble':
        this.tell(message.text);
        break;
      case 'lit':
        desk.byText = new Set(message.ids);
        if (message.reveal) {
          desk.picked = null;
          desk.finding = null;
        }
        desk.changed();
        break;
      case 'hover':
        this.hover.answer(message.id, message.blocks);
        break;
      case 'tried':
        this.handles.tried(message.number, message.model, message.why, message.says);
        break;
      case 'dropped':
        this.handles.dropped(message.why);
        break;
      case 'measured':
        this.measure.measured(message.number, message.answer);
        break;
      case 'done':
        desk.say(message.text);
        break;
    }
  }

  private setModel(model: WireModel, turn: number): void {
    const { desk } = this;
    this.tell(null);
    const before = desk.model;
    const chosen = desk.finding === null ? null : (findingIds(before?.findings ?? [])[desk.finding] ?? null);
    desk.model = model;
    desk.tried = null;
    desk.turn = turn;
    this.things.update(model);
    // A finding that is still there stays the one that is looked at, wherever it stands in the list now.
    const at = chosen === null ? -1 : findingIds(model.findings).indexOf(chosen);
    desk.finding = at < 0 ? null : at;
    if (!desk.thing(desk.picked) && !desk.node(desk.picked)) desk.picked = null;
    this.handles.modelCame();
    this.measure.modelCame();
    const box = model.box;
    if (box) this.stage.extent = Math.hypot(...box[0], ...box[1]) * 1.5 + 1500;
    this.ground.update(box, model.units);
    if (!this.framedOnce && box) {
      this.framedOnce = true;
      this.stage.pose = framed(this.stage.pose, box, this.stage.aspect);
    }
    desk.changed();
  }

  private resize(): void {
    const { clientWidth, clientHeight } = this.frame;
    this.stage.resize(clientWidth, clientHeight, this.looks);
    const ratio = Math.min(2, devicePixelRatio || 1);
    this.over.width = Math.round(clientWidth * ratio);
    this.over.height = Math.round(clientHeight * ratio);
  }

  private restyle(): void {
    const before = this.looks;
    this.looks = new Looks(readPalette());
    this.looks.size.copy(before.size);
    this.looks.section(this.section.plane);
    const { palette } = this.looks;
    this.desk.palette = palette;
    this.stage.restyle(palette);
    this.ground.restyle(palette);
    this.things.restyle(this.looks);
    before.dispose();
    this.desk.changed();
  }

  private render(): void {
    const { desk } = this;
    const { layers } = desk.kept;
    const worst = desk.worst();
    this.things.show({
      lit: desk.lit(),
      worst: layers.problems ? worst : new Map(),
      clear: desk.clear,
      hidden: ({ id, kind }) => {
        const layer = LAYER_OF[kind];
        if (kind === 'space') return !layers.spaces && !(layers.problems && worst.has(id));
        return layer !== undefined && !layers[layer];
      },
    });
    this.ground.group.visible = layers.ground;
    this.page.classList.toggle('no-lists', !desk.kept.lists);
    this.canvas.classList.toggle('measuring', desk.measuring);
    const wanted: Label[] = this.layers.flatMap((layer) => layer.labels());
    if (layers.ground) wanted.push(...this.ground.labels);
    for (const id of desk.lit()) {
      const thing = desk.thing(id);
      const at = thing && this.things.middle(id);
      if (thing && at && desk.finding === null && !this.cope.open) {
        wanted.push({ key: `lit ${id}`, at, text: thing.name, sign: null, kind: 'name', rank: 85, does: null });
      }
    }
    this.labels.update(wanted);
    this.renderBar();
  }

  private renderBar(): void {
    const { desk, stage } = this;
    this.toolbar.render(viewOf(stage.pose), stage.pose.parallel, desk.measuring, desk.kept.lists);
  }

  private drawOver(): void {
    const context = this.over.getContext('2d');
    if (!context) return;
    const { stage } = this;
    const ratio = this.over.width / Math.max(1, stage.width);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    context.clearRect(0, 0, stage.width, stage.height);
    const project = stage.project.bind(stage);
    const overlay = new Overlay(context, project, this.desk.palette.background);
    for (const layer of this.layers) layer.draw(overlay);
    this.labels.place(project, stage.width, stage.height);
    for (const { label, placed, anchor, height } of this.labels.standing) {
      if (!placed.led) continue;
      const end = { ...anchor, x: placed.x > anchor.x ? placed.x : placed.x + 1, y: placed.y + height / 2 };
      overlay.stroke([anchor, end], { ink: this.desk.palette.muted, width: 1, alpha: label.sign ? 1 : 0.7 });
    }
  }

  private async savePicture(): Promise<void> {
    const png = await picture(this.desk, this.layers, this.labels);
    if (png) this.host.send({ type: 'picture', png });
  }

  private pick(id: string | null, go: boolean): void {
    const { desk, host } = this;
    desk.picked = id;
    desk.finding = null;
    if (id === null) desk.byText = new Set();
    else host.send({ type: 'pick', part: desk.node(id) ? 'node' : 'thing', id, focus: go });
    const named = desk.thing(id)?.label ?? desk.node(id)?.name ?? '';
    desk.say(named);
    desk.changed();
  }

  private chooseFinding(index: number, go: boolean): void {
    const { desk, host, stage } = this;
    const finding = desk.model?.findings[index];
    if (!finding) return;
    desk.finding = index;
    desk.picked = null;
    const { turn } = desk;
    host.send({ type: 'pick', part: 'finding', index, turn, focus: go });
    desk.say(finding.text);
    const box = desk.boxOf(finding.of, Figures.placesOf(desk, finding));
    if (box) stage.goTo(framed(stage.pose, box, stage.aspect));
    desk.changed();
  }

  private toText(): void {
    const { desk } = this;
    if (desk.finding !== null && desk.picked === null) {
      const { turn } = desk;
      this.host.send({ type: 'pick', part: 'finding', index: desk.finding, turn, focus: true });
    } else if (desk.picked !== null) this.pick(desk.picked, true);
  }

  private frameOn(all: boolean): void {
    const { desk, stage } = this;
    const picked = all ? null : desk.boxOf(desk.lit());
    const box = picked ?? desk.shown?.box ?? null;
    if (box) stage.goTo(framed(stage.pose, box, stage.aspect));
  }

  private measureAt(id: string): void {
    const { desk } = this;
    const box = desk.thing(id)?.box;
    const at = desk.node(id)?.at ?? this.things.middle(id) ?? box?.[0];
    if (!at) return;
    if (!desk.measuring) this.measure.set(true);
    this.measure.pick({ id, at });
  }

  private nudgeBy(event: KeyboardEvent): boolean {
    const ways: Readonly<Record<string, readonly [number, number]>> = {
      ArrowLeft: [-1, 0],
      ArrowRight: [1, 0],
      ArrowUp: [0, 1],
      ArrowDown: [0, -1],
    };
    const way = ways[event.key];
    if (way) this.handles.nudge(...way, event.shiftKey);
    return way !== undefined;
  }

  private deeds() {
    const { stage, desk } = this;
    return {
      turn: (right: number, up: number) => {
        stage.pose = turned(stage.pose, -right, up);
      },
      pan: (right: number, up: number) => {
        stage.pose = panned(stage.pose, -right, up, stage.height);
      },
      zoom: (factor: number) => {
        stage.pose = zoomed(stage.pose, factor, 0, 0, stage.aspect);
      },
      view: (name: StandardView) => {
        const to = standard(stage.pose, name);
        const box = desk.boxOf(desk.picked === null ? [] : [desk.picked]) ?? desk.shown?.box;
        stage.goTo(box ? framed(to, box, stage.aspect) : to);
      },
      parallel: () => {
        stage.pose = { ...stage.pose, parallel: !stage.pose.parallel };
      },
      frame: (all: boolean) => {
        this.frameOn(all);
      },
      measure: () => {
        this.measure.set(!desk.measuring);
        if (desk.measuring) this.side.open('tools');
      },
      section: () => {
        this.section.toggle();
      },
      nudge: (right: number, up: number, coarse: boolean) => {
        this.handles.nudge(right, up, coarse);
      },
      enter: () => {
        if (this.handles.busy) this.handles.drop();
        else this.toText();
      },
      escape: () => {
        this.escape();
      },
      hold: (key: string, down: boolean) => this.handles.hold(key, down),
      finding: (step: number) => {
        const count = desk.model?.findings.length ?? 0;
        if (count > 0) this.chooseFinding(desk.finding === null ? 0 : (desk.finding + step + count) % count, false);
      },
      help: () => {
        desk.remember({ lists: true });
        this.side.open('keys');
        desk.changed();
      },
    };
  }

  /** Gives up what is nearest to being given up. */
  private escape(): void {
    const { desk } = this;
    this.hover.close();
    if (this.handles.busy) this.handles.cancel();
    else if (desk.measuring) this.measure.set(false);
    else if (this.cope.open) this.cope.close();
    else this.pick(null, false);
  }

  private listen(): void {
    const { desk, stage, handles } = this;
    watchPointer(this.canvas, stage, {
      click: ({ x, y }, again) => {
        this.hover.close();
        const node = handles.at(x, y);
        const hit = node ? { id: node.id, at: node.at } : pickAt(stage, this.things, this.section.plane, x, y);
        if (handles.busy) handles.cancel('');
        if (!desk.measuring) this.pick(hit?.id ?? null, again);
        else if (hit) this.measure.pick(hit);
      },
      over: (at) => {
        this.lastOver = at;
        if (!at) this.lookUnder();
        else if (!this.looking) {
          this.looking = true;
          requestAnimationFrame(() => {
            this.looking = false;
            this.lookUnder();
          });
        }
      },
      grab: ({ x, y }) => {
        this.hover.close();
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

  /** What the pointer is over, once a frame at most. */
  private lookUnder(): void {
    const { desk, lastOver: at } = this;
    const node = at && this.handles.at(at.x, at.y);
    const id = at && (node?.id ?? pickAt(this.stage, this.things, this.section.plane, at.x, at.y)?.id ?? null);
    if (at) this.hover.over(id, at.x, at.y);
    else this.hover.over(null, 0, 0);
    if (id === desk.over) return;
    const nodes = desk.node(id) ?? desk.node(desk.over);
    desk.over = id;
    this.canvas.classList.toggle('over-part', id !== null);
    this.canvas.classList.toggle('over-handle', (desk.node(id)?.axes.length ?? 0) > 0);
    if (nodes) desk.changed();
  }

  /** Half the height of the picture in mm at the target: for a scale. */
  get halfHeight(): number {
    return halfHeight(this.stage.pose);
  }
}
