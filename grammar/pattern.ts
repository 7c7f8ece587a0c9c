/**
 * The patterns of the vocabulary as a tree, read once from their text. Whoever matches, completes, explains or colours a
 * line walks this tree.
 */
import { KINDS, NAME_SPACES, type FactEntry, type KindEntry, type NameSpace } from './vocabulary';

/** Types of figures: what is evaluated to a number with a dimension. `figure`: any dimension. */
export const FIGURE_TYPES = {
  length: 'a length',
  angle: 'an angle',
  plain: 'a plain number',
  count: 'a whole number',
  mass: 'a mass',
  stress: 'a stress',
  density: 'a density',
  force: 'a force',
  share: 'a share in %',
  figure: 'a figure',
} as const satisfies Record<string, string>;
export type FigureType = keyof typeof FIGURE_TYPES;

/** The other types, in words. */
export const OTHER_TYPES = {
  place: 'a place',
  triple: 'three figures in brackets, or directions such as (forward 110, up 35)',
  pair: 'two figures in brackets, or directions such as (forward 50, out 30)',
  plane: 'a plane such as y = 480',
  string: 'a text in quotes',
  name: 'a name of its own, letters, digits, _ and single hyphens',
  word: 'a word',
  role: 'a role',
  bolt: 'a thread such as M8, or a diameter',
  choice: 'a word',
  ref: 'a name',
} as const satisfies Record<string, string>;
export type SlotType = FigureType | keyof typeof OTHER_TYPES;

/** In the units inside: mm, rad, kg, MPa… */
export interface Limit {
  readonly op: '>' | '>=';
  readonly value: number;
}

/** A value with a name: what evaluation asks for. */
export interface Slot {
  readonly part: 'slot';
  readonly name: string;
  readonly type: SlotType;
  /** With type `ref`. */
  readonly space: NameSpace | null;
  /** With type `choice`. */
  readonly words: readonly string[];
  readonly limit: Limit | null;
}

export type Part =
  | Slot
  | { readonly part: 'literal'; readonly word: string }
  | { readonly part: 'arrow' }
  /** `a x b x c`. */
  | { readonly part: 'sized'; readonly slots: readonly Slot[] }
  | { readonly part: 'optional'; readonly parts: readonly Part[] }
  /** One to each comma. */
  | { readonly part: 'list'; readonly parts: readonly Part[] };

/** Alternatives, each a sequence. An empty pattern is one empty sequence. */
export type Pattern = readonly (readonly Part[])[];

const PIECE = /<([\p{L}\w-]+):([^<>]+?)(?: (>=?) ([\d.]+))?>|, …|->|[[\]{}|]|[\p{L}\w-]+/gu;

const isFigureType = (text: string): text is FigureType => Object.hasOwn(FIGURE_TYPES, text);
const isOtherType = (text: string): text is keyof typeof OTHER_TYPES => Object.hasOwn(OTHER_TYPES, text);
const isSpace = (text: string): text is NameSpace => Object.hasOwn(NAME_SPACES, text);

/** Whether a slot is evaluated to a number. */
export const isFigure = (slot: Slot): boolean => isFigureType(slot.type);

function readSlot(name: string, type: string, op: string | undefined, limit: string | undefined): Slot {
  const space = type.startsWith('@') ? type.slice(1) : '';
  const words = type.includes('|') ? type.split('|') : [];
  const plain = isFigureType(type) || isOtherType(type) ? type : 'word';
  return {
    part: 'slot',
    name,
    type: words.length > 0 ? 'choice' : isSpace(space) ? 'ref' : plain,
    space: isSpace(space) ? space : null,
    words,
    limit: (op === '>' || op === '>=') && limit !== undefined ? { op, value: Number.parseFloat(limit) } : null,
  };
}

/** Reads a pattern's text; see `vocabulary.ts` for how one is written. */
function readPattern(text: string): Pattern {
  const alternatives: Part[][] = [[]];
  /** The sequences that are open: the alternative, then what stands in brackets. */
  const open: Part[][] = [];
  let now: Part[] = alternatives[0] ?? [];
  let times = false;
  const close = (part: 'optional' | 'list'): void => {
    const parts = now;
    now = open.pop() ?? [];
    now.push({ part, parts });
  };
  for (const [piece, name, type, op, limit] of text.matchAll(PIECE)) {
    if (piece === '[' || piece === '{') {
      open.push(now);
      now = [];
    } else if (piece === ']') close('optional');
    else if (piece === '}') close('list');
    else if (piece === ', …') {
      // Behind `}` the list stands already; behind a slot that slot is the list.
      const item = now.pop();
      if (item !== undefined) now.push(item.part === 'list' ? item : { part: 'list', parts: [item] });
    } else if (piece === '|') {
      now = [];
      alternatives.push(now);
    } else if (piece === '->') now.push({ part: 'arrow' });
    else if (piece === 'x') times = true;
    else if (name !== undefined && type !== undefined) {
      const slot = readSlot(name, type, op, limit);
      const before = times ? now.pop() : undefined;
      times = false;
      if (before?.part === 'sized') now.push({ part: 'sized', slots: [...before.slots, slot] });
      else if (before?.part === 'slot') now.push({ part: 'sized', slots: [before, slot] });
      else now.push(slot);
    } else now.push({ part: 'literal', word: piece });
  }
  return alternatives;
}

/** A fact or a statement's head with its pattern read. */
export interface Shape {
  readonly name: string;
  readonly pattern: Pattern;
  /** The value as it may be written; null where the pattern speaks for itself. */
  readonly example: string | null;
}

const shapeOf = (name: string, text: string, example: string | null): Shape => ({
  name,
  pattern: readPattern(text),
  example,
});

/** A statement of the vocabulary with all its patterns read. */
export interface KindShape {
  readonly kind: KindEntry;
  readonly head: Shape;
  readonly facts: ReadonlyMap<string, { readonly fact: FactEntry; readonly shape: Shape }>;
}

/** Every statement, by its word. */
export const KIND_SHAPES: ReadonlyMap<string, KindShape> = new Map(
  KINDS.map((kind) => [
    kind.name,
    {
      kind,
      head: shapeOf(kind.name, kind.head, kind.example),
      facts: new Map(
        kind.facts.map((fact) => [fact.name, { fact, shape: shapeOf(fact.name, fact.pattern, fact.example) }]),
      ),
    },
  ]),
);

const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1] ?? ''}`;

/** What a slot wants, as a phrase: `a length`, `the name of a tube`, `left or right`. */
export function saySlot(slot: Slot): string {
  if (slot.type === 'choice') return listed(slot.words);
  if (slot.space !== null) return slot.space === 'code' ? NAME_SPACES.code : `the name of ${NAME_SPACES[slot.space]}`;
  return isFigureType(slot.type) ? FIGURE_TYPES[slot.type] : OTHER_TYPES[slot.type];
}

/** How a part is written, with its values in capitals: `LONG x WIDE x THICK [turned TURNED]`. */
function usagePart(part: Part): string {
  switch (part.part) {
    case 'slot':
      if (part.type === 'choice') return part.words.join('|');
      return part.type === 'string' ? `"${part.name.toUpperCase()}"` : part.name.toUpperCase();
    case 'literal':
      return part.word;
    case 'arrow':
      return '->';
    case 'sized':
      return part.slots.map((slot) => usagePart(slot)).join(' x ');
    case 'optional':
      return `[${part.parts.map(usagePart).join(' ')}]`;
    case 'list':
      return `${part.parts.map(usagePart).join(' ')}, …`;
  }
}

/** How a value is written, for people. */
export const usage = (pattern: Pattern): string => pattern.map((parts) => parts.map(usagePart).join(' ')).join(' | ');

/** What a value is, as a phrase for "'od' wants …". */
export function sayPattern(pattern: Pattern): string {
  const [only] = pattern;
  const [part] = only ?? [];
  if (pattern.length === 1 && only?.length === 1) {
    if (part?.part === 'slot') return saySlot(part);
    const [item] = part?.part === 'list' ? part.parts : [];
    if (item?.part === 'slot') return `${saySlot(item)}, with commas between several`;
  }
  if (pattern.every((parts) => parts.length === 1 && parts[0]?.part === 'literal'))
    return listed(pattern.map((parts) => usage([parts])));
  return usage(pattern);
}
