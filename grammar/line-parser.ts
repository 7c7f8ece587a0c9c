/**
 * The grammar of one line's arguments, as a chevrotain parser. Lines and blocks are cut by hand in
 * `lines.ts`; what is parsed here is never longer than a line, so a mistake never reaches the next one.
 * Recovery is off: a piece that is made up to go on would be a value that nobody wrote.
 */
import type { IToken } from 'chevrotain';
import {
  After,
  And,
  Arrow,
  At,
  Before,
  Between,
  Comma,
  Dot,
  Equals,
  From,
  In,
  isName,
  LoneX,
  LParen,
  Meets,
  Mid,
  NameToken,
  Near,
  Nearest,
  NumberToken,
  On,
  RParen,
  StringToken,
  stringValue,
  Times,
  Unit,
  Where,
} from './tokens';
import type { Arg, ArgGroup, Axis, Expr, PlaceForm, PlaneEq, Sized, StringLit } from './tree';
import { ValueParser } from './value-parser';
import { PHRASE_WORDS } from './words';

const isAxis = (text: string): text is Axis => text === 'x' || text === 'y' || text === 'z';

/** Half-built group: stays behind when the line fails, so that what was read before the mistake is known. */
interface OpenGroup {
  readonly args: Arg[];
  readonly start: number;
}

class LineParser extends ValueParser {
  groups: OpenGroup[] = [];
  /** Only a place or value may stand here: `on hoop` is then a place that is half typed, not two words of a phrase. */
  placeWanted = false;

  constructor() {
    super();
    this.performSelfAnalysis();
  }

  /** Index of the token behind a dotted name that begins this far ahead; 0: there is none. */
  private behindRef(ahead: number): number {
    let at = ahead;
    if (!isName(this.LA(at))) return 0;
    for (at++; this.is(at, Dot) && isName(this.LA(at + 1));) at += 2;
    return at;
  }

  private onForms(): boolean {
    const behind = this.is(1, On) ? this.behindRef(2) : 0;
    return behind > 0 && (this.placeWanted || this.is(behind, At, Mid, Where, Nearest));
  }

  private inForms(): boolean {
    const behind = this.is(1, In) ? this.behindRef(2) : 0;
    return behind > 0 && (this.placeWanted || this.is(behind, LParen));
  }

  private whereForms(): boolean {
    const behind = this.is(1, Where) ? this.behindRef(2) : 0;
    return behind > 0 && (this.placeWanted || this.is(behind, Meets));
  }

  private betweenForms(): boolean {
    return this.is(1, Between) && (isName(this.LA(2)) || this.is(2, LParen)) && !this.is(2, LoneX, And, At);
  }

  /** A word of a place form with a name behind it, and what makes it that form: else the word is a name like any other. */
  private formAhead(): boolean {
    return this.onForms() || this.inForms() || this.whereForms() || this.betweenForms();
  }

  /** `x` between measures: touching, or alone with a value behind it, or half typed behind a figure. */
  private timesAhead(): boolean {
    if (this.is(1, Times)) return true;
    if (!this.is(1, LoneX) || this.is(2, Equals, Dot)) return false;
    // `on x because`: a thing may be called x. (In `1 3/4 in x .095 in` the word before is a unit.)
    if (!this.is(0, Unit) && Object.hasOwn(PHRASE_WORDS, this.LA(0).image)) return false;
    return this.is(2, NumberToken, LParen) || isName(this.LA(2)) || this.is(0, NumberToken, Unit, RParen);
  }

  readonly args = this.RULE('args', (): void => {
    this.ACTION(() => this.groups.push({ args: [], start: this.start(this.LA(1)) }));
    this.MANY(() => this.SUBRULE(this.arg));
    this.MANY2(() => {
      this.CONSUME(Comma);
      this.ACTION(() => this.groups.push({ args: [], start: this.start(this.LA(1)) }));
      this.AT_LEAST_ONE(() => this.SUBRULE2(this.arg));
    });
  });

  /** The value of `node X =` and `let X =`. */
  readonly value = this.RULE('value', (): void => {
    this.ACTION(() => this.groups.push({ args: [], start: this.start(this.LA(1)) }));
    const value = this.SUBRULE(this.place);
    this.ACTION(() => this.groups[0]?.args.push(value));
  });

  private readonly arg = this.RULE('arg', (): void => {
    const arg = this.OR<Arg>([
      { ALT: () => this.SUBRULE(this.text) },
      { ALT: () => this.SUBRULE(this.arrow) },
      {
        GATE: () => isAxis(this.LA(1).image) && this.is(2, Equals),
        ALT: () => this.SUBRULE(this.plane),
        IGNORE_AMBIGUITIES: true,
      },
      { GATE: () => this.formAhead(), ALT: () => this.SUBRULE(this.form), IGNORE_AMBIGUITIES: true },
      { ALT: () => this.SUBRULE(this.sized), IGNORE_AMBIGUITIES: true },
    ]);
    this.ACTION(() => this.groups[this.groups.length - 1]?.args.push(arg));
  });

  private readonly text = this.RULE('text', (): StringLit => {
    const token = this.CONSUME(StringToken);
    return this.ACTION(() => ({
      kind: 'string',
      value: stringValue(token.image),
      span: { start: this.start(token), end: this.after(token) },
    }));
  });

  private readonly arrow = this.RULE('arrow', (): Arg => {
    const token = this.CONSUME(Arrow);
    return this.ACTION(() => ({ kind: 'arrow', span: { start: this.start(token), end: this.after(token) } }));
  });

  private readonly plane = this.RULE('plane', (): PlaneEq => {
    const axis = this.CONSUME(NameToken);
    this.CONSUME(Equals);
    const value = this.SUBRULE(this.expr);
    return this.ACTION(() => ({
      kind: 'plane',
      axis: isAxis(axis.image) ? axis.image : 'x',
      axisSpan: { start: this.start(axis), end: this.after(axis) },
      value,
      span: { start: this.start(axis), end: value.span.end },
    }));
  });

  private readonly sized = this.RULE('sized', (): Expr | Sized => {
    const first = this.SUBRULE(this.expr);
    const parts: Expr[] = [];
    this.MANY({
      GATE: () => this.timesAhead(),
      DEF: () => {
        this.OR([{ ALT: () => this.CONSUME(Times) }, { ALT: () => this.CONSUME(LoneX) }]);
        const part = this.SUBRULE2(this.expr);
        this.ACTION(() => parts.push(part));
      },
    });
    return this.ACTION(() => {
      const end = parts[parts.length - 1]?.span.end;
      if (end === undefined) return first;
      return { kind: 'sized', parts: [first, ...parts], span: { start: first.span.start, end } };
    });
  });

  private readonly place = this.RULE('place', (): Expr | PlaceForm =>
    this.OR<Expr | PlaceForm>([
      { GATE: () => this.formAhead(), ALT: () => this.SUBRULE(this.form), IGNORE_AMBIGUITIES: true },
      { ALT: () => this.SUBRULE(this.expr), IGNORE_AMBIGUITIES: true },
    ]),
  );

  private readonly form = this.RULE('form', (): PlaceForm =>
    this.OR<PlaceForm>([
      { ALT: () => this.SUBRULE(this.onForm) },
      { ALT: () => this.SUBRULE(this.betweenForm) },
      { ALT: () => this.SUBRULE(this.inForm) },
      { ALT: () => this.SUBRULE(this.whereForm) },
    ]),
  );

  private readonly onForm = this.RULE('onForm', (): PlaceForm => {
    const on = this.CONSUME(On);
    const tube = this.SUBRULE(this.ref);
    const start = this.ACTION(() => this.start(on));
    return this.OR<PlaceForm>([
      {
        ALT: () => {
          this.CONSUME(At);
          const at = this.SUBRULE(this.expr);
          return this.OR2<PlaceForm>([
            {
              ALT: () => {
                this.CONSUME(From);
                const from = this.SUBRULE2(this.ref);
                return this.ACTION(() => ({ kind: 'on-at', tube, at, from, span: { start, end: from.span.end } }));
              },
            },
            {
              ALT: () => {
                const side = this.OR3([
                  { ALT: () => (this.CONSUME(Before), 'before' as const) },
                  { ALT: () => (this.CONSUME(After), 'after' as const) },
                ]);
                const corner = this.SUBRULE3(this.ref);
                return this.ACTION(() => ({
                  kind: 'on-bend',
                  tube,
                  at,
                  side,
                  corner,
                  span: { start, end: corner.span.end },
                }));
              },
            },
            {
              ALT: () =>
                this.ACTION(() => ({ kind: 'on-at', tube, at, from: null, span: { start, end: at.span.end } })),
            },
          ]);
        },
      },
      {
        ALT: () => {
          this.CONSUME(Mid);
          const corner = this.SUBRULE4(this.ref);
          return this.ACTION(() => ({ kind: 'on-mid', tube, corner, span: { start, end: corner.span.end } }));
        },
      },
      {
        ALT: () => {
          this.CONSUME(Where);
          const plane = this.SUBRULE(this.plane);
          const near = this.OPTION(() => {
            this.CONSUME(Near);
            return this.SUBRULE(this.place);
          });
          return this.ACTION(() => ({
            kind: 'on-where',
            tube,
            plane,
            near: near ?? null,
            span: { start, end: (near ?? plane).span.end },
          }));
        },
      },
      {
        ALT: () => {
          this.CONSUME(Nearest);
          const to = this.SUBRULE2(this.place);
          return this.ACTION(() => ({ kind: 'on-nearest', tube, to, span: { start, end: to.span.end } }));
        },
      },
    ]);
  });

  private readonly betweenForm = this.RULE('betweenForm', (): PlaceForm => {
    const between = this.CONSUME(Between);
    const a = this.SUBRULE(this.place);
    this.CONSUME(And);
    const b = this.SUBRULE2(this.place);
    this.CONSUME(At);
    const at = this.SUBRULE(this.expr);
    return this.ACTION(() => ({ kind: 'between', a, b, at, span: { start: this.start(between), end: at.span.end } }));
  });

  private readonly inForm = this.RULE('inForm', (): PlaceForm => {
    const word = this.CONSUME(In);
    const plane = this.SUBRULE(this.ref);
    const pair = this.SUBRULE(this.tuple);
    return this.ACTION(() => ({
      kind: 'in-plane',
      plane,
      pair,
      span: { start: this.start(word), end: pair.span.end },
    }));
  });

  private readonly whereForm = this.RULE('whereForm', (): PlaceForm => {
    const word = this.CONSUME(Where);
    const a = this.SUBRULE(this.ref);
    this.CONSUME(Meets);
    const b = this.SUBRULE2(this.ref);
    return this.ACTION(() => ({ kind: 'meets', a, b, span: { start: this.start(word), end: b.span.end } }));
  });
}

/** Constructed once: it holds nothing between two lines. */
const parser = new LineParser();

/** Where a line went wrong: the token that does not fit (null: the line ends too early), and what is wanted there. */
export interface Misfit {
  readonly token: IToken | null;
  readonly wanted: string;
}

/**
 * Parses what stands behind a line's first word (`args`) or behind `node X =` (`value`). Spans are token offsets plus
 * `base`. On a mistake the groups hold what was read before it.
 */
export function parseTokens(
  tokens: readonly IToken[],
  rule: 'args' | 'value',
  base: number,
): { groups: ArgGroup[]; misfit: Misfit | null } {
  parser.input = [...tokens];
  parser.base = base;
  parser.groups = [];
  parser.placeWanted = rule === 'value';
  if (rule === 'args') parser.args();
  else parser.value();
  const error = parser.errors[0];
  const last = tokens[tokens.length - 1];
  const end = base + (last?.endOffset ?? -1) + 1;
  const groups = parser.groups.map(({ args, start }): ArgGroup => {
    // Behind the last comma there is no token whose place could be told.
    const from = args[0]?.span.start ?? (Number.isNaN(start) ? end : start);
    return { args, span: { start: from, end: args[args.length - 1]?.span.end ?? from } };
  });
  parser.groups = [];
  parser.input = [];
  if (error === undefined) return { groups, misfit: null };
  const { token } = error;
  return {
    groups,
    misfit: { token: Number.isFinite(token.startOffset) && token.image !== '' ? token : null, wanted: error.message },
  };
}
