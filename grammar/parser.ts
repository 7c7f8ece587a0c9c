/**
 * Text to tree: every line parsed alone, every statement cached by its text. Nothing that is written makes it throw.
 */
import type { IToken } from 'chevrotain';
import { CODES, type Code } from './codes';
import type { Finding, FixId, Params } from './finding';
import { parseTokens, type Misfit } from './line-parser';
import { cut, lineEndsAt, type RawEntry, type Slip } from './lines';
import { meant, nearestWord } from './nearest';
import { findSlip, looseMinus, shownCharacter, unknownUnit } from './slips';
import { endOf, Equals, isName, LParen, Minus, nfc, NumberToken, tokenize } from './tokens';
import type { ArgGroup, Block, Entry, FileTree, Line, Missing, Name, PlacedStatement, Statement } from './tree';
import { FACT_NAMES, KIND_BY_NAME } from './vocabulary';
import { FUNCTIONS } from './words';

/** Files whose statements are kept; the least recently parsed goes first. */
const KEPT_FILES = 64;

interface KeptFile {
  readonly statements: readonly PlacedStatement[];
  /** For each of these: it is cut the same way wherever it stands. */
  readonly clean: readonly boolean[];
  /** Some more than the file's present statements: what was cut out a moment ago is often pasted again. */
  readonly byText: Map<string, Statement>;
}

/** Parsed statements by their text, for one project. Holds little more than what the files hold now. */
export class StatementCache {
  private readonly files = new Map<string, KeptFile>();
  private runs = 0;

  /** What is kept of a file. */
  take(file: string): KeptFile {
    return this.files.get(file) ?? { statements: [], clean: [], byText: new Map() };
  }

  /** Keeps a file's statements; `parsed` of them were parsed anew. */
  keep(file: string, kept: KeptFile, parsed: number): void {
    this.runs += parsed;
    this.files.delete(file);
    this.files.set(file, kept);
    for (const oldest of this.files.keys()) {
      if (this.files.size <= KEPT_FILES) break;
      this.files.delete(oldest);
    }
  }

  /** Lets go of a file. */
  forget(file: string): void {
    this.files.delete(file);
  }

  /** How many statements were parsed anew since this was last asked. */
  takeRuns(): number {
    const { runs } = this;
    this.runs = 0;
    return runs;
  }
}

const toFinding = (slip: Slip, file: string, offset: number): Finding => ({
  code: slip.code,
  severity: CODES[slip.code].severity,
  subject: '',
  at: {
    kind: 'place',
    place: { file, span: { start: slip.span.start + offset, end: slip.span.end + offset } },
  },
  params: slip.params,
  notes: [],
  fixes: slip.fixes,
});

/** A finding of a statement (relative spans, file '') as one of its file. */
export function placeFinding(finding: Finding, file: string, offset: number): Finding {
  if (finding.at.kind !== 'place') return finding;
  const { start, end } = finding.at.place.span;
  return { ...finding, at: { kind: 'place', place: { file, span: { start: start + offset, end: end + offset } } } };
}

const slipAt = (code: Code, start: number, end: number, params: Params, fixes: readonly FixId[] = []): Slip => ({
  code,
  span: { start, end },
  params,
  fixes,
});

const SHOWN = 40;
const shown = (image: string): string => {
  const plain = image.length > SHOWN ? `${image.slice(0, SHOWN)}…` : image;
  return [...plain].map((character) => (character === ' ' ? ' ' : shownCharacter(character))).join('');
};

const unexpected = (token: IToken, wanted: string, fixes: readonly FixId[] = []): Slip =>
  slipAt('syntax.unexpected', token.startOffset, endOf(token), { found: shown(token.image), wanted }, fixes);

const missingAfter = (token: IToken | undefined, wanted: string): Slip => {
  const end = token === undefined ? 0 : endOf(token);
  return slipAt('syntax.missing', end, end, { wanted: `${wanted} is wanted` });
};

function misfitSlip({ token, wanted }: Misfit, tokens: readonly IToken[]): Slip {
  if (token === null) return missingAfter(tokens[tokens.length - 1], wanted === '' ? 'a value' : wanted);
  const before = tokens[tokens.indexOf(token) - 1];
  if (before?.tokenType === NumberToken && isName(token))
    return unknownUnit(token.startOffset, endOf(token), nfc(token.image));
  if (token.tokenType === Minus) return looseMinus(token, before);
  if (token.tokenType === Equals && before !== undefined && tokens[0] === before)
    return unexpected(token, "the value follows without '='", [{ id: 'text.replace', data: { text: '' } }]);
  if (token.tokenType === LParen && before !== undefined && isName(before) && endOf(before) === token.startOffset) {
    const name = nfc(before.image);
    return unexpected(token, `'${name}' is no function${meant(nearestWord(name, Object.keys(FUNCTIONS)))}`);
  }
  return unexpected(token, wanted === '' ? 'nothing more fits in this line' : `${wanted} is wanted here`);
}

interface ParsedLine {
  readonly line: Line;
  /** In offsets of the line's own text. */
  readonly slip: Slip | null;
}

const shiftName = (token: IToken, base: number): Name => ({
  text: nfc(token.image),
  span: { start: base + token.startOffset, end: base + endOf(token) },
});

/** What is known of a line that did not parse ends with a hole where it went wrong. */
function withHole(groups: readonly ArgGroup[], at: number): readonly ArgGroup[] {
  const hole: Missing = { kind: 'missing', span: { start: at, end: at } };
  const last = groups[groups.length - 1];
  if (last === undefined) return [{ args: [hole], span: hole.span }];
  return [
    ...groups.slice(0, -1),
    { args: [...last.args, hole], span: { start: last.span.start, end: Math.max(last.span.end, at) } },
  ];
}

/** Parses one line's text; `base` is where it stands in its statement. */
function parseLine(text: string, base: number): ParsedLine {
  const { tokens } = tokenize(text);
  const span = { start: base, end: base + text.length };
  const first = tokens[0];
  // A byte order mark is read past at the beginning of a file only, and lines are cut behind it.
  let slip =
    text.charCodeAt(0) === 0xfeff
      ? slipAt('syntax.character', 0, 1, { found: 'U+FEFF', hint: '' }, [{ id: 'text.replace', data: { text: '' } }])
      : findSlip(tokens, text);
  if (!isName(first)) {
    if (first !== undefined) slip ??= unexpected(first, 'a line begins with a word');
    const word: Name = { text: '', span: { start: base, end: base } };
    return { line: { word, target: null, groups: withHole([], base), ok: false, span }, slip };
  }
  const word = shiftName(first, base);
  let target: Name | null = null;
  let rest = tokens.slice(1);
  // `nod a = (0, 600, 0)`: a misspelt word spoils nothing but itself.
  const unknown = !KIND_BY_NAME.has(word.text) && !FACT_NAMES.has(word.text);
  const named = unknown && isName(rest[0]) && rest[1]?.tokenType === Equals;
  const targeted = KIND_BY_NAME.get(word.text)?.target === true || named;
  if (targeted) {
    const [name, equals] = rest;
    if (isName(name)) {
      target = shiftName(name, base);
      rest = rest.slice(equals?.tokenType === Equals ? 2 : 1);
      if (equals === undefined) slip ??= missingAfter(name, "an '='");
      else if (equals.tokenType !== Equals) slip ??= unexpected(equals, "an '=' is wanted here");
      else if (rest.length === 0) slip ??= missingAfter(equals, word.text === 'node' ? 'a place' : 'a value');
    } else if (name === undefined) slip ??= missingAfter(first, 'a name');
    else slip ??= unexpected(name, 'a name is wanted here');
  }
  if (slip?.code === 'syntax.nesting' || slip?.code === 'number.range') {
    return { line: { word, target, groups: withHole([], base + slip.span.start), ok: false, span }, slip };
  }
  const { groups, misfit } = parseTokens(rest, targeted ? 'value' : 'args', base);
  if (misfit !== null) slip ??= misfitSlip(misfit, tokens);
  const ok = slip === null;
  return {
    line: { word, target, groups: ok ? groups : withHole(groups, base + (slip?.span.start ?? 0)), ok, span },
    slip,
  };
}

/**
 * A copy of its own. A slice keeps the whole text that it was cut from alive, and here slices outlive thousands of
 * versions of a file; a joined string is written out anew before it is sliced.
 */
const ownCopy = (slice: string): string => `${slice} `.slice(0, -1);

/** Builds the tree of one statement from its cut. Depth is bounded by the cut. */
function parseStatement(file: string, raw: RawEntry): Statement {
  const origin = raw.start;
  const text = ownCopy(file.slice(raw.start, raw.end));
  const findings: Finding[] = [];
  const build = (entry: RawEntry): Entry => {
    const start = entry.start - origin;
    const { line, slip } = parseLine(text.slice(start, entry.lineEnd - origin), start);
    if (slip !== null) findings.push(toFinding(slip, '', start));
    let block: Block | null = null;
    if (entry.entries !== null) {
      block = {
        entries: entry.entries.map(build),
        span: { start: entry.open - origin, end: (entry.close < 0 ? entry.end : entry.close + 1) - origin },
        closed: entry.close >= 0,
      };
    }
    return { line, block, span: { start, end: entry.end - origin } };
  };
  return { entry: build(raw), findings, text };
}

const startOf = (finding: Finding): number => (finding.at.kind === 'place' ? finding.at.place.span.start : 0);

/** At most one finding a line of the text: the first. */
function firstOfEachLine(findings: Finding[], text: string): Finding[] {
  findings.sort((a, b) => startOf(a) - startOf(b));
  let lineEnd = -1;
  return findings.filter((finding) => {
    const start = startOf(finding);
    if (start <= lineEnd) return false;
    const newline = text.indexOf('\n', start);
    lineEnd = newline < 0 ? text.length : newline;
    return true;
  });
}

/** A line that never has a block: the lines behind it do not change what it is. */
const isPlainLine = (tree: Statement): boolean => KIND_BY_NAME.get(tree.entry.line.word.text)?.block === 'none';

/**
 * Parses any text. With a cache, statements whose text is unchanged keep their trees (the same objects), and
 * statements that did not move keep their places too.
 */
export function parseFile(file: string, text: string, cache: StatementCache = new StatementCache()): FileTree {
  const kept = cache.take(file);
  // Mostly a statement is the next of the last parse, or one of the two behind it.
  let next = 0;
  const known = (start: number): PlacedStatement | null => {
    for (let i = next; i < next + 3; i++) {
      const old = kept.statements[i];
      if (old === undefined) break;
      const { tree } = old;
      if (kept.clean[i] !== true || !text.startsWith(tree.text, start)) continue;
      if (tree.entry.block === null && !(isPlainLine(tree) && lineEndsAt(text, start + tree.text.length))) continue;
      next = i + 1;
      return old;
    }
    return null;
  };
  const raw = cut(text, known);
  const statements: PlacedStatement[] = [];
  const clean: boolean[] = [];
  const findings = raw.slips.map((slip) => toFinding(slip, file, 0));
  let { byText } = kept;
  let parsed = 0;
  for (const entry of raw.entries) {
    const old = entry.known;
    let tree = old?.tree ?? byText.get(text.slice(entry.start, entry.end));
    if (tree === undefined) {
      tree = parseStatement(text, entry);
      byText.set(tree.text, tree);
      parsed++;
    }
    clean.push(entry.clean);
    statements.push(old?.offset === entry.start ? old : { offset: entry.start, tree });
    for (const finding of tree.findings) findings.push(placeFinding(finding, file, entry.start));
  }
  if (byText.size > statements.length + 64) byText = new Map(statements.map(({ tree }) => [tree.text, tree]));
  cache.keep(file, { statements, clean, byText }, parsed);
  return { file, text, statements, findings: firstOfEachLine(findings, text) };
}
