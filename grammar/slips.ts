/**
 * Slips of the pen in one line, found in its tokens before it is parsed, each told with what should stand there:
 * `45°`, `1.5"`, `12,5`, `1-1/2 in`, a string without its end, too many brackets. At most one a line.
 */
import type { IToken } from 'chevrotain';
import type { Code } from './codes';
import type { FixId, Params } from './finding';
import type { Slip } from './lines';
import { nearestWord, meant } from './nearest';
import {
  Between,
  Comma,
  endOf,
  InchSign,
  isName,
  LParen,
  Minus,
  NameToken,
  Near,
  Nearest,
  NumberToken,
  numberValue,
  RParen,
  Slash,
  SpacedMinus,
  Star,
  Plus,
  Stray,
  StringToken,
  readString,
  Unit,
  FunctionName,
} from './tokens';
import { UNIT_SPELLINGS, UNITS } from './units';

/** Brackets, signs and nested place words deeper than this are not read. */
const DEEPEST = 200;
/** Operations in one line; more would nest the tree too deep for whoever walks it. */
const MOST_OPERATIONS = 1000;

const REPLACE = 'text.replace';

const at = (code: Code, start: number, end: number, params: Params, fixes: readonly FixId[] = []): Slip => ({
  code,
  span: { start, end },
  params,
  fixes,
});

const touches = (before: IToken | undefined, token: IToken): before is IToken =>
  before !== undefined && endOf(before) === token.startOffset;

const isWhole = (token: IToken): boolean => /^\d+$/.test(token.image);
const isFraction = (token: IToken | undefined): token is IToken =>
  token !== undefined && token.tokenType === NumberToken && token.image.includes('/');

/** How a character is shown in a sentence: as itself, or by its code where it shows nothing. */
export function shownCharacter(image: string): string {
  const code = image.codePointAt(0) ?? 0;
  const seen = code > 32 && !/[\p{C}\p{Z}\p{M}]/u.test(image);
  return seen ? image : `U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
}

interface Spelling {
  readonly hint: string;
  readonly text: string;
}

/** Characters that come from other keyboards and programs, with what is written here. */
const SPELLINGS: ReadonlyMap<string, Spelling> = new Map([
  ['×', { hint: "; write 'x' between measures", text: ' x ' }],
  ['–', { hint: "; write '-'", text: '-' }],
  ['—', { hint: "; write '-'", text: '-' }],
  ['−', { hint: "; write '-'", text: '-' }],
  ['‐', { hint: "; write '-'", text: '-' }],
  ['‑', { hint: "; write '-'", text: '-' }],
  ['÷', { hint: "; write '/'", text: '/' }],
  ['·', { hint: "; write '*' or '.'", text: '*' }],
  ['“', { hint: '; write "', text: '"' }],
  ['”', { hint: '; write "', text: '"' }],
  ['„', { hint: '; write "', text: '"' }],
  ['\u00a0', { hint: ': a blank that does not break; write a plain one', text: ' ' }],
  ['\u2009', { hint: ': a thin blank; write a plain one', text: ' ' }],
  ['\u202f', { hint: ': a thin blank; write a plain one', text: ' ' }],
  [':', { hint: '; the value stands behind a blank', text: '' }],
  ['→', { hint: "; write '->'", text: '->' }],
  ['½', { hint: '; write 1/2', text: ' 1/2' }],
  ['¼', { hint: '; write 1/4', text: ' 1/4' }],
  ['¾', { hint: '; write 3/4', text: ' 3/4' }],
  ['⅛', { hint: '; write 1/8', text: ' 1/8' }],
  ['⅜', { hint: '; write 3/8', text: ' 3/8' }],
  ['⅝', { hint: '; write 5/8', text: ' 5/8' }],
  ['⅞', { hint: '; write 7/8', text: ' 7/8' }],
]);

const DEGREE_SIGNS = '°º˚';
const INCH_SIGNS = '″”“';
const FOOT_SIGNS = "'′’";

/** A sign behind a number that stands for a unit: `45°`, `1.5″`, `6'`. */
function signSlip(number: IToken, sign: IToken, next: IToken | undefined): Slip | null {
  const first = String.fromCodePoint(sign.image.codePointAt(0) ?? 0);
  const end = sign.startOffset + first.length;
  const { startOffset: start, image } = number;
  if (DEGREE_SIGNS.includes(first))
    return at('syntax.degree-sign', start, end, { found: image + first, mend: `${image} deg` });
  if (INCH_SIGNS.includes(first) || sign.tokenType === InchSign)
    return at('syntax.inch-sign', start, end, { found: image + first, mend: `${image} in` });
  if (!FOOT_SIGNS.includes(first)) return null;
  const twice = touches(sign, next ?? sign) && next?.image === first;
  return at('syntax.inch-sign', start, twice ? end + 1 : end, {
    found: image + first + (twice ? first : ''),
    mend: twice ? `${image} in` : `${image} ft`,
  });
}

function strayCharacter(token: IToken): Slip {
  const spelling = SPELLINGS.get(token.image);
  const { startOffset: start } = token;
  const found = shownCharacter(token.image);
  if (spelling === undefined) return at('syntax.character', start, endOf(token), { found, hint: '' });
  return at('syntax.character', start, endOf(token), { found, hint: spelling.hint }, [
    { id: REPLACE, data: { text: spelling.text } },
  ]);
}

function stringSlip(token: IToken): Slip | null {
  const { image, startOffset: start } = token;
  if (!readString(image, 0).closed)
    return at('syntax.string', start, endOf(token), {}, [
      { id: REPLACE, data: { text: '"', from: image.trimEnd().length, to: image.trimEnd().length } },
    ]);
  // eslint-disable-next-line no-control-regex -- these are what is looked for
  const control = /[\u0000-\u0008\u000a-\u001f\u007f]/.exec(image);
  if (control === null) return null;
  const where = start + control.index;
  return at('syntax.character', where, where + 1, { found: shownCharacter(control[0]), hint: '' }, [
    { id: REPLACE, data: { text: '' } },
  ]);
}

/** `45 x2.5`: an `x` between measures has a blank on both sides, or touches both. */
function halfTimes(token: IToken): Slip | null {
  if (!/^x(?:\d|M\d)/.test(token.image)) return null;
  const { startOffset: start } = token;
  return at(
    'syntax.unexpected',
    start,
    endOf(token),
    { found: token.image, wanted: "'x' between measures has a blank on both sides" },
    [{ id: REPLACE, data: { text: 'x ', from: 0, to: 1 } }],
  );
}

/** `12,5`: no blanks round the comma. `call`: the brackets of a function, where `min(1,2)` is meant as it stands. */
function decimalComma(before: IToken, comma: IToken, after: IToken): Slip | null {
  if (!touches(before, comma) || !touches(comma, after) || !isWhole(before) || !/^\d/.test(after.image)) return null;
  const thousands = /^\d{3}\.\d+$/.test(after.image);
  if (!thousands && !isWhole(after)) return null;
  const found = `${before.image},${after.image}`;
  return at('syntax.decimal-comma', before.startOffset, endOf(after), {
    found,
    mend: found.replace(',', thousands ? '' : '.'),
  });
}

/** A bracket that is open: what is known of its commas, since `(0,0,118)` is a triple and `(12,5, 30, 40)` is not. */
interface Bracket {
  readonly call: boolean;
  /** Signs that stand before it. */
  readonly signs: number;
  commas: number;
  /** A comma with a blank behind it. */
  spaced: boolean;
  /** An item begins with a direction word. */
  words: boolean;
  suspect: Slip | null;
}

function closeBracket(bracket: Bracket): Slip | null {
  const { suspect } = bracket;
  if (suspect === null || bracket.call) return null;
  return bracket.words || (bracket.spaced && bracket.commas > 2) ? suspect : null;
}

/** `2006-04-01` without its quotes: five tokens that touch, from the year on. */
function bareDay(tokens: readonly IToken[], year: number): Slip | null {
  const parts = tokens.slice(year, year + 5);
  const [first, , , , last] = parts;
  if (first === undefined || last === undefined) return null;
  if (!parts.every((part, i) => i === 0 || touches(parts[i - 1], part))) return null;
  const found = parts.map((part) => part.image).join('');
  if (!/^\d{4}-\d{2}-\d{2}$/.test(found)) return null;
  const mend = `"${found}"`;
  return at('syntax.unexpected', first.startOffset, endOf(last), { found, wanted: `a day stands in quotes, ${mend}` }, [
    { id: REPLACE, data: { text: mend } },
  ]);
}

/** `1-1/2`, and a minus that touches what stands before it where no name swallows it. */
function minusSlip(tokens: readonly IToken[], i: number, line: string): Slip | null {
  const minus = tokens[i];
  const before = tokens[i - 1];
  const after = tokens[i + 1];
  if (minus === undefined || before === undefined) return null;
  const figure = before.tokenType === NumberToken || before.tokenType === Unit || before.tokenType === RParen;
  const touching = touches(before, minus);
  if (touching && before.tokenType === NumberToken && isWhole(before) && isFraction(after) && touches(minus, after)) {
    const found = line.slice(before.startOffset, endOf(after));
    const sum = { id: REPLACE, data: { text: `${before.image} - ${after.image}` } };
    const mend = `${before.image} ${after.image}`;
    return at('number.mixed-fraction', before.startOffset, endOf(after), { found, mend }, [
      { id: REPLACE, data: { text: mend } },
      sum,
    ]);
  }
  const day = bareDay(tokens, i - 1);
  if (day !== null) return day;
  if (!figure && !(touching && (before.tokenType === StringToken || isName(before)))) return null;
  return looseMinus(minus, before);
}

/** A minus between two values that lacks a blank. */
export function looseMinus(minus: IToken, before: IToken | undefined): Slip {
  return at(
    'syntax.unexpected',
    minus.startOffset,
    endOf(minus),
    { found: '-', wanted: 'a minus between two values has a blank on both sides' },
    [{ id: REPLACE, data: { text: touches(before, minus) ? ' - ' : '- ' } }],
  );
}

function numberSlip(tokens: readonly IToken[], i: number): Slip | null {
  const token = tokens[i];
  if (token === undefined) return null;
  const { image, startOffset: start } = token;
  if (isFraction(token)) {
    let sign = i - 1;
    while (tokens[sign]?.tokenType === Minus || tokens[sign]?.tokenType === SpacedMinus) sign--;
    const first = tokens[sign + 1] ?? token;
    if (tokens[sign]?.tokenType === Slash) {
      const mend = `(${tokens
        .slice(sign + 1, i + 1)
        .map((one) => one.image)
        .join('')})`;
      return at('number.fraction-after-division', first.startOffset, endOf(token), { found: image, mend });
    }
  }
  const value = numberValue(image);
  if (Number.isFinite(value)) return null;
  if (/\/0+$/.test(image))
    return at('number.arithmetic', start, endOf(token), { why: 'the number below the line is 0' });
  return at('number.range', start, endOf(token), {
    value: image.length > 24 ? `${image.slice(0, 20)}…` : image,
    wanted: 'fewer digits',
  });
}

/** The first slip of a line, or null. Offsets are those of the tokens. `line` is the text that they come from. */
export function findSlip(tokens: readonly IToken[], line: string): Slip | null {
  const brackets: Bracket[] = [];
  let signs = 0;
  let signsAround = 0;
  let forms = 0;
  let operations = 0;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i];
    if (token === undefined) break;
    const before = tokens[i - 1];
    const after = tokens[i + 1];
    const bracket = brackets[brackets.length - 1];
    let slip: Slip | null = null;
    let sign = false;
    switch (token.tokenType) {
      case StringToken:
        slip = stringSlip(token);
        break;
      case Stray:
      case InchSign:
        slip = before?.tokenType === NumberToken ? signSlip(before, token, after) : null;
        slip ??= strayCharacter(token);
        break;
      case NameToken:
        if (token.image.startsWith('º') && before?.tokenType === NumberToken && touches(before, token))
          slip = signSlip(before, token, after);
        else if (before?.tokenType === NumberToken || before?.tokenType === Unit) slip = halfTimes(token);
        break;
      case Between:
      case Near:
      case Nearest:
        forms++;
        break;
      case NumberToken:
        slip = numberSlip(tokens, i);
        break;
      case LParen:
        brackets.push({
          call: before?.tokenType === FunctionName,
          signs,
          commas: 0,
          spaced: false,
          words: isName(after) && tokens[i + 2]?.tokenType === NumberToken,
          suspect: null,
        });
        signsAround += signs;
        break;
      case RParen:
        if (bracket === undefined) break;
        brackets.pop();
        signsAround -= bracket.signs;
        slip = closeBracket(bracket);
        break;
      case Comma: {
        const comma =
          before?.tokenType === NumberToken && after?.tokenType === NumberToken
            ? decimalComma(before, token, after)
            : null;
        if (bracket === undefined) slip = comma;
        else {
          bracket.commas++;
          bracket.suspect ??= comma;
          if (after !== undefined && !touches(token, after)) bracket.spaced = true;
        }
        break;
      }
      case Minus:
      case SpacedMinus:
        sign = true;
        if (token.tokenType === Minus) slip = minusSlip(tokens, i, line);
        operations++;
        break;
      case Plus:
      case Star:
      case Slash:
        operations++;
        break;
      default:
    }
    if (slip !== null) return slip;
    signs = sign ? signs + 1 : 0;
    const depth = brackets.length + signsAround + signs + forms;
    if (depth > DEEPEST) return at('syntax.nesting', token.startOffset, endOf(token), { depth: depthOf(tokens) });
    if (operations > MOST_OPERATIONS)
      return at('number.range', token.startOffset, endOf(token), {
        value: `More than ${String(MOST_OPERATIONS)} operations in one line`,
        wanted: "give parts of it a name with 'let'",
      });
  }
  // A bracket that is not closed keeps its suspicion: `(out 12,5` is half typed.
  for (const bracket of brackets) {
    const slip = closeBracket(bracket);
    if (slip !== null) return slip;
  }
  return null;
}

/** The deepest nesting of a line, brackets and signs together. */
function depthOf(tokens: readonly IToken[]): number {
  let deepest = 0;
  let depth = 0;
  let signs = 0;
  const around: number[] = [];
  for (const { tokenType } of tokens) {
    if (tokenType === Minus || tokenType === SpacedMinus) signs++;
    else if (tokenType === LParen) {
      around.push(signs);
      depth += 1 + signs;
      signs = 0;
    } else {
      if (tokenType === RParen) depth -= 1 + (around.pop() ?? -1);
      else if (tokenType === Between || tokenType === Near || tokenType === Nearest) depth++;
      signs = 0;
    }
    deepest = Math.max(deepest, depth + signs);
  }
  return deepest;
}

/** A word behind a number that is no unit: which unit is meant, if one is near. Offsets are those of the token. */
export function unknownUnit(start: number, end: number, word: string): Slip {
  const nearest = Object.hasOwn(UNIT_SPELLINGS, word.toLowerCase())
    ? (UNIT_SPELLINGS[word.toLowerCase()] ?? null)
    : nearestWord(word, Object.keys(UNITS));
  const exponent = /^[eE]\d*$/.test(word);
  const hint = exponent ? '; exponents are not read, write the number out' : meant(nearest);
  return at(
    'unit.unknown',
    start,
    end,
    nearest === null || exponent ? { name: word, hint } : { name: word, hint, nearest },
  );
}
