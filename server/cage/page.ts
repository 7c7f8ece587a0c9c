/**
 * One statement, read for one side: its facts as lengths, angles, names and places of the car itself. The twin's page
 * is read in the car's image and turned back.
 */
import type { Code } from '../../grammar/codes';
import type { Params, Span } from '../../grammar/finding';
import type { Arg, Expr, PlaceForm } from '../../grammar/tree';
import type { Angle, Dimension, Length } from '../../grammar/units';
import { ANGLE, degrees, LENGTH, PLAIN } from '../../grammar/units';
import type { Vec3 } from '../centreline/vector';
import { mirrorY } from '../centreline/vector';
import type { Side } from './cage';
import type { Start } from './evaluate';
import { directed, measure, outward, sideSign, tell, triple } from './evaluate';
import type { Bound, FactReader } from './facts';
import type { Match } from '../../grammar/shape-check';
import { isValue, quantityOf, shareOf } from './facts';
import type { Written } from './names';
import { nameOn, otherSide } from './names';
import type { PlaceReading } from './places';
import { isForm, placed } from './places';
import type { Solver } from './solve';
import type { Target } from './resolve';
import type { Reporter, ToldNote } from './reporter';

/** `y = 480`. */
export interface PlaneAt {
  readonly axis: 'x' | 'y' | 'z';
  readonly value: Length;
}

export class Page {
  readonly reading: PlaceReading;

  constructor(
    private readonly facts: FactReader,
    solver: Solver,
    reporter: Reporter,
    private readonly written: Written,
    subject: string,
    /** True for the twin of what is written. */
    readonly twin: boolean,
  ) {
    this.reading = {
      owner: written,
      scope: written.scope,
      world: twin ? 'image' : 'real',
      subject,
      known: solver,
      reporter,
    };
  }

  fact(name: string): Match | null {
    return this.facts.fact(this.written, name);
  }

  /** Reports about a statement's own text. */
  tell(span: Span, code: Code, params: Params, notes: readonly ToldNote[] = []): null {
    return tell(this.reading, span, { kind: 'fault', code, params }, notes);
  }

  /** Reports about a value. */
  tellAt(bound: Bound | null, code: Code, params: Params): null {
    return bound === null ? null : this.tell(bound.arg.span, code, params);
  }

  /** The value of that name in a fact; '' is the head. */
  bound(fact: string, slot = fact): Bound | null {
    return this.facts.one(this.written, fact, slot);
  }

  all(fact: string, slot: string): readonly Bound[] {
    return this.facts.all(this.written, fact, slot);
  }

  /** True where a fact is written, but cannot be read. */
  broken(name: string): boolean {
    return this.facts.isWritten(this.written, name) && this.fact(name) === null;
  }

  /** True where a fact is written, be it well or badly. */
  isWritten(name: string): boolean {
    return this.facts.isWritten(this.written, name);
  }

  /** True where a word stands in a fact. */
  has(fact: string, word: string): boolean {
    return this.fact(fact)?.words.has(word) ?? false;
  }

  /** A figure of a fact, inside (mm, rad, kg, MPa…); null where it is missing or wrong. `zero`: the caller tells of a 0. */
  figure(fact: string, slot: string, dimension: Dimension, zero = false): number | null {
    const bound = this.bound(fact, slot);
    return bound === null ? null : quantityOf(bound, dimension, this.reading, zero);
  }

  length(fact: string, slot = fact, zero = false): Length | null {
    return this.figure(fact, slot, LENGTH, zero) as Length | null;
  }

  /** An angle, less than `below` degrees either way. */
  angle(fact: string, slot: string, below: number): Angle | null {
    const bound = this.bound(fact, slot);
    return bound === null ? null : this.angleOf(bound, below);
  }

  angleOf(bound: Bound, below: number): Angle | null {
    const angle = quantityOf(bound, ANGLE, this.reading);
    if (angle === null) return null;
    if (Math.abs(degrees(angle)) < below) return angle as Angle;
    const value = { value: degrees(angle), unit: 'deg' as const };
    return this.tell(bound.arg.span, 'number.range', {
      value,
      wanted: `an angle of less than ${String(below)} degrees`,
    });
  }

  /** A whole number. */
  count(fact: string, slot: string): number | null {
    const bound = this.bound(fact, slot);
    const value = bound === null ? null : quantityOf(bound, PLAIN, this.reading);
    if (value === null || bound === null || Number.isInteger(value)) return value;
    return this.tell(bound.arg.span, 'number.range', { value, wanted: 'a whole number' });
  }

  word(fact: string, slot: string): string | null {
    return this.bound(fact, slot)?.word ?? null;
  }

  /** A plain number. */
  plain(fact: string, slot: string): number | null {
    return this.figure(fact, slot, PLAIN);
  }

  /** `yes` or `no`; null: not written, or it cannot be read. */
  flag(fact: string): boolean | null {
    const said = this.bound(fact, this.fact(fact)?.captures[0]?.slot.name ?? fact)?.word ?? null;
    return said === null ? null : said === 'yes';
  }

  /** A share of a whole, 0.004 for `0.4 %`. A bare number is none. */
  share(fact: string, slot = fact): number | null {
    const bound = this.bound(fact, slot);
    if (bound === null || !isValue(bound.arg)) return null;
    return shareOf(bound.arg, fact, this.reading);
  }

  /** The text of a fact. */
  text(fact: string, slot = fact): string | null {
    const arg = this.bound(fact, slot)?.arg;
    return arg?.kind === 'string' ? arg.value : null;
  }

  /** The name that a fact points at, in the car itself. */
  name(fact: string, slot: string): string | null {
    const bound = this.bound(fact, slot);
    return bound === null ? null : this.nameOf(bound);
  }

  names(fact: string, slot: string): readonly (string | null)[] {
    return this.all(fact, slot).map((bound) => this.nameOf(bound));
  }

  nameOf(bound: Bound): string | null {
    const target = this.target(bound);
    return target === null ? null : this.full(target);
  }

  target(bound: Bound): Target | null {
    return bound.arg.kind === 'ref' ? (this.reading.scope.meanings.get(bound.arg) ?? null) : null;
  }

  private full({ definition, side, piece }: Target): string {
    const name = nameOn(definition, this.here(side));
    return piece === null ? name : `${name}.${piece}`;
  }

  /** A side of the text, in the car itself. */
  here(side: Side): Side;
  here(side: Side | null): Side | null;
  here(side: Side | null): Side | null {
    return side === null || !this.twin ? side : otherSide(side);
  }

  /** A place, in the car itself. */
  place(fact: string, slot = fact): Vec3 | null {
    const bound = this.bound(fact, slot);
    if (bound === null || !isPlace(bound.arg)) return null;
    const there = placed(bound.arg, this.reading);
    return there === null ? null : this.back(there.at);
  }

  /** All places of a list, in the car itself; null where none is written or one of them cannot be had. */
  places(fact: string, slot = fact): readonly Vec3[] | null {
    const all = this.all(fact, slot).map(({ arg }) => (isPlace(arg) ? placed(arg, this.reading) : null));
    const there = all.flatMap((one) => (one === null ? [] : [this.back(one.at)]));
    return all.length === 0 || there.length < all.length ? null : there;
  }

  /**
   * A pair in a level plate: bare figures are (forward, left), else directions. `start`: the plate, for `out` and `in`.
   * In the car itself.
   */
  pair(fact: string, bound: Bound, start: Vec3 | null): { readonly forward: Length; readonly left: Length } | null {
    const { arg } = bound;
    if (arg.kind !== 'tuple') return null;
    const bare = arg.items.filter(({ word }) => word === null);
    const sign = this.twin ? -1 : 1;
    if (bare.length > 0) {
      if (bare.length !== 2 || arg.items.length !== 2) return this.tell(arg.span, 'fact.value', { fact, wanted: PAIR });
      const [forward, left] = arg.items.map((item) => measure(item.value, LENGTH, this.reading));
      if (forward === undefined || left === undefined || forward === null || left === null) return null;
      return { forward: forward as Length, left: (sign * left + 0) as Length };
    }
    const from: Start = start === null ? 'unknown' : this.back(start);
    const at = directed(arg, ['x', 'y'], this.reading, from);
    return at === null ? null : { forward: at.x as Length, left: (sign * at.y + 0) as Length };
  }

  /** A triple that is an offset, in the car itself. `start` is the place that it starts from, in the car itself. */
  offset(fact: string, start: Vec3 | null, slot = fact): Vec3 | null {
    const arg = this.bound(fact, slot)?.arg;
    if (arg?.kind !== 'tuple') return null;
    const from: Start = start === null ? 'unknown' : this.back(start);
    const move = triple(arg, this.reading, from);
    return move === null ? null : this.back(move);
  }

  private back(at: Vec3): Vec3 {
    return this.twin ? mirrorY(at) : at;
  }

  /** `at y = 480`, in the car itself. */
  plane(fact: string): PlaneAt | null {
    const arg = this.bound(fact, fact)?.arg;
    if (arg?.kind !== 'plane') return null;
    const value = measure(arg.value, LENGTH, this.reading);
    if (value === null) return null;
    return { axis: arg.axis, value: (this.twin && arg.axis === 'y' ? 0 - value : value) as Length };
  }

  /** Positive to the left: a word that says to which side, by what `start` (in the car itself) it starts from. Null: told. */
  leftward(word: string, start: Vec3 | null, span: Span): 1 | -1 | null {
    if (word === 'left' || word === 'right') return sideSign(this.here(word));
    const out = outward(this.reading, start === null ? 'unknown' : this.back(start));
    if (out === null) return start === null ? null : this.tell(span, 'place.on-centre', { word });
    const sign = word === 'out' ? out : out === 1 ? -1 : 1;
    return this.twin ? (sign === 1 ? -1 : 1) : sign;
  }
}

const PAIR = 'two figures such as (50, 30), forward and left, or directions such as (forward 50, out 30)';

const isPlace = (arg: Arg): arg is Expr | PlaceForm => isForm(arg) || isValue(arg);
