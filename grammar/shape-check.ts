/**
 * Matches one line against its pattern in the vocabulary. What comes out are the values by their slots' names, not yet
 * evaluated, or one slip with its exact place. Sums, names and places are judged later, where they are known.
 */
import type { Span } from './finding';
import type { Slip } from './lines';
import { meant, nearestWord } from './nearest';
import { isFigure, saySlot, sayPattern, type Part, type Shape, type Slot } from './pattern';
import { unknownUnit } from './slips';
import { PHRASE_WORDS } from './words';
import type { Arg, ArgGroup, Expr, Line, NumberLit, PlaceForm, Sized } from './tree';

/** One value of a line. */
export interface Capture {
  readonly slot: Slot;
  /** As written, but for a unit that it takes from the last of a list such as `45 x 2.5 mm`. */
  readonly arg: Arg;
  /** The word, where one is wanted (`choice`, `word`, `role`, `bolt`, `name`) ; null for values. */
  readonly word: string | null;
}

/** A line that fits its pattern. */
export interface Match {
  /** In the order of the text; a list gives several with the same slot name. */
  readonly captures: readonly Capture[];
  /** The literal words that were written: `open`, `turned`, `air`. */
  readonly words: ReadonlySet<string>;
}

export type MatchResult =
  { readonly match: Match; readonly slip: null } | { readonly match: null; readonly slip: Slip };

/** First value of a slot, or null. */
export const captured = (match: Match, slot: string): Capture | null =>
  match.captures.find((capture) => capture.slot.name === slot) ?? null;

/** All values of a slot, in the order of the text. */
export const allCaptured = (match: Match, slot: string): readonly Capture[] =>
  match.captures.filter((capture) => capture.slot.name === slot);

const COMMA = ',';
type Item = Arg | typeof COMMA;

interface State {
  at: number;
  readonly captures: Capture[];
  readonly words: Set<string>;
}

/** Where a pattern stopped fitting, and what was wanted there. */
interface Stop {
  readonly at: number;
  readonly wanted: string;
  readonly words: readonly string[];
  /** A slip that says more than "wants …". */
  readonly slip: Slip | null;
  /** What is wanted may be left out. */
  readonly spare: boolean;
}

const wordOf = (item: Item | undefined): string | null =>
  item !== undefined && item !== COMMA && item.kind === 'ref' && item.names.length === 1
    ? (item.names[0]?.text ?? null)
    : null;

/** Could it be worth a number? A name could, brackets round one value could. */
function maybeFigure(arg: Arg): arg is Expr {
  switch (arg.kind) {
    case 'number':
    case 'ref':
    case 'call':
    case 'unary':
    case 'binary':
      return true;
    case 'tuple':
      return arg.items.length === 1 && arg.items[0]?.word === null;
    default:
      return false;
  }
}

/** Could it be a place? */
function maybePlace(arg: Arg): arg is Expr | PlaceForm {
  switch (arg.kind) {
    case 'number':
    case 'call':
    case 'unary':
    case 'string':
    case 'sized':
    case 'arrow':
    case 'plane':
    case 'missing':
      return false;
    default:
      return true;
  }
}

/** A thread, as ISO 261 writes it: its diameters are whole but for the smallest, and end at 300 mm. */
const BOLT = /^M[1-9]\d{0,2}$/;

/** Does one argument fit one slot? */
function fits(slot: Slot, arg: Arg): boolean {
  if (isFigure(slot)) return maybeFigure(arg);
  const word = wordOf(arg);
  switch (slot.type) {
    case 'place':
      return maybePlace(arg);
    case 'triple':
    case 'pair':
      return arg.kind === 'tuple';
    case 'plane':
    case 'string':
      return arg.kind === slot.type;
    case 'name':
    case 'word':
    case 'role':
      return word !== null;
    case 'choice':
      return word !== null && slot.words.includes(word);
    case 'bolt':
      // A thread, or in inches a diameter: `4 x 3/8 in`.
      return word !== null ? BOLT.test(word) : arg.kind !== 'ref' && maybeFigure(arg);
    case 'ref':
      if (arg.kind !== 'ref') return false;
      if (slot.space === 'code') return arg.names.length > 1;
      return slot.space !== 'book' || arg.names.length === 1;
    default:
      return false;
  }
}

const WORDS: ReadonlySet<string> = new Set(['choice', 'word', 'role', 'bolt', 'name']);

const capture = (slot: Slot, arg: Arg): Capture => ({ slot, arg, word: WORDS.has(slot.type) ? wordOf(arg) : null });

/**
 * The parts of `45 x 2.5 in`: a unit after the last holds for the bare numbers before it.
 * The figures themselves stay as they are written.
 */
function withSharedUnit(sized: Sized): readonly Expr[] {
  const last = sized.parts[sized.parts.length - 1];
  const unit = last?.kind === 'number' ? last.unit : null;
  if (unit === null) return sized.parts;
  return sized.parts.map((part) => (part.kind === 'number' && part.unit === null ? { ...part, unit } : part));
}

/** The number of `3 in` or `-3 in`. */
function literal(arg: Arg): { readonly number: NumberLit; readonly sign: string } | null {
  if (arg.kind === 'number') return { number: arg, sign: '' };
  if (arg.kind === 'unary' && arg.value.kind === 'number') return { number: arg.value, sign: '-' };
  return null;
}

/** `yaw 3 in`: where a direction may follow an angle, `in` was meant as one. */
function inchAfterAngle(slot: Slot, arg: Arg, next: Part | undefined): Slip | null {
  if (slot.type !== 'angle') return null;
  const follows = next?.part === 'optional' ? next.parts[0] : next;
  if (follows?.part !== 'slot' || !follows.words.includes('in')) return null;
  const figure = literal(arg);
  if (figure?.number.unit?.text !== 'in') return null;
  return {
    code: 'unit.inch-after-angle',
    span: arg.span,
    params: { mend: `${figure.sign}${figure.number.text} deg in` },
    fixes: [],
  };
}

/** `-20 to 80 mm`: a unit after the last of a range holds for the bare number before it. */
function shareUnit(captures: Capture[]): void {
  const [first, last] = captures.slice(-2);
  if (first === undefined || last === undefined || first.slot.type !== last.slot.type) return;
  const [bare, unit] = [literal(first.arg)?.number, literal(last.arg)?.number.unit ?? null];
  if (bare === undefined || bare.unit !== null || unit === null) return;
  const number = { ...bare, unit };
  const arg = first.arg.kind === 'unary' ? { ...first.arg, value: number } : number;
  captures[captures.length - 2] = { ...first, arg };
}

class Matcher {
  /** The stop that lies farthest along: what the writer most likely meant. */
  stop: Stop = { at: -1, wanted: '', words: [], slip: null, spare: false };
  /** The first word that is nearly one that would fit. */
  near: { readonly at: number; readonly nearest: string } | null = null;

  /** Where something begins that may be left out: what is wanted behind it is missed first. */
  private spareAt: number | null = null;

  constructor(private readonly items: readonly Item[]) {}

  private fail(at: number, wanted: string, words: readonly string[] = [], slip: Slip | null = null): false {
    const word = wordOf(this.items[at]);
    const nearest = word === null ? null : nearestWord(word, words);
    if (nearest !== null) this.near ??= { at, nearest };
    const spare = at === this.spareAt;
    if (at > this.stop.at || (slip !== null && at === this.stop.at)) this.stop = { at, wanted, words, slip, spare };
    else if (at === this.stop.at && this.stop.slip === null) {
      const told = this.stop.spare && !spare && wanted !== '' ? { wanted, spare } : this.stop;
      this.stop = { ...this.stop, ...told, words: [...this.stop.words, ...words] };
    }
    return false;
  }

  /** Matches a whole pattern alternative: true only when nothing is left. */
  whole(parts: readonly Part[]): Match | null {
    const state: State = { at: 0, captures: [], words: new Set() };
    if (!this.sequence(parts, state)) return null;
    if (state.at === this.items.length) return state;
    const inList = parts[parts.length - 1]?.part === 'list' && this.items[state.at] !== COMMA;
    this.fail(state.at, inList ? "a ',' between two of them" : '');
    return null;
  }

  private sequence(parts: readonly Part[], state: State): boolean {
    for (const [i, part] of parts.entries()) {
      if (!this.part(part, parts[i + 1], state)) return false;
      const before = parts[i - 1];
      if (part.part === 'slot' && before?.part === 'literal' && before.word === 'to') shareUnit(state.captures);
    }
    return true;
  }

  private part(part: Part, next: Part | undefined, state: State): boolean {
    const item = this.items[state.at];
    switch (part.part) {
      case 'literal':
        if (wordOf(item) !== part.word) return this.fail(state.at, `'${part.word}'`, [part.word]);
        state.words.add(part.word);
        state.at++;
        return true;
      case 'arrow':
        if (item === undefined || item === COMMA || item.kind !== 'arrow') return this.fail(state.at, "'->'");
        state.at++;
        return true;
      case 'slot': {
        if (item === undefined || item === COMMA || !fits(part, item))
          return this.fail(state.at, saySlot(part), part.words);
        const slip = inchAfterAngle(part, item, next);
        if (slip !== null) return this.fail(state.at, '', [], slip);
        state.captures.push(capture(part, item));
        state.at++;
        return true;
      }
      case 'sized':
        return this.sized(part.slots, item, state);
      case 'optional': {
        const before: State = { at: state.at, captures: [...state.captures], words: new Set(state.words) };
        const outer = this.spareAt;
        this.spareAt = state.at;
        const fitted = this.sequence(part.parts, state);
        this.spareAt = outer;
        if (fitted) return true;
        state.at = before.at;
        state.captures.length = before.captures.length;
        state.words.clear();
        for (const word of before.words) state.words.add(word);
        return true;
      }
      case 'list':
        for (;;) {
          if (!this.sequence(part.parts, state)) return false;
          if (this.items[state.at] !== COMMA) return true;
          state.at++;
        }
    }
  }

  private sized(slots: readonly Slot[], item: Item | undefined, state: State): boolean {
    const written = slots.map((slot) => slot.name.toUpperCase()).join(' x ');
    if (item === undefined || item === COMMA || item.kind !== 'sized' || item.parts.length !== slots.length)
      return this.fail(state.at, written);
    const parts = withSharedUnit(item);
    for (const [i, slot] of slots.entries()) {
      // How many there are has no unit.
      const part = slot.type === 'count' ? item.parts[i] : parts[i];
      if (part === undefined || !fits(slot, part))
        return this.fail(state.at, `${written}, where ${slot.name.toUpperCase()} is ${saySlot(slot)}`);
      state.captures.push(capture(slot, part));
    }
    state.at++;
    return true;
  }
}

function itemsOf(groups: readonly ArgGroup[]): Item[] {
  const items: Item[] = [];
  for (const [i, group] of groups.entries()) {
    if (i > 0) items.push(COMMA);
    for (const arg of group.args) items.push(arg);
  }
  return items;
}

/** The slip of a line that fits none of its alternatives. */
function slipOf(shape: Shape, line: Line, items: readonly Item[], { stop, near }: Matcher): Slip {
  if (stop.slip !== null) return stop.slip;
  const fact = shape.name;
  const all = sayPattern(shape.pattern);
  const such = shape.example === null || all.includes('such as') ? '' : `, such as ${shape.example}`;
  const at = near?.at ?? stop.at;
  const item = items[at];
  const before = items[at - 1];
  const last = items[items.length - 1];
  const spanOf = (one: Item | undefined): Span | null => (one === undefined || one === COMMA ? null : one.span);
  const span = spanOf(item);
  if (item === undefined || span === null) {
    const wanted = stop.wanted === '' || all === stop.wanted ? `${all}${such}` : `${all}: ${stop.wanted} is missing`;
    return {
      code: 'fact.value',
      span: spanOf(before) ?? spanOf(last) ?? line.word.span,
      params: { fact, wanted },
      fixes: [],
    };
  }
  if (near !== null)
    return {
      code: 'fact.value',
      span,
      params: { fact, wanted: `${all}${meant(near.nearest)}`, nearest: near.nearest },
      fixes: [],
    };
  const word = wordOf(item);
  if (word !== null && before !== undefined && before !== COMMA) {
    const figure = literal(before.kind === 'sized' ? (before.parts[before.parts.length - 1] ?? before) : before);
    if (figure !== null && figure.number.unit === null && !Object.hasOwn(PHRASE_WORDS, word))
      return unknownUnit(span.start, span.end, word);
  }
  const wanted = stop.wanted === '' ? `${all}, and nothing more` : `${all}${such}`;
  return { code: 'fact.value', span, params: { fact, wanted }, fixes: [] };
}

/**
 * Matches a line that parsed against a shape: a fact's value, or a statement's head (for `node X =` and `let X =` what
 * follows the `=`). At most one slip, its span in the offsets of the statement.
 */
export function matchLine(shape: Shape, line: Line): MatchResult {
  const items = itemsOf(line.groups);
  const matcher = new Matcher(items);
  for (const parts of shape.pattern) {
    const match = matcher.whole(parts);
    if (match !== null) return { match, slip: null };
  }
  return { match: null, slip: slipOf(shape, line, items, matcher) };
}
