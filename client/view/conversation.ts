/**
 * What passes between one panel, the editor and the server, without knowing any of them: when the server is asked, what
 * the panel is told, which answers come too late. Everything that touches the outside goes through `Ports`.
 */
import type {
  MeasureAnswer,
  Picked,
  Point3,
  TextPlace,
  TryAnswer,
  ViewWindow,
  WireModel,
} from '../../server/lsp/view-wire';
import { hoverBlocks } from './hover-blocks';
import { Latest } from './latest';
import { readFromView, type ExportKind, type FromView, type Known, type ToView } from './messages';
import { hoverPlace, idsAt, writtenAt, type Cursor } from './places';

/** Keys of the meshes that the panel holds, by id. */
export type Have = Readonly<Record<string, string>>;

/** What the conversation has done for it. All may fail; what fails is told to the person and the panel goes on. */
export interface Ports {
  post(message: ToView): void;
  /** Null: no car's document. */
  model(have: Have): Promise<WireModel | null>;
  /** Where a harness bar may be: takes its time. */
  window(): Promise<ViewWindow | null>;
  /** Comes back when nobody has typed for a moment. */
  pause(): Promise<void>;
  tryMove(node: string, to: Point3, have: Have): Promise<TryAnswer | null>;
  measure(a: Picked, b: Picked): Promise<MeasureAnswer | null>;
  /** Changes with every change of any open text. */
  stamp(): string;
  /** In one step that one undo takes back; false: the editor would not, or the texts are no longer as `stamp` says. */
  write(edits: TryAnswer['edits'], stamp: string): Promise<boolean>;
  /** Takes back what was written last, if nothing was typed since. What was done, in a sentence. */
  undo(): Promise<string>;
  /** Puts the cursor there. `focus`: and the keyboard. */
  reveal(place: TextPlace, focus: boolean): Promise<void>;
  /** The editor's hover at its start, as Markdown. */
  hover(place: TextPlace): Promise<string>;
  copy(text: string): Promise<void>;
  /** Each asks for a file first. What was done, in a sentence; null: the person would not. */
  savePicture(png: Uint8Array): Promise<string | null>;
  save(kind: ExportKind): Promise<string | null>;
  sameFile(a: string, b: string): boolean;
}

const NOTHING: Known = { turn: 0, things: new Set(), nodes: new Set(), findings: 0 };
const NO_CAR = 'This file is no car: a car begins with a line like cage "Name". Open the file that uses this one.';
const LONGEST_HOVER = 20_000;
/** How often a drop is worked out again when somebody types at the same time. */
const MOST_TRIES = 3;

const reasonOf = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));

/** Whether a panel with these meshes can draw the model. */
const canDraw = (model: WireModel, have: Have): boolean =>
  model.things.every(({ id, key, mesh, box }) => mesh !== null || box === null || have[id] === key);

/** What is taken for the answer where there is none. */
const UNTOLD: TryAnswer = { model: null, why: NO_CAR, edits: [], says: '' };

interface Dropped {
  readonly written: boolean;
  readonly why: string | null;
}

/** Of the document that the panel was opened for. */
export interface About {
  readonly uri: string;
  readonly name: string;
}

/** What a page that has them is told of things. */
const withoutBodies = (things: WireModel['things']): WireModel['things'] =>
  things.map((thing) => ({ ...thing, mesh: null, ends: thing.key === '' ? thing.ends : null }));

const withoutMeshes = (model: WireModel): string => JSON.stringify({ ...model, things: withoutBodies(model.things) });

/** Whether a page that shows `before` need not be told. */
const isSame = (model: WireModel, before: WireModel): boolean =>
  model.version === before.version &&
  model.things.every(({ mesh }) => mesh === null) &&
  withoutMeshes(model) === withoutMeshes(before);

interface Attempt {
  readonly number: number;
  readonly node: string;
  readonly to: Point3;
}

export class Conversation {
  /** Counts the pages that came and went: an answer to one of them is nothing to the next. */
  private page = 0;
  /** Whether there is one now. */
  private here = false;
  private turn = 0;
  private model: WireModel | null = null;
  /** What the page shows; null: nothing that is known. */
  private posted: WireModel | null = null;
  private have: Have = {};
  private known: Known = NOTHING;
  private cursor: (Cursor & { readonly byHand: boolean }) | null = null;
  private lit = '';
  private readonly models = new Latest<number>((page) => this.askModel(page));
  private readonly tries = new Latest<Attempt>((attempt) => this.askTry(attempt));
  private readonly windows = new Latest<number>((page) => this.askWindow(page));
  private readonly hovers = new Latest<string>((id) => this.askHover(id));
  /** Worked out when all is quiet; until then the last one stands. */
  private window: ViewWindow | null = null;
  private dragging = false;
  private hovered: string | null = null;
  /** What a page without anything will ask first, asked before it stands. */
  private ahead: Promise<WireModel | null> | null = null;

  constructor(
    private readonly ports: Ports,
    private about: About,
  ) {}

  /** The document that the picture is of, where a model has told it; else the one that was asked about. */
  get uri(): string {
    return this.model?.uri ?? this.about.uri;
  }

  /** A page is being loaded: what it will ask first is worked out meanwhile. */
  awaitPage(): void {
    if (this.here) return;
    this.ahead = this.ports.model({});
    // Whoever takes it tells of it.
    this.ahead.catch(() => undefined);
  }

  /** The panel is hidden or gone: its page is no more. */
  away(): void {
    this.here = false;
    this.ahead = null;
    this.page += 1;
    this.models.drop();
    this.tries.drop();
    this.hovers.drop();
    this.windows.drop();
    this.dragging = false;
    this.hovered = null;
  }

  /** The document has another name or place now. */
  moved(about: About): void {
    this.about = about;
    this.model = null;
    this.post({ type: 'begin', ...about }, this.page);
    this.changed();
  }

  /** The text, or something that the car reaches, may have changed. */
  changed(): void {
    if (this.here) this.models.ask(this.page);
    else if (this.ahead !== null) this.awaitPage();
  }

  /**
   * The server judged the car anew. What it answers after that is as new, so a question that is on its way will do: after
   * an edit, which asks by itself, that is so.
   */
  judged(): void {
    if (!this.models.busy) this.changed();
  }

  /** The cursor of an editor moved. `byHand`: by mouse or keyboard, not by a program (such as this one). */
  cursorMoved(cursor: Cursor, byHand: boolean): void {
    this.cursor = { ...cursor, byHand };
    // While a newer model is on its way, places are old: it lights when it comes.
    if (!this.models.busy) this.light();
  }

  /** A message of the page, whatever it is. */
  async heard(value: unknown): Promise<void> {
    const message = readFromView(value, this.known);
    if (message === null || (!this.here && message.type !== 'ready')) return;
    const { page } = this;
    try {
      await this.answer(message, page);
    } catch (fault) {
      this.post({ type: 'done', text: `That did not work: ${reasonOf(fault)}` }, page);
    }
  }

  private post(message: ToView, page: number): void {
    if (page === this.page && this.here) this.ports.post(message);
  }

  private begin(): void {
    const { ahead } = this;
    this.away();
    this.ahead = ahead;
    this.here = true;
    this.model = null;
    this.posted = null;
    this.lit = '[]';
    this.have = {};
    this.known = NOTHING;
    this.post({ type: 'begin', ...this.about }, this.page);
    this.models.ask(this.page);
  }

  private async answer(message: FromView, page: number): Promise<void> {
    const { ports } = this;
    switch (message.type) {
      case 'ready':
        this.begin();
        return;
      case 'pick':
        await this.pick(message);
        return;
      case 'hover':
        this.hovered = message.id;
        if (message.id !== null) this.hovers.ask(message.id);
        return;
      case 'try':
        this.dragging = true;
        this.tries.ask(message);
        return;
      case 'cancel':
        this.dragging = false;
        this.tries.drop();
        return;
      case 'undo':
        this.post({ type: 'done', text: await ports.undo() }, page);
        return;
      case 'drop':
        await this.letGo(message.node, message.to, page);
        return;
      case 'measure': {
        const answer = await ports.measure(message.a, message.b);
        this.post({ type: 'measured', number: message.number, answer }, page);
        return;
      }
      case 'copy':
        await ports.copy(message.text);
        this.post({ type: 'done', text: 'Copied.' }, page);
        return;
      case 'picture':
      case 'export': {
        const done = await (message.type === 'picture' ? ports.savePicture(message.png) : ports.save(message.kind));
        if (done !== null) this.post({ type: 'done', text: done }, page);
      }
    }
  }

  private async pick(message: Extract<FromView, { readonly type: 'pick' }>): Promise<void> {
    if (this.model === null) return;
    const place =
      message.part === 'finding' ? this.model.findings[message.index]?.place : writtenAt(this.model, message.id);
    if (place) await this.ports.reveal(place, message.focus);
  }

  private async askModel(page: number): Promise<void> {
    if (page !== this.page) return;
    const { have, ahead } = this;
    this.ahead = null;
    let model: WireModel | null;
    try {
      model = await (ahead ?? this.ports.model(have));
      if (page === this.page && model !== null && !canDraw(model, have)) model = await this.ports.model({});
    } catch (fault) {
      this.trouble(`The picture could not be made: ${reasonOf(fault)}`, page);
      return;
    }
    if (page !== this.page) return;
    if (model === null) this.trouble(NO_CAR, page);
    else {
      this.take({ ...model, window: this.window }, page);
      this.windows.ask(page);
    }
  }

  private async askWindow(page: number): Promise<void> {
    await this.ports.pause();
    // Who types, drags or looks away gets the next one.
    if (page !== this.page || this.models.busy || this.windows.outdated || this.dragging) return;
    const window = await this.ports.window();
    if (page !== this.page || this.model === null || this.models.busy) return;
    this.window = window;
    this.take({ ...this.model, things: withoutBodies(this.model.things), window }, page);
  }

  private trouble(text: string, page: number): void {
    // What the page shows stays behind it, but whatever comes next is sent anew.
    this.posted = null;
    this.post({ type: 'trouble', text }, page);
  }

  private take(model: WireModel, page: number): void {
    this.model = model;
    this.have = Object.fromEntries(
      model.things.flatMap(({ id, key, mesh, box }) => (mesh === null && box === null ? [] : [[id, key] as const])),
    );
    // Asked once too often: the page has it already.
    if (this.posted === null || !isSame(model, this.posted)) {
      this.posted = model;
      this.turn += 1;
      this.known = {
        turn: this.turn,
        things: new Set(model.things.map(({ id }) => id)),
        nodes: new Set(model.nodes.map(({ id }) => id)),
        findings: model.findings.length,
      };
      this.post({ type: 'model', turn: this.turn, model }, page);
    }
    this.light();
  }

  private light(): void {
    if (this.model === null || this.cursor === null || !this.here) return;
    const { byHand, ...cursor } = this.cursor;
    const ids = idsAt(this.model, cursor, (a, b) => this.ports.sameFile(a, b));
    const lit = JSON.stringify(ids);
    this.cursor = { ...cursor, byHand: false };
    if (lit === this.lit) return;
    this.lit = lit;
    this.post({ type: 'lit', ids, reveal: byHand }, this.page);
  }

  private async askHover(id: string): Promise<void> {
    const { page } = this;
    const place = this.model === null ? null : hoverPlace(this.model, id);
    if (place === null || this.hovered !== id) return;
    const markdown = await this.ports.hover(place);
    if (this.hovered === id)
      this.post({ type: 'hover', id, blocks: hoverBlocks(markdown.slice(0, LONGEST_HOVER)) }, page);
  }

  private async askTry(attempt: Attempt): Promise<void> {
    const { page } = this;
    const { number, node, to } = attempt;
    const { have } = this;
    let answer: TryAnswer | null;
    try {
      answer = await this.ports.tryMove(node, to, have);
    } catch (fault) {
      answer = { model: null, why: `It could not be worked out: ${reasonOf(fault)}`, edits: [], says: '' };
    }
    if (!this.dragging) return;
    const { model: made, why, says } = answer ?? UNTOLD;
    const model = made !== null && canDraw(made, this.have) ? { ...made, window: this.window } : null;
    if (model === null && made !== null && have !== this.have) {
      // A newer model came in between, and with it other meshes.
      this.tries.askUnlessNewer(attempt);
      return;
    }
    this.post({ type: 'tried', number, model, why, says }, page);
  }

  private async letGo(node: string, to: Point3, page: number): Promise<void> {
    this.dragging = false;
    this.tries.drop();
    const ended = await this.drop(node, to).catch((fault: unknown): Dropped => ({
      written: false,
      why: `It could not be written: ${reasonOf(fault)}`,
    }));
    this.post({ type: 'dropped', why: ended.why }, page);
    if (ended.written || page !== this.page) return;
    // The page still shows what was tried: it gets the car as it stands.
    this.posted = null;
    this.changed();
  }

  private async drop(node: string, to: Point3): Promise<Dropped> {
    for (let tries = 0; tries < MOST_TRIES; tries += 1) {
      const stamp = this.ports.stamp();
      const { model, why, edits } = (await this.ports.tryMove(node, to, this.have)) ?? UNTOLD;
      if (model === null) return { written: false, why: why ?? 'It cannot be moved there.' };
      if (edits.length === 0) return { written: false, why: null };
      if (await this.ports.write(edits, stamp)) return { written: true, why: null };
    }
    return { written: false, why: 'The text changed at the same time. Nothing was written: drag it again.' };
  }
}
