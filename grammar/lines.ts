/**
 * Cuts a text into lines and blocks, by hand and without ever rejecting anything, so that each line can be parsed
 * alone and half a typed line spoils nothing but itself. Linear in the length of the text, no recursion.
 */
import type { Code } from './codes';
import type { FixId, Params, Span } from './finding';
import { isInchSign, readComment, readName, readString } from './tokens';
import type { PlacedStatement } from './tree';
import { FACT_NAMES, holdsStatements, KIND_BY_NAME, TOLD_BY_QUOTES } from './vocabulary';
import { DIRECTIONS, FUNCTIONS } from './words';

/** What is wrong at a place of the text, before it is a finding. */
export interface Slip {
  readonly code: Code;
  readonly span: Span;
  readonly params: Params;
  readonly fixes: readonly FixId[];
}

/** A line with its block, as offsets into the text. */
export interface RawEntry {
  /** First character of the line. */
  readonly start: number;
  /** Behind the last token of the line itself (before its `{`). */
  readonly lineEnd: number;
  /** Of `{`, or -1. */
  open: number;
  /** Of `}`, or -1: no block, or one that is not closed. */
  close: number;
  /** Behind the last token of the line or its block. */
  end: number;
  /** Null without a block. */
  entries: RawEntry[] | null;
  /** Closed, and nothing is wrong with its braces: the same text is cut the same way wherever it stands. */
  clean: boolean;
  /** Passed over, since this text has been cut before. */
  readonly known: PlacedStatement | null;
}

export interface Cut {
  readonly entries: readonly RawEntry[];
  /** Braces that are missing, stray or out of place. */
  readonly slips: readonly Slip[];
}

/** Blocks deeper than this are read as if their braces were not there. */
const DEEPEST = 200;

const TAB = 9;
const LF = 10;
const CR = 13;
const SPACE = 32;
const QUOTE = 34;
const HASH = 35;
const LPAREN = 40;
const RPAREN = 41;
const COMMA = 44;
const MINUS = 45;
const SEMICOLON = 59;
const EQUALS = 61;
const LBRACE = 123;
const RBRACE = 125;

const isBlank = (code: number): boolean => code === SPACE || code === TAB;

function skipBlanks(text: string, from: number): number {
  let at = from;
  while (isBlank(text.charCodeAt(at))) at++;
  return at;
}

/** Past blanks, line ends and comments. */
function skipTrivia(text: string, from: number): number {
  let at = from;
  for (;;) {
    const code = text.charCodeAt(at);
    if (isBlank(code) || code === LF || (code === CR && text.charCodeAt(at + 1) === LF)) at++;
    else if (code === HASH) at = readComment(text, at);
    else return at;
  }
}

/**
 * After a comma at the end of a line: does the list go on at `from`? Not where a `}` or `{` stands, nor where a fact or
 * statement begins: a word directly followed by a word, a number, a string, `=`, `{`, or (unless it is a function) `(`.
 * Inside an open bracket a direction word goes on.
 */
function listGoesOn(text: string, from: number, inBracket: boolean): boolean {
  const code = text.charCodeAt(from);
  if (Number.isNaN(code) || code === RBRACE || code === LBRACE) return false;
  const word = readName(text, from);
  if (word === null) return true;
  if (inBracket && Object.hasOwn(DIRECTIONS, word)) return true;
  const next = skipBlanks(text, from + word.length);
  const after = text.charCodeAt(next);
  if (after === EQUALS || after === LBRACE || after === QUOTE) return false;
  if (after === LPAREN) return Object.hasOwn(FUNCTIONS, word);
  // A fact with a negative value: `yaw -3 deg`. A minus between two values has blanks on both sides.
  if (after === MINUS && next > from + word.length) {
    const beyond = text.charCodeAt(next + 1);
    return isBlank(beyond) || beyond === LF || beyond === CR || beyond === MINUS || beyond === 62;
  }
  if ((after >= 48 && after <= 57) || (after === 46 && next > from + word.length)) return false;
  return readName(text, next) === null;
}

/** The line that begins at `from`: behind its last token, and where the next thing begins (a line end, `;`, `{`, `}`). */
function readLine(text: string, from: number): { readonly end: number; readonly stop: number } {
  let at = from;
  let end = from;
  let depth = 0;
  let comma = false;
  for (;;) {
    const code = text.charCodeAt(at);
    switch (code) {
      case SPACE:
      case TAB:
        at++;
        continue;
      case CR:
        if (text.charCodeAt(at + 1) === LF) {
          at++;
          continue;
        }
        break;
      case LF: {
        if (!comma) return { end, stop: at };
        const next = skipTrivia(text, at);
        if (!listGoesOn(text, next, depth > 0)) return { end, stop: at };
        at = next;
        comma = false;
        continue;
      }
      case HASH:
        at = readComment(text, at);
        continue;
      case QUOTE:
        if (!isInchSign(text, at)) {
          at = end = readString(text, at).end;
          comma = false;
          continue;
        }
        break;
      case SEMICOLON:
      case LBRACE:
      case RBRACE:
        return { end, stop: at };
      case LPAREN:
        depth++;
        break;
      case RPAREN:
        depth = Math.max(0, depth - 1);
        break;
      default:
        if (Number.isNaN(code)) return { end, stop: at };
    }
    comma = code === COMMA;
    end = ++at;
  }
}

interface Frame {
  /** Null: braces that are read as if they were not there. */
  readonly entry: RawEntry | null;
  readonly entries: RawEntry[];
  /** In `facts` a statement closes what is open; in `statements` (mirror) only another mirror does. */
  readonly holds: 'statements' | 'facts';
}

/** How far a character stands from its line's beginning, with nothing but blanks before it; -1: something stands before. */
function indentOf(text: string, at: number): number {
  let from = at;
  while (from > 0 && isBlank(text.charCodeAt(from - 1))) from--;
  return from === 0 || text.charCodeAt(from - 1) === LF || text.charCodeAt(from - 1) === 0xfeff ? at - from : -1;
}

/**
 * Where a mirror ends that nobody closed: at the first line that stands as far left as its head, where what follows the
 * head is indented; else at the first statement that cannot stand in a mirror. -1: at the end of the text.
 */
function endOfOpenMirror(text: string, mirror: RawEntry): number {
  const inner = mirror.entries ?? [];
  const head = indentOf(text, mirror.start);
  const lines = inner.filter((entry) => indentOf(text, entry.start) >= 0);
  const indented = lines[0] !== undefined && indentOf(text, lines[0].start) > head;
  const next = indented
    ? lines.find((entry) => indentOf(text, entry.start) <= head)
    : inner.find((entry) => (KIND_BY_NAME.get(readName(text, entry.start) ?? '')?.notInMirror ?? null) !== null);
  return next?.start ?? -1;
}

/**
 * Does a line (without a block) that is known to end at `end` still end there? Not where a comma carries it on,
 * nor where a `{` follows.
 */
export function lineEndsAt(text: string, end: number): boolean {
  if (text.charCodeAt(end - 1) === COMMA) return false;
  const next = skipBlanks(text, end);
  const code = text.charCodeAt(next);
  const ends =
    code === LF || code === SEMICOLON || code === HASH || Number.isNaN(code) || text.startsWith('\r\n', next);
  return ends && text.charCodeAt(skipTrivia(text, next)) !== LBRACE;
}

/**
 * Is a `{` missing at the end of this line? Where a block is wanted, or the word is not known, and the next line is
 * indented deeper and begins with a word that stands in such a block.
 */
function braceIsMissing(text: string, start: number, word: string | null, stop: number): boolean {
  if (word === null || text.charCodeAt(stop) !== LF || indentOf(text, start) < 0) return false;
  const kind = KIND_BY_NAME.get(word);
  if (kind?.block === 'none') return false;
  const next = skipTrivia(text, stop);
  const inner = readName(text, next);
  if (inner === null || indentOf(text, next) <= indentOf(text, start)) return false;
  if (kind?.block === 'statements') return KIND_BY_NAME.has(inner);
  return kind === undefined ? FACT_NAMES.has(inner) : kind.facts.some((fact) => fact.name === inner);
}

/**
 * Cuts any text. Entries stand in the order of the text, and so do their slips. `known` may say which top-level
 * statement, clean when it was cut before, begins at an offset; it is passed over.
 */
export function cut(text: string, known?: (start: number) => PlacedStatement | null): Cut {
  const root: RawEntry[] = [];
  let slips: Slip[] = [];
  const stack: Frame[] = [];
  const base: Frame = { entry: null, entries: root, holds: 'statements' };
  /** Behind the last token. */
  let end = 0;
  let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  /** The line that a `{` on the next line would belong to. */
  let headless: RawEntry | null = null;

  const top = (): Frame => stack[stack.length - 1] ?? base;
  const slip = (code: Code, start: number, stop: number, params: Params, fixes: readonly FixId[] = []): void => {
    const around = root[root.length - 1];
    if (around !== undefined) around.clean = false;
    slips.push({ code, span: { start, end: stop }, params, fixes });
  };
  const unclosed = (frame: Frame): void => {
    const { entry } = frame;
    if (entry === null) return;
    entry.end = end;
    const name = text.slice(entry.start, Math.min(entry.lineEnd, entry.start + 60));
    slip('syntax.brace', entry.open, entry.open + 1, { name }, [
      { id: 'text.close-brace', data: { at: end - entry.open } },
    ]);
  };
  const open = (entry: RawEntry, holds: Frame['holds']): void => {
    entry.open = at;
    if (stack.length >= DEEPEST) {
      slip('syntax.nesting', at, at + 1, { depth: stack.length + 1 });
      stack.push({ entry: null, entries: top().entries, holds });
      return;
    }
    entry.entries = [];
    stack.push({ entry, entries: entry.entries, holds });
  };
  const holdsOf = (word: string | null): Frame['holds'] =>
    word !== null && holdsStatements(word) ? 'statements' : 'facts';

  /** Is this line a statement, though it stands among facts? */
  const beginsStatement = (word: string | null, start: number, line: { end: number; stop: number }): boolean => {
    if (word === null) return false;
    const kind = KIND_BY_NAME.get(word);
    const rest = skipBlanks(text, start + word.length);
    if (text.charCodeAt(line.stop) === LBRACE)
      return kind !== undefined || (!FACT_NAMES.has(word) && readName(text, rest) !== null);
    if (TOLD_BY_QUOTES.has(word)) return text.charCodeAt(rest) === QUOTE;
    if (kind === undefined || kind.block !== 'none' || FACT_NAMES.has(word)) return false;
    if (!kind.target) return rest < line.end;
    const target = readName(text, rest);
    return target !== null && text.charCodeAt(skipBlanks(text, rest + target.length)) === EQUALS;
  };

  for (;;) {
    const gap = at;
    at = skipTrivia(text, at);
    const code = text.charCodeAt(at);
    if (Number.isNaN(code)) {
      const open = stack.find((frame) => frame.entry !== null);
      const mirror = open?.holds === 'statements' ? open.entry : null;
      const stop = mirror === null ? -1 : endOfOpenMirror(text, mirror);
      if (mirror === null || stop < 0) break;
      // Go back and read on outside. It happens once: a second mirror would have closed the first.
      const inner = (mirror.entries ?? []).filter((entry) => entry.start < stop);
      mirror.entries = inner;
      slips = slips.filter((one) => one.span.start < stop);
      end = inner[inner.length - 1]?.end ?? mirror.open + 1;
      while (stack.length > 0) {
        const frame = stack.pop();
        if (frame?.entry === mirror) unclosed(frame);
      }
      at = stop;
      headless = null;
      continue;
    }
    if (code === SEMICOLON) {
      headless = null;
      at++;
      continue;
    }
    if (code === RBRACE) {
      const frame = stack.pop();
      if (frame === undefined) slip('syntax.brace-close', at, at + 1, {}, [{ id: 'text.replace', data: { text: '' } }]);
      else if (frame.entry !== null) {
        frame.entry.close = at;
        frame.entry.end = at + 1;
      }
      end = ++at;
      headless = null;
      continue;
    }
    if (code === LBRACE) {
      const fixes: FixId[] = [];
      if (headless !== null && text.slice(gap, at).trim() === '')
        fixes.push({ id: 'text.replace', data: { text: ' {', from: headless.lineEnd - at, to: 1 } });
      slip('syntax.unexpected', at, at + 1, { found: '{', wanted: 'it stands on the line of its head' }, fixes);
      if (headless !== null) open(headless, holdsOf(readName(text, headless.start)));
      else stack.push({ entry: null, entries: top().entries, holds: top().holds });
      end = ++at;
      headless = null;
      continue;
    }
    const start = at;
    const before = stack.length === 0 && known !== undefined ? known(start) : null;
    if (before !== null) {
      end = at = start + before.tree.text.length;
      root.push({ start, lineEnd: end, open: -1, close: -1, end, entries: null, clean: true, known: before });
      headless = null;
      continue;
    }
    const line = readLine(text, start);
    const word = readName(text, start);
    const opens = text.charCodeAt(line.stop) === LBRACE;
    const statement = stack.length > 0 && beginsStatement(word, start, line);
    if (statement) {
      while (stack.length > 0 && (top().holds === 'facts' || (opens && holdsOf(word) === 'statements'))) {
        const frame = stack.pop();
        if (frame !== undefined) unclosed(frame);
      }
    }
    const entry: RawEntry = {
      start,
      lineEnd: line.end,
      open: -1,
      close: -1,
      end: line.end,
      entries: null,
      clean: true,
      known: null,
    };
    const among = top();
    among.entries.push(entry);
    end = line.end;
    at = line.stop;
    headless = among.holds === 'statements' ? entry : null;
    if (opens) {
      if (among.holds === 'facts')
        slip('syntax.unexpected', at, at + 1, { found: '{', wanted: 'a fact has a value, no braces' });
      open(entry, holdsOf(word));
      end = ++at;
      headless = null;
    } else if (among.holds === 'statements' && braceIsMissing(text, start, word, line.stop)) {
      slip('syntax.missing', line.end, line.end, { wanted: "'{' is wanted" }, [
        { id: 'text.replace', data: { text: ' {' } },
      ]);
      at = line.end;
      open(entry, holdsOf(word));
      headless = null;
    }
  }
  while (stack.length > 0) {
    const frame = stack.pop();
    if (frame !== undefined) unclosed(frame);
  }
  slips.sort((a, b) => a.span.start - b.span.start);
  return { entries: root, slips };
}
