/**
 * The grammar of values: sums, numbers with units, calls, dotted names, tuples. The base of the parser of a line.
 */
import { EmbeddedActionsParser, type IToken, type TokenType } from 'chevrotain';
import {
  Comma,
  Dot,
  endOf,
  FunctionName,
  isName,
  LParen,
  Minus,
  NameToken,
  nfc,
  NumberToken,
  numberValue,
  Plus,
  RParen,
  Slash,
  SpacedMinus,
  Star,
  TOKEN_TYPES,
  Unit,
} from './tokens';
import type { Expr, Name, NumberLit, Ref, Tuple, TupleItem } from './tree';

/** What is wanted where a rule finds nothing that it could begin with. */
const LABELS: Readonly<Record<string, string>> = {
  primary: 'a value',
  arg: 'a value',
  place: 'a place',
  term: 'a value',
  unary: 'a value',
  onForm: "'at', 'mid', 'where' or 'nearest'",
};

/** Subclasses add the rules of a line and then call `performSelfAnalysis`. */
export abstract class ValueParser extends EmbeddedActionsParser {
  /** What a token's offset is added to. */
  base = 0;

  constructor() {
    super(TOKEN_TYPES, {
      recoveryEnabled: false,
      maxLookahead: 2,
      errorMessageProvider: {
        buildMismatchTokenMessage: ({ expected }) => expected.LABEL ?? expected.name,
        buildNoViableAltMessage: ({ ruleName }) => LABELS[ruleName] ?? 'a value',
        buildNotAllInputParsedMessage: () => '',
        buildEarlyExitMessage: ({ ruleName }) => LABELS[ruleName] ?? 'a value',
      },
    });
  }

  protected after(token: IToken): number {
    return this.base + endOf(token);
  }

  protected start(token: IToken): number {
    return this.base + token.startOffset;
  }

  protected is(ahead: number, ...types: readonly TokenType[]): boolean {
    return types.includes(this.LA(ahead).tokenType);
  }

  /** Could a value begin at the token this far ahead? */
  protected beginsValue(ahead: number): boolean {
    return this.is(ahead, NumberToken, LParen, Minus, SpacedMinus) || isName(this.LA(ahead));
  }

  protected readonly expr = this.RULE('expr', (): Expr => {
    let left = this.SUBRULE(this.term);
    this.MANY(() => {
      const op = this.OR([{ ALT: () => this.CONSUME(Plus) }, { ALT: () => this.CONSUME(SpacedMinus) }]);
      const right = this.SUBRULE2(this.term);
      left = this.ACTION(() => this.binary(op, left, right));
    });
    return left;
  });

  protected readonly term = this.RULE('term', (): Expr => {
    let left = this.SUBRULE(this.unary);
    this.MANY(() => {
      const op = this.OR([{ ALT: () => this.CONSUME(Star) }, { ALT: () => this.CONSUME(Slash) }]);
      const right = this.SUBRULE2(this.unary);
      left = this.ACTION(() => this.binary(op, left, right));
    });
    return left;
  });

  protected binary(op: IToken, left: Expr, right: Expr): Expr {
    const { image } = op;
    return {
      kind: 'binary',
      op: image === '+' || image === '*' || image === '/' ? image : '-',
      opSpan: { start: this.start(op), end: this.after(op) },
      left,
      right,
      span: { start: left.span.start, end: right.span.end },
    };
  }

  protected readonly unary = this.RULE('unary', (): Expr =>
    this.OR<Expr>([
      {
        ALT: () => {
          const op = this.OR2([{ ALT: () => this.CONSUME(Minus) }, { ALT: () => this.CONSUME(SpacedMinus) }]);
          const value = this.SUBRULE(this.unary);
          return this.ACTION(() => ({
            kind: 'unary',
            op: '-',
            opSpan: { start: this.start(op), end: this.after(op) },
            value,
            span: { start: this.start(op), end: value.span.end },
          }));
        },
      },
      { ALT: () => this.SUBRULE(this.primary) },
    ]),
  );

  protected readonly primary = this.RULE('primary', (): Expr =>
    this.OR<Expr>([
      { ALT: () => this.SUBRULE(this.number) },
      {
        GATE: () => this.is(1, FunctionName),
        ALT: () => {
          const name = this.CONSUME(FunctionName);
          const args = this.SUBRULE(this.tuple);
          return this.ACTION(() => ({
            kind: 'call',
            name: this.name(name),
            args,
            span: { start: this.start(name), end: args.span.end },
          }));
        },
        IGNORE_AMBIGUITIES: true,
      },
      { ALT: () => this.SUBRULE(this.ref), IGNORE_AMBIGUITIES: true },
      { ALT: () => this.SUBRULE2(this.tuple) },
    ]),
  );

  protected readonly number = this.RULE('number', (): NumberLit => {
    const token = this.CONSUME(NumberToken);
    const unit = this.OPTION(() => this.CONSUME(Unit));
    return this.ACTION(() => ({
      kind: 'number',
      value: numberValue(token.image),
      text: token.image,
      unit: unit === undefined ? null : { text: unit.image, span: { start: this.start(unit), end: this.after(unit) } },
      span: { start: this.start(token), end: this.after(unit ?? token) },
    }));
  });

  protected name(token: IToken): Name {
    return { text: nfc(token.image), span: { start: this.start(token), end: this.after(token) } };
  }

  protected readonly ref = this.RULE('ref', (): Ref => {
    const names: Name[] = [];
    const first = this.CONSUME(NameToken);
    this.ACTION(() => names.push(this.name(first)));
    this.MANY(() => {
      this.CONSUME(Dot);
      const next = this.CONSUME2(NameToken);
      this.ACTION(() => names.push(this.name(next)));
    });
    return this.ACTION(() => ({
      kind: 'ref',
      names,
      span: { start: this.start(first), end: names[names.length - 1]?.span.end ?? this.after(first) },
    }));
  });

  protected readonly tuple = this.RULE('tuple', (): Tuple => {
    const items: TupleItem[] = [];
    const left = this.CONSUME(LParen);
    const first = this.SUBRULE(this.item);
    this.ACTION(() => items.push(first));
    this.MANY(() => {
      this.CONSUME(Comma);
      const next = this.SUBRULE2(this.item);
      this.ACTION(() => items.push(next));
    });
    const right = this.CONSUME(RParen);
    return this.ACTION(() => ({ kind: 'tuple', items, span: { start: this.start(left), end: this.after(right) } }));
  });

  protected readonly item = this.RULE('item', (): TupleItem => {
    const word = this.OPTION({
      // A word with a value behind it; a minus with blanks on both sides is an operator.
      GATE: () => isName(this.LA(1)) && !this.is(1, FunctionName) && this.beginsValue(2) && !this.is(2, SpacedMinus),
      DEF: () => this.CONSUME(NameToken),
    });
    const value = this.SUBRULE(this.expr);
    return this.ACTION(() => ({
      word: word === undefined ? null : this.name(word),
      value,
      span: { start: word === undefined ? value.span.start : this.start(word), end: value.span.end },
    }));
  });
}
