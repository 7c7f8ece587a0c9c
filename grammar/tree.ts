/**
 * The tree of one file: statements, facts, values. All spans inside a {@link Statement} are relative to the
 * statement's own first character, so that a tree can be cached by the statement's text; {@link PlacedStatement}
 * adds where it stands. A hole in the text is an explicit `missing` node, never a 0 and never an absence.
 */
import type { Finding, Span } from './finding';

export interface Name {
  /** After NFC. */
  readonly text: string;
  readonly span: Span;
}

/** `foot.left`, `harness-bar`, `P.x`: a name with what follows its dots. */
export interface Ref {
  readonly kind: 'ref';
  readonly names: readonly Name[];
  readonly span: Span;
}

export interface NumberLit {
  readonly kind: 'number';
  /** The digits' worth, without unit. */
  readonly value: number;
  /** As written: `1 3/4`. */
  readonly text: string;
  readonly unit: { readonly text: string; readonly span: Span } | null;
  readonly span: Span;
}

export interface StringLit {
  readonly kind: 'string';
  readonly value: string;
  readonly span: Span;
}

export interface Missing {
  readonly kind: 'missing';
  readonly span: Span;
}

/** One element of a tuple; `word` is a direction (`aft 350`) or null. */
export interface TupleItem {
  readonly word: Name | null;
  readonly value: Expr;
  readonly span: Span;
}

export interface Tuple {
  readonly kind: 'tuple';
  readonly items: readonly TupleItem[];
  readonly span: Span;
}

export interface Call {
  readonly kind: 'call';
  readonly name: Name;
  readonly args: Tuple;
  readonly span: Span;
}

export interface Unary {
  readonly kind: 'unary';
  readonly op: '-';
  readonly opSpan: Span;
  readonly value: Expr;
  readonly span: Span;
}

export interface Binary {
  readonly kind: 'binary';
  readonly op: '+' | '-' | '*' | '/';
  readonly opSpan: Span;
  readonly left: Expr;
  readonly right: Expr;
  readonly span: Span;
}

export type Expr = NumberLit | Ref | Tuple | Call | Unary | Binary | Missing;

export type Axis = 'x' | 'y' | 'z';

/** `y = 480`. */
export interface PlaneEq {
  readonly kind: 'plane';
  readonly axis: Axis;
  readonly axisSpan: Span;
  readonly value: Expr;
  readonly span: Span;
}

/** The place forms that begin with a word of their own. An absolute or offset place is an ordinary Expr. */
export type PlaceForm =
  | {
      readonly kind: 'between';
      readonly a: Expr | PlaceForm;
      readonly b: Expr | PlaceForm;
      readonly at: Expr;
      readonly span: Span;
    }
  | { readonly kind: 'in-plane'; readonly plane: Ref; readonly pair: Tuple | Missing; readonly span: Span }
  /** `on TUBE at 420 from NODE`; `from` null with a share (`at 35 %`). */
  | { readonly kind: 'on-at'; readonly tube: Ref; readonly at: Expr; readonly from: Ref | null; readonly span: Span }
  | {
      readonly kind: 'on-bend';
      readonly tube: Ref;
      readonly at: Expr;
      readonly side: 'before' | 'after';
      readonly corner: Ref;
      readonly span: Span;
    }
  | { readonly kind: 'on-mid'; readonly tube: Ref; readonly corner: Ref; readonly span: Span }
  | {
      readonly kind: 'on-where';
      readonly tube: Ref;
      readonly plane: PlaneEq;
      readonly near: Expr | PlaceForm | null;
      readonly span: Span;
    }
  | { readonly kind: 'on-nearest'; readonly tube: Ref; readonly to: Expr | PlaceForm; readonly span: Span }
  | { readonly kind: 'meets'; readonly a: Ref; readonly b: Ref; readonly span: Span };

/** Things multiplied by the touching or lone `x`: `45 x 2.5`, `140 x 100 x 3`, `3 x M8`. A lone place is a list of one without `sized`. */
export interface Sized {
  readonly kind: 'sized';
  readonly parts: readonly Expr[];
  readonly span: Span;
}

/**
 * One argument of a line. Words of a phrase (`square`, `aft`, `wrap over`) come as refs of one name.
 * `arrow` is the `->` of a vent's head.
 */
export type Arg = Expr | PlaceForm | PlaneEq | StringLit | Sized | { readonly kind: 'arrow'; readonly span: Span };

/** Arguments between two commas. */
export interface ArgGroup {
  readonly args: readonly Arg[];
  readonly span: Span;
}

/**
 * A line: its first word and what follows. `node X = …` and `let X = …` carry the name in `target` and the value as the
 * only argument. `ok` is false when the line did not parse: no name, unit or fact finding is made inside it, and its
 * values count as missing.
 */
export interface Line {
  readonly word: Name;
  readonly target: Name | null;
  readonly groups: readonly ArgGroup[];
  readonly ok: boolean;
  readonly span: Span;
}

/** A line with its block, if it has one. Facts are lines without blocks; the statements in a `mirror` are lines with blocks. */
export interface Entry {
  readonly line: Line;
  readonly block: Block | null;
  readonly span: Span;
}

export interface Block {
  readonly entries: readonly Entry[];
  /** From `{` to `}` (or to where the text ran out). */
  readonly span: Span;
  readonly closed: boolean;
}

/** A top-level statement with the findings of its own text (anchors hold relative spans, file ''). */
export interface Statement {
  readonly entry: Entry;
  readonly findings: readonly Finding[];
  /** The exact text, from the statement's first character to its last. */
  readonly text: string;
}

export interface PlacedStatement {
  readonly offset: number;
  readonly tree: Statement;
}

/** One file, parsed. */
export interface FileTree {
  readonly file: string;
  readonly text: string;
  readonly statements: readonly PlacedStatement[];
  /** Syntax findings of the file, anchored to absolute places; those of the statements included. */
  readonly findings: readonly Finding[];
}
