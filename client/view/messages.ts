/**
 * What the panel and the editor say to each other, and how each side knows that it was said so. Shared by both: the
 * picture (`client/view-web/`) reads with `readToView`, the editor with `readFromView`; what is not known is dropped.
 */
import type { MeasureAnswer, Picked, Point3, WireModel } from '../../server/lsp/view-wire';
import { below, cases, figure, flag, listOf, oneOf, orNull, record, text, type Is } from './check';
import { isMeasureAnswer, isModel, isPoint } from './model-check';

/** Why a piece of a hover stands out. */
export interface Run {
  readonly text: string;
  readonly style: 'plain' | 'strong' | 'code';
}
/** A hover as blocks of words: whoever shows it makes elements with text in them, and never reads it as HTML. */
export type HoverBlock =
  | { readonly kind: 'words' | 'heading' | 'item'; readonly runs: readonly Run[] }
  | { readonly kind: 'code'; readonly text: string }
  /** The first row is the head; its cells may be empty. */
  | { readonly kind: 'table'; readonly rows: readonly (readonly (readonly Run[])[])[] }
  | { readonly kind: 'rule' };

export type ToView =
  /** First, in answer to `ready`: whose picture this is. Put `uri` into the state that is kept: the panel is restored by it. */
  | { readonly type: 'begin'; readonly uri: string; readonly name: string }
  /**
   * The newest model. A thing whose mesh is null has the mesh that was sent last for its id, or, where `box` is null too,
   * none; one whose ends are null has those of the last model. Ids that are not in it are gone, with their meshes. `turn` goes back with what tells a finding by its index.
   */
  | { readonly type: 'model'; readonly turn: number; readonly model: WireModel }
  /** Nothing can be shown; in a sentence. A model takes it back. */
  | { readonly type: 'trouble'; readonly text: string }
  /** The cursor stands in the statement of these (things and nodes; none: in no thing's). `reveal`: a hand moved it. */
  | { readonly type: 'lit'; readonly ids: readonly string[]; readonly reveal: boolean }
  /** The answer to `hover`; no blocks: there is nothing to say. */
  | { readonly type: 'hover'; readonly id: string; readonly blocks: readonly HoverBlock[] }
  /**
   * The answer to `try` of the same number. The model is over the last `model`: meshes and ends that are null are those of that one,
   * and it is forgotten when the next `model`, `tried` or the end of the drag comes. Null: it cannot go there; `why` says why.
   */
  | {
      readonly type: 'tried';
      readonly number: number;
      readonly model: WireModel | null;
      readonly why: string | null;
      readonly says: string;
    }
  /** The answer to `drop`; not null: why it was not written. A `model` comes next in either case, with the car as it stands then. */
  | { readonly type: 'dropped'; readonly why: string | null }
  /** The answer to `measure` of the same number; null: it cannot be measured. */
  | { readonly type: 'measured'; readonly number: number; readonly answer: MeasureAnswer | null }
  /** Something was done that was asked for: `Copied.`, `car.side.svg is written.` */
  | { readonly type: 'done'; readonly text: string };

/** What is saved to a file: drawings and the model are the server's, the picture is the panel's own. */
export const EXPORTS = ['plan', 'side', 'front', 'glb'] as const;
export type ExportKind = (typeof EXPORTS)[number];

export type FromView =
  /** The page stands and holds no model. */
  | { readonly type: 'ready' }
  /** A hand picked something: the cursor goes to it. `focus`: the hand wants to go on in the text. */
  | { readonly type: 'pick'; readonly part: 'thing'; readonly id: string; readonly focus: boolean }
  | { readonly type: 'pick'; readonly part: 'node'; readonly id: string; readonly focus: boolean }
  | {
      readonly type: 'pick';
      readonly part: 'finding';
      readonly index: number;
      readonly turn: number;
      readonly focus: boolean;
    }
  /** The pointer rests on a thing or node; null: on none. */
  | { readonly type: 'hover'; readonly id: string | null }
  /** What would be with a node there; the newest is answered. `number` counts up. */
  | { readonly type: 'try'; readonly number: number; readonly node: string; readonly to: Point3 }
  /** Let go there: it is written. */
  | { readonly type: 'drop'; readonly node: string; readonly to: Point3 }
  /** Let go without writing. */
  | { readonly type: 'cancel' }
  /** Take the last drop back, as undo in the text would. */
  | { readonly type: 'undo' }
  | { readonly type: 'measure'; readonly number: number; readonly a: Picked; readonly b: Picked }
  | { readonly type: 'copy'; readonly text: string }
  /** What the panel shows, as a PNG file. */
  | { readonly type: 'picture'; readonly png: Uint8Array }
  | { readonly type: 'export'; readonly kind: ExportKind };

/** What the panel keeps by `setState`, and what a window that starts again gives back: more may stand in it. */
export interface KeptState {
  readonly uri: string;
}

const SENTENCE = 20_000;
const MOST_PICTURE = 64 * 1024 * 1024;
const COUNT = Number.MAX_SAFE_INTEGER;
/** Millimetres: farther is no car. */
const FARTHEST = 1_000_000;

const sentence = text(SENTENCE);
const count = below(COUNT);

const isRun = record<Run>({ text: sentence, style: oneOf('plain', 'strong', 'code') });
const runs = listOf(isRun, 1_000);
type Words = Extract<HoverBlock, { readonly runs: readonly Run[] }>;
const words = record<Words>({ kind: oneOf('words', 'heading', 'item'), runs });
const isBlock: Is<HoverBlock> = (value): value is HoverBlock =>
  words(value) ||
  cases<'kind', Exclude<HoverBlock, Words>>('kind', {
    code: record({ kind: oneOf('code'), text: sentence }),
    table: record({ kind: oneOf('table'), rows: listOf(listOf(runs, 100), 1_000) }),
    rule: record({ kind: oneOf('rule') }),
  })(value);

const isToView = cases<'type', ToView>('type', {
  begin: record({ type: oneOf('begin'), uri: sentence, name: sentence }),
  model: record({ type: oneOf('model'), turn: count, model: isModel }),
  trouble: record({ type: oneOf('trouble'), text: sentence }),
  lit: record({ type: oneOf('lit'), ids: listOf(sentence, SENTENCE), reveal: flag }),
  hover: record({ type: oneOf('hover'), id: sentence, blocks: listOf(isBlock, 1_000) }),
  tried: record({
    type: oneOf('tried'),
    number: count,
    model: orNull(isModel),
    why: orNull(sentence),
    says: sentence,
  }),
  dropped: record({ type: oneOf('dropped'), why: orNull(sentence) }),
  measured: record({ type: oneOf('measured'), number: count, answer: orNull(isMeasureAnswer) }),
  done: record({ type: oneOf('done'), text: sentence }),
});

/** Whether something that came to the panel says that it is a model, whatever is in it. */
export const saysModel: Is<{ readonly type: 'model' }> = record<{ readonly type: 'model' }>({ type: oneOf('model') });

/** What came to the panel; null: nothing that it knows. */
export const readToView = (value: unknown): ToView | null => (isToView(value) ? value : null);

/** What a message of the panel may speak of: the ids of the model that it was sent last. */
export interface Known {
  readonly turn: number;
  readonly things: ReadonlySet<string>;
  readonly nodes: ReadonlySet<string>;
  readonly findings: number;
}

/** The eight bytes that every PNG begins with (ISO/IEC 15948, 5.2). */
const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const isPng: Is<Uint8Array> = (value): value is Uint8Array =>
  value instanceof Uint8Array &&
  value.length <= MOST_PICTURE &&
  PNG_SIGNATURE.every((byte, index) => value[index] === byte);

const near: Is<Point3> = (value): value is Point3 =>
  isPoint(value) && value.every((part) => figure(part) && Math.abs(part) <= FARTHEST);

/** What came from the panel, about a model that it holds; null: nothing that is known, or about something that is not. */
export const readFromView = (value: unknown, known: Known): FromView | null => {
  const inSet =
    (...sets: readonly ReadonlySet<string>[]): Is<string> =>
    (id): id is string =>
      typeof id === 'string' && sets.some((set) => set.has(id));
  const any = inSet(known.things, known.nodes);
  const node = inSet(known.nodes);
  const picked = record<Picked>({ id: any, at: near });
  type Pick = Extract<FromView, { readonly type: 'pick' }>;
  const sameTurn: Is<number> = (turn): turn is number => turn === known.turn;
  const pick: Is<Pick> = cases<'part', Pick>('part', {
    thing: record({ type: oneOf('pick'), part: oneOf('thing'), id: inSet(known.things), focus: flag }),
    node: record({ type: oneOf('pick'), part: oneOf('node'), id: node, focus: flag }),
    finding: record({
      type: oneOf('pick'),
      part: oneOf('finding'),
      index: below(known.findings),
      turn: sameTurn,
      focus: flag,
    }),
  });
  const is = cases<'type', FromView>('type', {
    ready: record({ type: oneOf('ready') }),
    pick,
    hover: record({ type: oneOf('hover'), id: orNull(any) }),
    try: record({ type: oneOf('try'), number: count, node, to: near }),
    drop: record({ type: oneOf('drop'), node, to: near }),
    cancel: record({ type: oneOf('cancel') }),
    undo: record({ type: oneOf('undo') }),
    measure: record({ type: oneOf('measure'), number: count, a: picked, b: picked }),
    copy: record({ type: oneOf('copy'), text: sentence }),
    picture: record({ type: oneOf('picture'), png: isPng }),
    export: record({ type: oneOf('export'), kind: oneOf(...EXPORTS) }),
  });
  return is(value) ? value : null;
};

/** What a window that starts again kept of a panel; null: nothing that a panel can be restored by. */
export const readKept = (value: unknown): KeptState | null =>
  record<KeptState>({ uri: sentence })(value) ? { uri: value.uri } : null;
