/**
 * The layout of a file: one fact a line, two blanks of indent, at most one empty line. A block that was written on one
 * line stays there while it fits. Every token and comment is kept, a `;` at most becomes a line end; a statement that is
 * broken stays exactly as it is.
 */
import type { IToken } from 'chevrotain';
import { Layout } from './layout';
import { cut } from './lines';
import { parseFile } from './parser';
import {
  Arrow,
  Comma,
  Comment,
  Dot,
  Equals,
  FunctionName,
  LParen,
  Minus,
  Newline,
  Plus,
  RParen,
  Semicolon,
  Slash,
  SpacedMinus,
  Star,
  Times,
  tokenize,
} from './tokens';
import type { Block, Entry, FileTree, PlacedStatement } from './tree';

const INDENT = '  ';
/** A block stays on one line up to this column. */
const WIDTH = 120;

const OPERATORS: ReadonlySet<unknown> = new Set([Plus, Star, Slash, SpacedMinus, Equals, Arrow, Times, Minus]);

/** Is a minus here a sign? Where nothing stands before it that it could be taken from. */
const isSign = (before: IToken): boolean =>
  before.tokenType === LParen || before.tokenType === Comma || OPERATORS.has(before.tokenType);

/** Is a blank written between two tokens of a line? `sign`: the first is a sign. */
function blankBetween(before: IToken, token: IToken, sign: boolean): boolean {
  if (before.tokenType === LParen || before.tokenType === Dot || before.tokenType === Minus || sign) return false;
  if (token.tokenType === RParen || token.tokenType === Comma || token.tokenType === Dot) return false;
  return !(token.tokenType === LParen && before.tokenType === FunctionName);
}

/** A line laid out: its own lines, the later ones to be indented; comments inside a list stand where they stood. */
function layLine(text: string): readonly string[] {
  const { tokens, trivia } = tokenize(text);
  const lines: string[] = [];
  let now = '';
  let before: IToken | null = null;
  let sign = false;
  let next = 0;
  for (const token of tokens) {
    // What stands between: line ends and comments, only ever behind a comma.
    let broken = false;
    for (let gap = trivia[next]; gap !== undefined && gap.startOffset < token.startOffset; gap = trivia[++next]) {
      if (gap.tokenType === Comment) {
        now = now === '' ? gap.image.trimEnd() : `${now}  ${gap.image.trimEnd()}`;
      } else if (gap.tokenType === Newline) {
        broken = true;
        if (now !== '') lines.push(now);
        now = '';
      }
    }
    if (broken && now !== '') {
      lines.push(now);
      now = '';
    }
    if (before !== null && now !== '' && blankBetween(before, token, sign)) now += ' ';
    now += token.image;
    sign = token.tokenType === SpacedMinus && before !== null && isSign(before);
    before = token;
  }
  return [...lines, now];
}

class Formatter {
  private readonly layout = new Layout();
  /** Where the statement stands whose spans are read. */
  private base = 0;
  /** The line that {@link column} has come to. */
  private lineStart = 0;

  constructor(
    private readonly text: string,
    private readonly tree: FileTree,
  ) {}

  run(): string {
    const { text, tree } = this;
    const start = text.charCodeAt(0) === 0xfeff ? 1 : 0;
    const broken = brokenStatements(tree);
    let at = start;
    for (const placed of tree.statements) {
      this.base = placed.offset;
      this.gap(at, placed.offset, '');
      if (broken.has(placed)) this.keep(placed);
      else this.entry(placed.tree.entry, '');
      at = placed.offset + placed.tree.text.length;
    }
    this.gap(at, text.length, '');
    const newline = mostlyCrLf(text) ? '\r\n' : '\n';
    const lines = this.layout.finish();
    return `${text.slice(0, start)}${lines.join('\n').replace(/\r?\n/g, newline)}${lines.length === 0 ? '' : newline}`;
  }

  /** Column of an offset; offsets are asked for in their order. */
  private column(offset: number): number {
    for (;;) {
      const newline = this.text.indexOf('\n', this.lineStart);
      if (newline < 0 || newline >= offset) return offset - this.lineStart;
      this.lineStart = newline + 1;
    }
  }

  /** A broken statement, as it stands: with the blanks before it where it is the first on its line. */
  private keep({ offset, tree }: PlacedStatement): void {
    let from = offset;
    while (from > 0 && ' \t'.includes(this.text.charAt(from - 1))) from--;
    const first = from === 0 || '\n\ufeff'.includes(this.text.charAt(from - 1));
    this.layout.line(`${first ? this.text.slice(from, offset) : ''}${tree.text}`);
  }

  /** What stands between two statements: comments and empty lines, and braces that belong to nothing. */
  private gap(from: number, to: number, indent: string): void {
    const source = this.text.slice(from, to);
    const { tokens, trivia } = tokenize(source);
    if (tokens.some((token) => token.tokenType !== Semicolon)) {
      for (const line of source.split('\n')) if (line.trim() !== '') this.layout.line(`${indent}${line.trim()}`);
      return;
    }
    const top = from === 0 || (from === 1 && this.text.charCodeAt(0) === 0xfeff);
    let newlines = top ? 1 : 0;
    for (const piece of trivia) {
      if (piece.tokenType === Newline) {
        newlines++;
        if (newlines > 1) this.layout.empty();
      } else if (piece.tokenType === Comment) {
        const comment = piece.image.trimEnd();
        if (newlines > 0) this.layout.line(`${indent}${comment}`);
        else this.layout.mark('comment', this.column(from + piece.startOffset), 2, comment);
        newlines = 0;
      }
    }
  }

  private head(entry: Entry): readonly string[] {
    const { start, end } = entry.line.span;
    return layLine(this.text.slice(this.base + start, this.base + end));
  }

  private entry(entry: Entry, indent: string): void {
    const [first = '', ...more] = this.head(entry);
    const equals = entry.line.target === null ? -1 : first.indexOf('=');
    if (equals > 0) {
      this.layout.line(`${indent}${first.slice(0, equals).trimEnd()}`);
      const at = this.text.indexOf('=', this.base + entry.line.span.start);
      this.layout.mark('equals', this.column(at), 1, first.slice(equals));
    } else this.layout.line(`${indent}${first}`);
    for (const line of more) this.layout.line(`${indent}${INDENT}${line}`);
    if (entry.block !== null) this.block(entry.block, indent);
  }

  private block(block: Block, indent: string): void {
    const { start, end } = block.span;
    const inside = this.text.slice(this.base + start + 1, this.base + end - 1);
    if (!inside.includes('\n')) {
      const inline = this.inline(block);
      if (this.layout.width() + 1 + inline.length <= WIDTH) {
        this.layout.mark('brace', this.column(this.base + start), 1, inline);
        return;
      }
    }
    this.layout.append(' {');
    this.layout.edge();
    let at = this.base + start + 1;
    for (const inner of block.entries) {
      this.gap(at, this.base + inner.span.start, indent + INDENT);
      this.entry(inner, indent + INDENT);
      at = this.base + inner.span.end;
    }
    this.gap(at, this.base + end - 1, indent + INDENT);
    this.layout.edge();
    this.layout.line(`${indent}}`);
  }

  /** `{ od 38; wall 2.5 }`. */
  private inline(block: Block): string {
    const inner = block.entries.map((entry) => {
      const head = this.head(entry).join(' ');
      return entry.block === null ? head : `${head} ${this.inline(entry.block)}`;
    });
    return inner.length === 0 ? '{ }' : `{ ${inner.join('; ')} }`;
  }
}

const mostlyCrLf = (text: string): boolean => {
  const all = text.split('\n').length - 1;
  return all > 0 && text.split('\r\n').length - 1 > all / 2;
};

/** Statements with a finding of the parser in them. */
function brokenStatements(tree: FileTree): ReadonlySet<PlacedStatement> {
  const broken = new Set<PlacedStatement>();
  let next = 0;
  for (const { at } of tree.findings) {
    if (at.kind !== 'place') continue;
    const { start, end } = at.place.span;
    // What is missing stands directly behind a statement's last token; a stray brace there is not its own.
    const isBehind = (placed: PlacedStatement): boolean => {
      const last = placed.offset + placed.tree.text.length;
      return last < start || (last === start && end > start);
    };
    let placed = tree.statements[next];
    while (placed !== undefined && isBehind(placed)) placed = tree.statements[++next];
    if (placed !== undefined && placed.offset <= start) broken.add(placed);
  }
  for (const placed of tree.statements) if (placed.tree.findings.length > 0) broken.add(placed);
  return broken;
}

/** What must not change: every token but `;`, every comment, and which lines and blocks there are. */
function substance(text: string): string {
  const { tokens, trivia } = tokenize(text);
  const shape: string[] = [];
  const walk = (entries: ReturnType<typeof cut>['entries']): void => {
    for (const entry of entries) {
      shape.push(entry.entries === null ? '.' : '{');
      if (entry.entries !== null) {
        walk(entry.entries);
        shape.push('}');
      }
    }
  };
  walk(cut(text).entries);
  const kept = tokens.filter((token) => token.tokenType !== Semicolon).map((token) => token.image);
  const comments = trivia.filter((piece) => piece.tokenType === Comment).map((piece) => piece.image.trimEnd());
  return [...kept, ...comments, shape.join('')].join('\u0000');
}

/**
 * Lays a text out, or the text of a tree. Never fails: what cannot be laid out without changing what it says is given back as it is.
 */
export function formatFile(source: string | FileTree): string {
  const tree = typeof source === 'string' ? parseFile('', source) : source;
  const laid = new Formatter(tree.text, tree).run();
  return substance(laid) === substance(tree.text) ? laid : tree.text;
}
