/** What all tools of the panel share: the model, what is picked and lit, what is shown; and who is told when it changes. */
import { type Plane, Vector3 } from 'three';
import type { WireFinding, WireModel, WireNode, WireThing } from '../../server/lsp/view-wire';
import type { Point3, ViewMark } from '../../server/view/model';
import type { FromView } from '../view/messages';
import type { Label } from './labels';
import type { Severity } from './looks';
import type { Overlay } from './overlay';
import type { Palette } from './palette';
import type { Box } from './pose';
import type { Stage } from './stage';
import type { Kept } from './state';
import type { Things } from './things';

/** A part of the panel that draws over the picture. */
export interface Layer {
  draw(overlay: Overlay): void;
  labels(): readonly Label[];
  /** Places that lie on what it draws: words leave them free where they can. */
  strokes?(): readonly (Point3 | Vector3)[];
  /** Places that a hand wants to take hold of: no words lie on them. */
  grips?(): readonly Vector3[];
  /** Asked before each frame: whether the camera went where other words are wanted. */
  turned?(): boolean;
}

/** What is shown round a point that is framed, mm. */
const ROUND = 60;

const ORDER: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

export const worse = (a: Severity, b: Severity): Severity => (ORDER.indexOf(a) <= ORDER.indexOf(b) ? a : b);

/** The model with the ends that were not sent again, since they are those of the model before. */
export function withEnds(model: WireModel, before: WireModel | null): WireModel {
  const known = new Map((before?.things ?? []).map(({ id, ends }) => [id, ends]));
  const things = model.things.map((thing) => ({ ...thing, ends: thing.ends ?? known.get(thing.id) ?? [] }));
  return { ...model, things };
}

export class Desk {
  /** The last model that was judged, and the one that a hand tries just now. */
  model: WireModel | null = null;
  tried: WireModel | null = null;
  turn = 0;
  /** Id of the thing or node that a hand picked. */
  picked: string | null = null;
  /** Index of the finding that is looked at. */
  finding: number | null = null;
  /** What the cursor in the text stands in. */
  byText: ReadonlySet<string> = new Set();
  over: string | null = null;
  measuring = false;
  /** One end is looked at closely: what stays clear; all else steps back. */
  closeUp: ReadonlySet<string> | null = null;
  /** What lies on its negative side is taken away. */
  plane: Plane | null = null;
  palette: Palette;
  private readonly watchers: (() => void)[] = [];
  private telling = false;

  constructor(
    readonly stage: Stage,
    readonly things: Things,
    public kept: Kept,
    palette: Palette,
    readonly send: (message: FromView) => void,
    /** Told to the eye and to a screen reader. */
    readonly say: (text: string) => void,
    private readonly keep: (kept: Kept) => void,
  ) {
    this.palette = palette;
  }

  /** What is on the picture: what is tried, or what is written. */
  get shown(): WireModel | null {
    return this.tried ?? this.model;
  }

  watch(changed: () => void): void {
    this.watchers.push(changed);
  }

  /** Something changed: everybody looks again, once. */
  changed(): void {
    if (this.telling) return;
    this.telling = true;
    for (const watcher of this.watchers) watcher();
    this.telling = false;
    this.stage.invalidate();
  }

  remember(part: Partial<Kept>): void {
    this.kept = { ...this.kept, ...part };
    this.keep(this.kept);
  }

  thing(id: string | null): WireThing | null {
    return (id !== null && this.shown?.things.find((one) => one.id === id)) || null;
  }

  node(id: string | null): WireNode | null {
    return (id !== null && this.shown?.nodes.find((one) => one.id === id)) || null;
  }

  /** What stands out: what the cursor is in, what a hand picked, what the finding looked at is about. */
  lit(): ReadonlySet<string> {
    const found = this.finding === null ? null : this.shown?.findings[this.finding];
    return new Set([...this.byText, ...(this.picked === null ? [] : [this.picked]), ...(found?.of ?? [])]);
  }

  /** What stays clear when something is looked at; null: everything. */
  get clear(): ReadonlySet<string> | null {
    if (this.closeUp) return this.closeUp;
    const found = this.finding === null ? [] : (this.shown?.findings[this.finding]?.of ?? []);
    return found.some((id) => this.thing(id)) ? new Set(found) : null;
  }

  /** Whether the section plane took a place away. */
  isCut(at: Point3): boolean {
    return this.plane !== null && this.plane.distanceToPoint(new Vector3(...at)) < 0;
  }

  worst(): ReadonlyMap<string, Severity> {
    const worst = new Map<string, Severity>();
    for (const { of, severity } of this.shown?.findings ?? []) {
      for (const id of of) worst.set(id, worse(severity, worst.get(id) ?? severity));
    }
    return worst;
  }

  findingsOf(id: string): readonly WireFinding[] {
    return this.shown?.findings.filter(({ of }) => of.includes(id)) ?? [];
  }

  marksOf(finding: WireFinding): readonly ViewMark[] {
    const marks = this.shown?.marks ?? [];
    return finding.marks.flatMap((index) => marks[index] ?? []);
  }

  /** Boxes round things, nodes and points: what a picture of them has to hold. */
  boxesOf(ids: Iterable<string>, points: readonly Point3[] = []): readonly Box[] {
    const round = ([x, y, z]: Point3): Box => [
      [x - ROUND, y - ROUND, z - ROUND],
      [x + ROUND, y + ROUND, z + ROUND],
    ];
    const boxes = points.map(round);
    for (const id of ids) {
      const [box, at] = [this.thing(id)?.box, this.node(id)?.at];
      if (box) boxes.push(box);
      if (at) boxes.push(round(at));
    }
    return boxes;
  }

  /** Boxes of all that is drawn of the car; while nothing is, round its nodes. */
  get whole(): readonly Box[] {
    const { things = [], nodes = [] } = this.shown ?? {};
    const boxes = things.flatMap(({ box, kind }) => (box && kind !== 'space' ? [box] : []));
    return boxes.length > 0 ? boxes : this.boxesOf(nodes.map(({ id }) => id));
  }
}
