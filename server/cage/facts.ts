/**
 * The facts of each statement: read by the vocabulary, told where they are wrong, and every name in them given its
 * meaning. What they are worth is worked out by whoever needs it.
 */
import type { Finding } from '../../grammar/finding';
import type { Limit } from '../../grammar/pattern';
import type { Capture, Match } from '../../grammar/shape-check';
import type { Arg, Expr, PlaceForm } from '../../grammar/tree';
import type { Dimension } from '../../grammar/units';
import { ANGLE, DENSITY, LENGTH, PLAIN, sameDimension } from '../../grammar/units';
import type { NameSpace } from '../../grammar/vocabulary';
import type { Reading } from './evaluate';
import { asFigure, FARTHEST, namesIn, tell, worth, wrong } from './evaluate';
import type { Census, Definition, Scope, Written } from './names';
import { isDefinition } from './names';
import { isForm, namesInPlace } from './places';
import { as, dimensionName, failed } from './quantity';
import type { Resolver, Target, Wanted } from './resolve';

const ALL = [
  ...['node', 'tube', 'foot', 'seat', 'strap', 'collar'],
  ...['gusset', 'fitting', 'door', 'panel', 'seat-mount', 'anchor'],
];
const thing = (kinds: readonly string[], what: string, pieces = false): Wanted => ({
  space: 'thing',
  kinds,
  what,
  pieces,
});

/** What a name of each space of the vocabulary may point at; books and codes are no names of the car. */
const WANTED: Readonly<Record<NameSpace, Wanted | null>> = {
  node: thing(['node'], 'a node'),
  tube: thing(['tube'], 'a tube'),
  foot: thing(['foot'], 'a foot'),
  host: thing(['tube', 'foot'], 'a tube or a foot', true),
  seat: thing(['seat'], 'a seat'),
  strap: thing(['strap'], 'a strap'),
  collar: thing(['collar'], 'a collar'),
  any: thing(ALL, 'a thing of the car', true),
  plane: { space: 'plane', kinds: ['plane'], what: 'a plane', pieces: false },
  material: { space: 'material', kinds: ['material'], what: 'a material', pieces: false },
  section: { space: 'section', kinds: ['section'], what: 'a section', pieces: false },
  die: { space: 'die', kinds: ['die'], what: 'a die', pieces: false },
  book: null,
  code: null,
};

/** Kinds in which a piece of a split tube may be named. */
const NAMES_PIECES: ReadonlySet<string> = new Set(['joint', 'vent']);
const TUBE_OR_PIECE = thing(['tube'], 'a tube', true);

/** A captured value where a value of that name is wanted. */
export type Bound = Capture;

export class FactReader {
  /** True where a statement of which there is to be one a file stands in it twice. */
  repeats = false;

  constructor(
    census: Census,
    private readonly root: string,
    private readonly resolver: Resolver,
  ) {
    const once = new Set<string>();
    for (const written of census.written) {
      this.bind(written);
      if (written.read.kind?.once === true && this.counts(written)) this.onlyOnce(written, once);
    }
  }

  private counts({ read, scope }: Written): boolean {
    return read.kind?.judgedOnly !== true || scope.file === this.root;
  }

  private onlyOnce({ scope, entry, kind }: Written, once: Set<string>): void {
    const key = `${scope.file} ${kind}`;
    if (once.has(key)) {
      this.repeats = true;
      this.resolver.tell('fact.twice', scope, entry.line.word.span, { name: kind });
    }
    once.add(key);
  }

  /** Looks at a statement's words and names: passes on what is wrong with them, and gives every name its meaning. */
  bind(written: Written): void {
    const { read, scope } = written;
    this.resolver.begin(written);
    if (isDefinition(written)) this.resolver.use(written.nameSpan, written, true, written.side);
    if (!this.counts(written)) return;
    // What is inside mirror passes its own on.
    const inner = new Set(read.inner.flatMap(({ findings }) => findings));
    for (const finding of read.findings) if (!inner.has(finding)) this.pass(finding, scope);
    if (read.kind === null) return;
    const needs: Target[] = [];
    const path: Target[] = [];
    if (read.head !== null) this.namesOf(read.head, written, '', needs, path);
    for (const [name, { match, fact }] of read.facts)
      if (match !== null && !fact.many) this.namesOf(match, written, name, needs, path);
    for (const { match, fact } of read.many) if (match !== null) this.namesOf(match, written, fact.name, needs, path);
    if (needs.length > 0) written.needs = needs;
    if (path.length > 0) written.pathNeeds = path;
    for (const { definition } of needs) {
      if (definition.users[definition.users.length - 1] !== written) definition.users.push(written);
    }
  }

  /** Passes a finding of the vocabulary on. */
  private pass(finding: Finding, scope: Scope): void {
    if (finding.at.kind !== 'place') return;
    const notes = finding.notes.flatMap(({ at, message }) =>
      at?.kind === 'place' ? [{ scope, span: at.place.span, message }] : [],
    );
    this.resolver.tell(finding.code, scope, finding.at.place.span, finding.params, notes);
  }

  private namesOf(match: Match, written: Written, name: string, needs: Target[], path: Target[]): void {
    const { scope } = written;
    for (const { slot, arg, word } of match.captures) {
      if (slot.type === 'ref') {
        if (slot.space === 'book' && arg.kind === 'ref') this.resolver.book(arg, scope);
        const pieces = slot.space === 'tube' && NAMES_PIECES.has(written.kind);
        const wanted = slot.space === null ? null : pieces ? TUBE_OR_PIECE : WANTED[slot.space];
        if (wanted === null || arg.kind !== 'ref') continue;
        const target = this.resolver.named(arg, wanted, scope, written.kind === 'waive');
        if (target === null) continue;
        needs.push(target);
        if (written.kind === 'tube' && (name === 'path' || name === 'die')) path.push(target);
      } else if (arg.kind === 'plane') namesIn(arg.value, false, scope, this.resolver, needs);
      else if (isForm(arg)) namesInPlace(arg, scope, this.resolver, needs);
      else if (isValue(arg) && word === null) namesIn(arg, slot.type === 'place', scope, this.resolver, needs);
    }
  }

  /** A fact by its name, '' for the head; null where it is not written or not to be read. */
  fact(written: Written, name: string): Match | null {
    const { read } = written;
    return (name === '' ? read.head : read.facts.get(name)?.match) ?? null;
  }

  /** The first value of that name in a fact. */
  one(written: Written, fact: string, slot: string): Bound | null {
    const match = this.fact(written, fact);
    if (match !== null) for (const capture of match.captures) if (capture.slot.name === slot) return capture;
    return null;
  }

  /** All values of that name in a fact. */
  all(written: Written, fact: string, slot: string): readonly Bound[] {
    return (this.fact(written, fact)?.captures ?? []).filter((capture) => capture.slot.name === slot);
  }

  /** True where a fact is written, be it well or badly. */
  isWritten(written: Written, name: string): boolean {
    return written.read.facts.has(name);
  }

  /** What a vertex of the graph hangs on. */
  hangsOn(definition: Definition): readonly Target[] {
    return definition.kind === 'tube' ? definition.pathNeeds : definition.needs;
  }

  /** The target that a fact names, in the sides of the text. */
  target(written: Written, fact: string, slot: string): Target | null {
    const arg = this.one(written, fact, slot)?.arg;
    return arg?.kind === 'ref' ? (written.scope.meanings.get(arg) ?? null) : null;
  }

  letValue(definition: Definition): Expr | null {
    const arg = this.one(definition, '', 'value')?.arg;
    return arg !== undefined && isValue(arg) ? arg : null;
  }

  nodePlace(definition: Definition): Expr | PlaceForm | null {
    const arg = this.one(definition, '', 'at')?.arg;
    return arg !== undefined && (isForm(arg) || isValue(arg)) ? arg : null;
  }

  /** The nodes of a tube's path, in the sides of the text. */
  pathOf(definition: Definition): readonly (Target | null)[] {
    return this.all(definition, 'path', 'path').map(({ arg }) =>
      arg.kind === 'ref' ? (definition.scope.meanings.get(arg) ?? null) : null,
    );
  }

  /** The die of a tube; `unknown` where one is written but cannot be had. */
  dieOf(definition: Definition): Definition | 'unknown' | null {
    if (!this.isWritten(definition, 'die')) return null;
    return this.target(definition, 'die', 'die')?.definition ?? 'unknown';
  }
}

/** True for an expression; false for place forms, texts, lists of measures, planes and arrows. */
export const isValue = (arg: Arg): arg is Expr =>
  arg.kind !== 'string' && arg.kind !== 'arrow' && arg.kind !== 'sized' && arg.kind !== 'plane' && !isForm(arg);

/** Figures of the model are rounded to this: what has to be more than 0 must not be told as 0. */
const FINEST = 1e-6;

/** A density is always finer than that: kg/mm³. */
function isBelow(value: number, { op, value: limit }: Limit, dimension: Dimension): boolean {
  if (op === '>=') return value < limit;
  return sameDimension(dimension, DENSITY) ? value <= limit : value < limit + FINEST;
}

/**
 * What a value is worth, inside, in the dimension that its fact wants; null where it is not, which is told.
 * `zero`: a 0 that is out of range is told by the caller.
 */
export function quantityOf(bound: Bound, dimension: Dimension, reading: Reading, zero = false): number | null {
  const { arg, slot } = bound;
  if (!isValue(arg)) return null;
  if (arg.kind === 'number' && arg.unit?.text === 'in' && sameDimension(dimension, ANGLE)) {
    const mend = `${arg.text} deg`;
    return tell(reading, arg.span, { kind: 'fault', code: 'unit.inch-after-angle', params: { mend } });
  }
  const value = worth(arg, reading);
  const figure = value === null ? null : asFigure(value, arg.span, reading, dimensionName(dimension));
  if (figure === null) return null;
  const result = as(figure, dimension);
  if (failed(result)) return tell(reading, arg.span, result);
  const { limit } = slot;
  if (limit !== null && isBelow(result, limit, dimension) && !(zero && result === limit.value)) {
    const wanted = `${slot.name} is ${limit.op === '>' ? 'more than' : 'at least'} ${String(limit.value)}`;
    return outOfRange(result, wanted, bound, dimension, reading);
  }
  if (sameDimension(dimension, LENGTH) && Math.abs(result) > FARTHEST) {
    return outOfRange(result, `${slot.name} is at most 10 km`, bound, dimension, reading);
  }
  return result;
}

/** A share of a whole, written in %: 0.004 for `0.4 %`; null, and told, where it is none. */
export function shareOf(expr: Expr, fact: string, reading: Reading): number | null {
  const value = worth(expr, reading);
  const q = value === null ? null : asFigure(value, expr.span, reading, 'a share in %');
  if (q === null) return null;
  const share = as(q, PLAIN);
  if (failed(share) || !q.share) return wrong(reading, expr.span, 'fact.value', { fact, wanted: 'a share in %' });
  if (share > 0 && share <= 1) return share;
  const params = {
    value: `${String(Number((share * 100).toFixed(3)))} %`,
    wanted: 'a share is more than 0, up to 100 %',
  };
  return wrong(reading, expr.span, 'number.range', params);
}

function outOfRange(value: number, wanted: string, { arg }: Bound, d: Dimension, reading: Reading): null {
  const unit = sameDimension(d, LENGTH) ? 'mm' : sameDimension(d, ANGLE) ? 'deg' : null;
  const shown = unit === null ? value : ({ value: unit === 'deg' ? (value * 180) / Math.PI : value, unit } as const);
  return tell(reading, arg.span, { kind: 'fault', code: 'number.range', params: { value: shown, wanted } });
}
