/** Puts the panel together: the picture, the tools and lists, and what the editor and the hand do to them. */
import type { WireModel } from '../../server/lsp/view-wire';
import type { FromView, ToView } from '../view/messages';
import { Choice } from './choice';
import { Compass } from './compass';
import { Cope } from './cope';
import { Desk, type Layer, withEnds } from './desk';
import { el } from './dom';
import { Figures } from './figures';
import { Frame } from './frame';
import { Handles } from './handles';
import { Hover } from './hover';
import { arrowOf, watchKeys, type Deeds } from './keys';
import { Measure } from './measure';
import { PickedBox } from './picked';
import { picture } from './png';
import { framed, lookingFrom, viewOf } from './pose';
import { SectionTool } from './section';
import { findingIds, Side } from './side';
import type { Kept } from './state';
import { Toolbar } from './toolbar';
import { Under } from './under';

/** What the page is to the editor around it. */
export interface Host {
  readonly send: (message: FromView) => void;
  readonly keep: (kept: Kept) => void;
  readonly kept: Kept;
}

/** ms after which a camera that stands still is kept. */
const REST = 250;
/** How near a cut is looked at, mm. */
const CLOSE = 300;

export class App {
  private readonly frame = new Frame();
  private readonly desk: Desk;
  private readonly choice: Choice;
  private readonly handles: Handles;
  private readonly measure: Measure;
  private readonly cope: Cope;
  private readonly section: SectionTool;
  private readonly side: Side;
  private readonly toolbar: Toolbar;
  private readonly hover: Hover;
  private readonly layers: readonly Layer[];
  private readonly page: HTMLElement;
  /** The camera was set by hand or from what was kept: a first model does not move it. */
  private aimed = false;
  private saving: ReturnType<typeof setTimeout> | undefined;

  constructor(
    root: HTMLElement,
    private readonly host: Host,
  ) {
    const { frame } = this;
    const { stage, things } = frame;
    const say = frame.say.bind(frame);
    this.desk = new Desk(stage, things, host.kept, frame.looks.now.palette, host.send, say, host.keep);
    const { desk } = this;
    this.choice = new Choice(desk);
    this.handles = new Handles(desk);
    this.measure = new Measure(desk);
    this.cope = new Cope(desk);
    this.section = new SectionTool(desk, (plane) => {
      desk.plane = plane;
      frame.cut(plane);
    });
    this.hover = new Hover(
      frame.tip,
      (id) => {
        host.send({ type: 'hover', id });
      },
      (id) => things.spread(id).map((at) => stage.project(at)),
    );
    const choose = (index: number) => {
      this.choice.finding(index, false);
    };
    this.layers = [new Figures(desk, choose), this.handles, this.cope, this.measure, new Compass(desk)];
    const deeds = this.deeds();
    this.side = this.makeSide(choose);
    this.toolbar = this.makeToolbar(deeds);
    const work = el('div', { class: 'work' }, frame.element, this.side.element);
    this.page = el('div', { class: 'app' }, this.toolbar.element, work);
    root.replaceChildren(this.page);
    watchKeys(frame.canvas, deeds);
    new Under(frame, desk, this.choice, this.handles, this.measure, this.hover).listen();
    stage.rested = (pose) => {
      clearTimeout(this.saving);
      this.saving = setTimeout(() => {
        desk.remember({ pose });
      }, REST);
      this.renderBar();
    };
    if (host.kept.pose) {
      this.aimed = true;
      stage.pose = host.kept.pose;
    }
    desk.watch(() => {
      this.page.classList.toggle('no-lists', !desk.kept.lists);
      this.renderBar();
    });
    frame.begin(desk, this.layers);
  }

  private makeSide(choose: (index: number) => void): Side {
    const { desk, choice, cope } = this;
    const { stage } = this.frame;
    const picked = new PickedBox(desk, {
      toText: () => {
        choice.toText();
      },
      frame: () => {
        choice.frameOn(false);
      },
      finding: choose,
      end: (id, which) => {
        cope.show(id, which);
        const [box, toward] = [cope.box(), cope.toward()];
        if (!box || !toward) return;
        stage.goTo(framed({ ...lookingFrom(stage.pose, toward), parallel: false }, [box], stage.aspect, CLOSE));
      },
    });
    const deeds = {
      pick: (id: string, go: boolean) => {
        choice.pick(id, go);
      },
      finding: (index: number, go: boolean) => {
        choice.finding(index, go);
      },
      measureFrom: (id: string) => {
        this.measureAt(id);
      },
      key: (event: KeyboardEvent) => this.keyOnList(event),
    };
    const foot = el('div', { class: 'foot' }, cope.element, picked.element);
    return new Side(desk, deeds, [this.measure.element, this.section.element], foot);
  }

  private makeToolbar(deeds: Deeds): Toolbar {
    const { desk, host } = this;
    return new Toolbar({
      ...deeds,
      save: (kind) => {
        host.send({ type: 'export', kind });
      },
      picture: () => {
        void picture(desk, this.layers, this.frame.labels).then((png) => {
          if (png) host.send({ type: 'picture', png });
          else desk.say('There is no picture to save.');
        });
      },
      lists: () => {
        desk.remember({ lists: !desk.kept.lists });
        desk.changed();
      },
    });
  }

  /** A message of the editor, known to be one. */
  receive(message: ToView): void {
    const { desk, frame } = this;
    switch (message.type) {
      case 'begin':
        desk.remember({ uri: message.uri });
        frame.name(message.name);
        break;
      case 'model':
        timed('cagewright.model', () => this.setModel(message.model, message.turn));
        break;
      case 'trouble':
        frame.tell(message.text);
        break;
      case 'lit':
        desk.byText = new Set(message.ids);
        if (message.reveal) {
          desk.picked = null;
          desk.finding = null;
          this.choice.bringIn();
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
    const { desk, frame } = this;
    const { stage } = frame;
    // A finding that is still there stays the one that is looked at, wherever it stands in the list now.
    const chosen = desk.finding === null ? undefined : findingIds(desk.model?.findings ?? [])[desk.finding];
    const at = chosen === undefined ? -1 : findingIds(model.findings).indexOf(chosen);
    desk.model = withEnds(model, desk.model);
    desk.tried = null;
    desk.turn = turn;
    desk.finding = at < 0 ? null : at;
    timed('cagewright.bodies', () => frame.update(model));
    if (!desk.thing(desk.picked) && !desk.node(desk.picked)) desk.picked = null;
    this.handles.modelCame();
    this.measure.modelCame();
    if (!this.aimed && desk.whole.length > 0) {
      // Nodes alone are looked at until the first part comes.
      this.aimed = model.things.some(({ box }) => box !== null);
      stage.pose = framed(stage.pose, desk.whole, stage.aspect);
    }
    desk.changed();
  }

  private renderBar(): void {
    const { desk } = this;
    const { pose } = desk.stage;
    this.toolbar.render(viewOf(pose), pose.parallel, desk.measuring, desk.kept.lists);
  }

  private measureAt(id: string): void {
    const { desk, measure } = this;
    const at = desk.node(id)?.at ?? this.frame.things.middle(id) ?? desk.thing(id)?.box?.[0];
    if (!at) return;
    if (!desk.measuring) measure.set(true);
    measure.pick({ id, at });
  }

  /** Keys that do in a list what they do on the picture. */
  private keyOnList(event: KeyboardEvent): boolean {
    const way = event.altKey ? arrowOf(event.key) : null;
    if (way) this.handles.nudge(...way, event.shiftKey);
    else if (event.key === 'Enter' && this.handles.busy) this.handles.drop();
    else if (event.key === 'Escape') this.escape();
    else if (event.key.toLowerCase() === 'f' && !event.ctrlKey && !event.metaKey) this.choice.frameOn(false);
    else return false;
    return true;
  }

  private deeds(): Deeds {
    const { desk, choice, handles, measure } = this;
    return {
      turn: choice.turn.bind(choice),
      pan: choice.pan.bind(choice),
      zoom: choice.zoom.bind(choice),
      view: choice.view.bind(choice),
      parallel: choice.parallel.bind(choice),
      frame: choice.frameOn.bind(choice),
      finding: choice.nextFinding.bind(choice),
      nudge: handles.nudge.bind(handles),
      hold: handles.hold.bind(handles),
      escape: this.escape.bind(this),
      measure: () => {
        measure.set(!desk.measuring);
        if (desk.measuring) this.side.open('tools');
      },
      section: () => {
        this.section.toggle();
      },
      enter: () => {
        if (handles.busy) handles.drop();
        else choice.toText();
      },
      undo: () => {
        if (handles.busy) handles.cancel();
        else this.host.send({ type: 'undo' });
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
    else this.choice.pick(null, false);
  }
}

/** Leaves in the page's own timing how long something took the last time, and what it counted. */
function timed(name: string, does: () => unknown): void {
  const start = performance.now();
  const detail = does();
  performance.clearMeasures(name);
  performance.measure(name, { start, end: performance.now(), detail });
}
