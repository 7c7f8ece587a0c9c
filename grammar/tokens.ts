/**
 * Text to tokens. The lexer never rejects: what has no place in a cage file becomes a token of its own
 * ({@link Stray}), and tokens and trivia together give the text back character by character.
 */
import { createToken, Lexer, type CustomPatternMatcherReturn, type IToken, type TokenType } from 'chevrotain';
import { UNITS } from './units';
import { FUNCTIONS } from './words';

/** A name as a regular expression (flag `u`): letters with their marks, digits, `_`, single hyphens inside. */
export const NAME_PATTERN = String.raw`\p{L}[\p{L}\p{M}\d_]*(?:-[\p{L}\d_][\p{L}\p{M}\d_]*)*`;

/** Mixed fraction, fraction, decimal. A fraction is not cut out of `3/4.5`. */
const NUMBER_PATTERN = String.raw`(?:\d+[ \t]+)?\d+/\d+(?!\d|\.\d)|\d+(?:\.\d+)?|\.\d+`;

const longestFirst = (words: readonly string[]): string => [...words].sort((a, b) => b.length - a.length).join('|');

/** A unit word ends where a name would end, or at an `x` between two figures (`45mmx2.5`). */
const UNIT_PATTERN = `(?:${longestFirst(Object.keys(UNITS).filter((unit) => unit !== '%'))})(?:(?=x[\\d.M])|(?![\\p{L}\\p{M}\\d_]|-[\\p{L}\\d_]))|%`;

const nameAt = new RegExp(NAME_PATTERN, 'uy');
const numberAt = new RegExp(NUMBER_PATTERN, 'y');
const unitAt = new RegExp(UNIT_PATTERN, 'uy');

const runAt = (pattern: RegExp, text: string, offset: number): RegExpExecArray | null => {
  pattern.lastIndex = offset;
  return pattern.exec(text);
};

/** The name that begins at `offset`, as written, or null. */
export function readName(text: string, offset: number): string | null {
  return runAt(nameAt, text, offset)?.[0] ?? null;
}

const isDigit = (code: number): boolean => code >= 48 && code <= 57;
const isBlank = (code: number): boolean => code === 32 || code === 9;
/** A blank, a line end, or the edge of the text (NaN). */
const isGap = (code: number): boolean => isBlank(code) || code === 10 || code === 13 || Number.isNaN(code);

/** A `"` directly after a digit means inches, it opens no string. */
export const isInchSign = (text: string, offset: number): boolean => offset > 0 && isDigit(text.charCodeAt(offset - 1));

/** Where the string that opens at `offset` ends (behind its `"`, or at the end of the line), and whether it is closed. */
export function readString(text: string, offset: number): { readonly end: number; readonly closed: boolean } {
  let at = offset + 1;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 34) return { end: at + 1, closed: true };
    if (code === 10 || (code === 13 && text.charCodeAt(at + 1) === 10)) break;
    if (code === 92) {
      const next = text.charCodeAt(at + 1);
      if (next === 34 || next === 92) at++;
    }
  }
  return { end: Math.min(at, text.length), closed: false };
}

/** Where the comment that begins at `offset` ends: at the end of its line. */
export function readComment(text: string, offset: number): number {
  const newline = text.indexOf('\n', offset);
  if (newline < 0) return text.length;
  return text.charCodeAt(newline - 1) === 13 ? newline - 1 : newline;
}

const found = (image: string): CustomPatternMatcherReturn => [image];
const last = (tokens: readonly IToken[]): IToken | undefined => tokens[tokens.length - 1];
/** Offset behind a token. */
export const endOf = (token: IToken): number => token.startOffset + token.image.length;

// For the lexer's jump table: every letter beyond ASCII may begin a name, everything may be stray.
const LETTERS = Array.from({ length: 26 }, (_, i) => [65 + i, 97 + i]).flat();
const BEYOND_ASCII = [
  ...Array.from({ length: 128 }, (_, i) => 128 + i),
  ...Array.from({ length: Math.ceil((65536 - 256) / 64) }, (_, i) => 256 + i * 64),
  65535,
];
const DIGITS = Array.from({ length: 10 }, (_, i) => 48 + i);
const EVERYTHING = [...Array.from({ length: 128 }, (_, i) => i), ...BEYOND_ASCII];

const TRIVIA = 'trivia';

const Bom = createToken({
  name: 'Bom',
  pattern: (text, offset) => (offset === 0 && text.charCodeAt(0) === 0xfeff ? found('\ufeff') : null),
  start_chars_hint: [0xfeff],
  line_breaks: false,
  group: TRIVIA,
});
const Blank = createToken({ name: 'Blank', pattern: /[ \t]+/, group: TRIVIA });
export const Newline = createToken({ name: 'Newline', pattern: /\r?\n/, group: TRIVIA, line_breaks: true });
export const Comment = createToken({
  name: 'Comment',
  pattern: (text, offset) =>
    text.charCodeAt(offset) === 35 ? found(text.slice(offset, readComment(text, offset))) : null,
  start_chars_hint: ['#'],
  line_breaks: false,
  group: TRIVIA,
});

/** A fraction or decimal, without sign and unit. */
export const NumberToken = createToken({
  name: 'Number',
  label: 'a number',
  pattern: (text, offset) => runAt(numberAt, text, offset),
  start_chars_hint: [...DIGITS, 46],
  line_breaks: false,
});
/** A unit word; only after a number, with or without blanks between. */
export const Unit = createToken({
  name: 'Unit',
  label: 'a unit',
  pattern: (text, offset, tokens) => {
    const before = last(tokens);
    if (before?.tokenType !== NumberToken) return null;
    for (let i = endOf(before); i < offset; i++) if (!isBlank(text.charCodeAt(i))) return null;
    return runAt(unitAt, text, offset);
  },
  start_chars_hint: [...LETTERS, 37],
  line_breaks: false,
});
/** The `x` of `45x2.5`: touches a number or unit before, a digit, `.` or `M` after. A lone `x` is a name to the lexer. */
export const Times = createToken({
  name: 'Times',
  label: "an 'x'",
  pattern: (text, offset, tokens) => {
    if (text.charCodeAt(offset) !== 120) return null;
    const before = last(tokens);
    if (before === undefined || endOf(before) !== offset) return null;
    if (before.tokenType !== NumberToken && before.tokenType !== Unit) return null;
    const next = text.charCodeAt(offset + 1);
    return isDigit(next) || next === 46 || next === 77 ? found('x') : null;
  },
  start_chars_hint: ['x'],
  line_breaks: false,
});
export const NameToken = createToken({
  name: 'Name',
  label: 'a name',
  pattern: (text, offset) => runAt(nameAt, text, offset),
  start_chars_hint: [...LETTERS, ...BEYOND_ASCII],
  line_breaks: false,
});
export const InchSign = createToken({
  name: 'InchSign',
  label: 'an inch sign',
  pattern: (text, offset) => (text.charCodeAt(offset) === 34 && isInchSign(text, offset) ? found('"') : null),
  start_chars_hint: ['"'],
  line_breaks: false,
});
/** `"…"`, closed on its line or running to the end of it. */
export const StringToken = createToken({
  name: 'String',
  label: 'a text in quotes',
  pattern: (text, offset) =>
    text.charCodeAt(offset) === 34 ? found(text.slice(offset, readString(text, offset).end)) : null,
  start_chars_hint: ['"'],
  line_breaks: false,
});
export const Arrow = createToken({ name: 'Arrow', label: "an '->'", pattern: /->/ });
/** Minus with a blank on both sides: between two values, or a sign. */
export const SpacedMinus = createToken({
  name: 'SpacedMinus',
  label: "a '-'",
  pattern: (text, offset) =>
    text.charCodeAt(offset) === 45 && isGap(text.charCodeAt(offset - 1)) && isGap(text.charCodeAt(offset + 1))
      ? found('-')
      : null,
  start_chars_hint: ['-'],
  line_breaks: false,
});
/** Any other minus: a sign. */
export const Minus = createToken({
  name: 'Minus',
  label: "a '-'",
  pattern: (text, offset) => (text.charCodeAt(offset) === 45 ? found('-') : null),
  start_chars_hint: ['-'],
  line_breaks: false,
});
export const Plus = createToken({ name: 'Plus', label: "a '+'", pattern: /\+/ });
export const Star = createToken({ name: 'Star', label: "a '*'", pattern: /\*/ });
export const Slash = createToken({ name: 'Slash', label: "a '/'", pattern: /\// });
export const Equals = createToken({ name: 'Equals', label: "an '='", pattern: /=/ });
export const Comma = createToken({ name: 'Comma', label: "a ','", pattern: /,/ });
export const Dot = createToken({ name: 'Dot', label: "a '.'", pattern: /\./ });
export const LParen = createToken({ name: 'LParen', label: "a '('", pattern: /\(/ });
export const RParen = createToken({ name: 'RParen', label: "a ')'", pattern: /\)/ });
const LBrace = createToken({ name: 'LBrace', label: "a '{'", pattern: /\{/ });
const RBrace = createToken({ name: 'RBrace', label: "a '}'", pattern: /\}/ });
export const Semicolon = createToken({ name: 'Semicolon', label: "a ';'", pattern: /;/ });
/** One character (a whole surrogate pair) that has no place in a cage file. */
export const Stray = createToken({
  name: 'Stray',
  label: 'a character',
  pattern: (text, offset) => found(String.fromCodePoint(text.codePointAt(offset) ?? 0)),
  start_chars_hint: EVERYTHING,
  line_breaks: true,
});

/** A word with a job in the grammar; it stays a name, so it may name a node as well. */
const keyword = (word: string): TokenType =>
  createToken({ name: `word_${word}`, label: `'${word}'`, pattern: Lexer.NA, categories: NameToken });
export const On = keyword('on');
export const In = keyword('in');
export const Between = keyword('between');
export const And = keyword('and');
export const At = keyword('at');
export const From = keyword('from');
export const Before = keyword('before');
export const After = keyword('after');
export const Mid = keyword('mid');
export const Where = keyword('where');
export const Meets = keyword('meets');
export const Near = keyword('near');
export const Nearest = keyword('nearest');
export const LoneX = keyword('x');
/** A function's name with `(` behind it. */
export const FunctionName = createToken({
  name: 'FunctionName',
  label: 'a function',
  pattern: Lexer.NA,
  categories: NameToken,
});

const KEYWORDS: ReadonlyMap<string, TokenType> = new Map<string, TokenType>([
  ['on', On],
  ['in', In],
  ['between', Between],
  ['and', And],
  ['at', At],
  ['from', From],
  ['before', Before],
  ['after', After],
  ['mid', Mid],
  ['where', Where],
  ['meets', Meets],
  ['near', Near],
  ['nearest', Nearest],
  ['x', LoneX],
]);

/** Order is precedence. */
const LEXED = [
  Bom,
  Blank,
  Newline,
  Comment,
  NumberToken,
  Unit,
  Times,
  NameToken,
  InchSign,
  StringToken,
  Arrow,
  SpacedMinus,
  Minus,
  Plus,
  Star,
  Slash,
  Equals,
  Comma,
  Dot,
  LParen,
  RParen,
  LBrace,
  RBrace,
  Semicolon,
  Stray,
];

/** Every token type that the parser may meet. */
export const TOKEN_TYPES: TokenType[] = [...LEXED, ...KEYWORDS.values(), FunctionName];

const lexer = new Lexer(LEXED, { positionTracking: 'onlyOffset', ensureOptimizations: true });

export interface Tokens {
  /** In the order of the text. */
  readonly tokens: readonly IToken[];
  /** Blanks, line ends, comments, a byte order mark; in the order of the text. */
  readonly trivia: readonly IToken[];
}

/**
 * Cuts any text into tokens and trivia. Never fails; `startOffset` and `image` of each are exact
 * (images are as written, before NFC).
 */
export function tokenize(text: string): Tokens {
  const { tokens, groups } = lexer.tokenize(text);
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i];
    if (token === undefined || token.tokenType !== NameToken) continue;
    const job = KEYWORDS.get(token.image) ?? (isCall(token, tokens[i + 1]) ? FunctionName : undefined);
    if (job === undefined) continue;
    token.tokenType = job;
    if (job.tokenTypeIdx !== undefined) token.tokenTypeIdx = job.tokenTypeIdx;
  }
  return { tokens, trivia: groups[TRIVIA] ?? [] };
}

const isCall = (token: IToken, next: IToken | undefined): boolean =>
  next?.tokenType === LParen && Object.hasOwn(FUNCTIONS, token.image);

/** A name, a keyword or a function's name: all may name a thing. */
export const isName = (token: IToken | undefined): token is IToken =>
  token !== undefined && (token.tokenType === NameToken || token.tokenType.CATEGORIES?.includes(NameToken) === true);

/** Names are compared after NFC. */
export function nfc(image: string): string {
  for (let i = 0; i < image.length; i++) if (image.charCodeAt(i) > 127) return image.normalize('NFC');
  return image;
}

/**
 * What the digits of a {@link NumberToken} are worth: the only place where text becomes a number.
 * `1 3/4` is 1.75. Too many digits give Infinity, a zero below the line Infinity or NaN: the caller tells.
 */
export function numberValue(image: string): number {
  if (!image.includes('/')) return Number.parseFloat(image);
  const parts = /^(?:(\d+)[ \t]+)?(\d+)\/(\d+)$/.exec(image);
  if (parts === null) return Number.parseFloat(image);
  const [, whole, above, below] = parts;
  const share = Number.parseFloat(above ?? '') / Number.parseFloat(below ?? '');
  return whole === undefined ? share : Number.parseFloat(whole) + share;
}

/** What a string token says: without its quotes, with `\"` and `\\` read. */
export function stringValue(image: string): string {
  const { closed } = readString(image, 0);
  return image.slice(1, closed ? -1 : undefined).replace(/\\(["\\])/g, '$1');
}
