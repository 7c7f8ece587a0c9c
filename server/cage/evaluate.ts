/** What an expression is worth: a figure or a place. Faults are reported where they arise; what hangs on them is null. */
import type { Code } from '../../grammar/codes';
import type { Params, Span } from '../../grammar/finding';
import type { Expr, Ref, Tuple } from '../../grammar/tree';
import { DIRECTIONS, FUNCTIONS } from '../../grammar/words';
import { LENGTH, PLAIN } from '../../grammar/units';
import type { Dimension } from '../../grammar/units';
import type { Vec3 } from '../centreline/vector';
import { add, angleBetween, distance, scale, sub } from '../centreline/vector';
import type { Side } from './cage';
import type { Definition, Scope, Written } from './names';
import { meant, nearestWord } from '../../grammar/nearest';
import type { Fault, Figure, Quantity } from './quantity';
import { angleOf, applied, as, dimensionName, failed, lengthOf, literal, negated, over, plus, times } from './quantity';
import type { Reporter, ToldNote, World } from './reporter';
import type { Resolver } from './resolve';
import type { Target } from './resolve';

/** A place as the worth of an expression. */
export interface Spot {
  readonly kind: 'spot';
  readonly at: Vec3;
}

export type Value = Quantity | Spot;

/** What is worked out already: the values that names stand for. */
export interface Known {
  letValue(definition: Definition, world: World): Value | null;
  nodeAt(definition: Definition, side: Side | null, world: World): Vec3 | null;
}

/** Where an expression is read, and for whom. */
export interface Reading {
  /** The statement that is read. */
  readonly owner: Written;
  readonly scope: Scope;
  readonly world: World;
  /** Full name of what it is read for. */
  readonly subject: string;
  readonly known: Known;
  readonly reporter: Reporter;
}

/** Coordinates beyond this are no car, mm. Keeps every square and product far from overflow. */
export const FARTHEST = 1e7;

/** A start from which `out` and `in` are told; `unknown` where it could not be computed, null: none, the origin. */
export type Start = Vec3 | 'unknown' | null;

const spot = (at: Vec3): Spot => ({ kind: 'spot', at });

/** Reports at a span of the reading's statement. */
export function tell(reading: Reading, span: Span, fault: Fault, notes: readonly ToldNote[] = []): null {
  reading.reporter.ofValues(reading.owner, fault.code, reading.scope, span, fault.params, {
    subject: reading.subject,
    notes,
    world: reading.world,
  });
  return null;
}

/** Reports a code at a span of the reading's statement. */
export const wrong = (reading: Reading, span: Span, code: Code, params: Params): null =>
  tell(reading, span, { kind: 'fault', code, params });

const figure = (reading: Reading, span: Span, result: Figure): Quantity | null =>
  failed(result) ? tell(reading, span, result) : result;

/** One step of a chain `a + b - c`, from the left. */
interface Link {
  readonly op: '+' | '-' | '*' | '/';
  readonly opSpan: Span;
  readonly right: Expr;
}

/** A chain of operators, unrolled: its left spine may be as long as the line. */
function unroll(expr: Expr): { readonly first: Expr; readonly links: readonly Link[] } {
  const links: Link[] = [];
  let first = expr;
  while (first.kind === 'binary') {
    links.push({ op: first.op, opSpan: first.opSpan, right: first.right });
    first = first.left;
  }
  return { first, links: links.reverse() };
}

const additive = (op: string | undefined): boolean => op === undefined || op === '+' || op === '-';

/** True for `(3 + 4)`, a tuple that only groups. */
const isGroup = (tuple: Tuple): boolean => tuple.items.length === 1 && tuple.items[0]?.word === null;

/** Finds the meaning of every name in an expression, and gives those on which it hangs. `place`: a place is wanted. */
export function namesIn(expr: Expr, place: boolean, scope: Scope, resolver: Resolver, out: Target[]): void {
  const { first, links } = unroll(expr);
  operandNames(first, place && additive(links[0]?.op), scope, resolver, out);
  for (const [i, link] of links.entries()) {
    const wantsPlace = place && additive(link.op) && additive(links[i + 1]?.op);
    if (link.right.kind === 'binary') namesIn(link.right, wantsPlace, scope, resolver, out);
    else operandNames(link.right, wantsPlace, scope, resolver, out);
  }
}

function operandNames(expr: Expr, place: boolean, scope: Scope, resolver: Resolver, out: Target[]): void {
  switch (expr.kind) {
    case 'ref': {
      const target = resolver.inExpression(expr, place, scope);
      if (target !== null) out.push(target);
      return;
    }
    case 'tuple': {
      const group = isGroup(expr);
      for (const item of expr.items) namesIn(item.value, group && place, scope, resolver, out);
      return;
    }
    case 'call': {
      const places = Object.hasOwn(FUNCTIONS, expr.name.text) && FUNCTIONS[expr.name.text]?.of === 'places';
      for (const item of expr.args.items) namesIn(item.value, places, scope, resolver, out);
      return;
    }
    case 'unary':
      namesIn(expr.value, place, scope, resolver, out);
      return;
    case 'binary':
      namesIn(expr, place, scope, resolver, out);
      return;
    case 'number':
    case 'missing':
  }
}

/** The worth of an expression whose names have been found ({@link namesIn}). */
export function worth(expr: Expr, reading: Reading): Value | null {
  const { first, links } = unroll(expr);
  let value = operand(first, reading, null);
  for (const link of links) {
    const start: Start = value === null ? 'unknown' : value.kind === 'spot' ? value.at : null;
    const right = operand(link.right, reading, start);
    value = value === null || right === null ? null : combine(value, right, link, reading);
  }
  return value;
}

function combine(a: Value, b: Value, link: Link, reading: Reading): Value | null {
  if (a.kind === 'quantity' && b.kind === 'quantity') {
    const result = link.op === '*' ? times(a, b) : link.op === '/' ? over(a, b) : plus(a, b, link.op === '+' ? 1 : -1);
    return figure(reading, link.opSpan, result);
  }
  if (a.kind === 'spot' && b.kind === 'spot' && additive(link.op)) {
    return spot(link.op === '+' ? add(a.at, b.at) : sub(a.at, b.at));
  }
  const offset = a.kind === 'spot' && additive(link.op);
  const found = offset && b.kind === 'quantity' ? dimensionName(b.dimension) : 'a place';
  const wanted = offset ? 'an offset such as (up 20)' : 'a figure';
  return tell(reading, link.opSpan, { kind: 'fault', code: 'unit.dimension', params: { found, wanted, hint: '' } });
}

function operand(expr: Expr, reading: Reading, start: Start): Value | null {
  switch (expr.kind) {
    case 'number': {
      const value = /\/0+$/.test(expr.text) ? Number.NaN : expr.value;
      const result = literal(value, expr.unit?.text ?? null, reading.scope.units);
      if (result === null) return null;
      return figure(reading, expr.span, result);
    }
    case 'ref':
      return named(expr, reading);
    case 'tuple': {
      const only = expr.items[0];
      if (only !== undefined && isGroup(expr)) return worth(only.value, reading);
      const at = triple(expr, reading, start);
      return at === null ? null : spot(at);
    }
    case 'call':
      return called(expr, reading);
    case 'unary': {
      const value = operand(expr.value, reading, start);
      if (value === null) return null;
      return value.kind === 'spot' ? spot(scale(value.at, -1)) : figure(reading, expr.opSpan, negated(value));
    }
    case 'binary':
      return worth(expr, reading);
    case 'missing':
      return null;
  }
}

function named(ref: Ref, reading: Reading): Value | null {
  const target = reading.scope.meanings.get(ref);
  if (target === undefined || target === null) return null;
  if (target.definition.kind === 'let') return reading.known.letValue(target.definition, reading.world);
  const at = reading.known.nodeAt(target.definition, target.side, reading.world);
  if (at === null) return null;
  if (target.axis === null) return spot(at);
  return figure(reading, ref.span, lengthOf(at[target.axis === 'x' ? 0 : target.axis === 'y' ? 1 : 2]));
}

function called(call: Extract<Expr, { kind: 'call' }>, reading: Reading): Value | null {
  const name = call.name.text;
  const entry = Object.hasOwn(FUNCTIONS, name) ? FUNCTIONS[name] : undefined;
  if (entry === undefined) return null;
  const items = call.args.items;
  const few = items.length < entry.takes.length;
  const many = items.length > entry.takes.length && !entry.more;
  const worded = items.find((item) => item.word !== null);
  if (few || many || worded !== undefined) {
    const span = worded?.span ?? call.span;
    const of = entry.takes.length === 1 ? entry.of.slice(0, -1) : entry.of;
    const wanted = `${entry.takes.length} ${of}${entry.more ? ' or more' : ''}: ${name}(${entry.takes.join(', ')})`;
    return tell(reading, span, { kind: 'fault', code: 'fact.value', params: { fact: name, wanted } });
  }
  const values = items.map(({ value }) => ({ span: value.span, value: worth(value, reading) }));
  return entry.of === 'places'
    ? ofPlaces(call.name.span, values, reading)
    : ofFigures(name, call.name.span, values, reading);
}

interface Argument {
  readonly span: Span;
  readonly value: Value | null;
}

function ofFigures(name: string, span: Span, values: readonly Argument[], reading: Reading): Quantity | null {
  const figures: Quantity[] = [];
  for (const { span: at, value } of values) {
    const one = value === null ? null : asFigure(value, at, reading);
    if (one !== null) figures.push(one);
  }
  if (figures.length < values.length) return null;
  const result = applied(name, figures);
  return result === null ? null : figure(reading, span, result);
}

function ofPlaces(span: Span, values: readonly Argument[], reading: Reading): Quantity | null {
  const places: Vec3[] = [];
  for (const { span: at, value } of values) {
    const one = value === null ? null : asSpot(value, at, reading);
    if (one !== null) places.push(one);
  }
  const [a, b, c] = places;
  if (places.length < values.length || a === undefined || b === undefined) return null;
  if (c === undefined) return figure(reading, span, lengthOf(distance(a, b)));
  if (distance(a, b) === 0 || distance(b, c) === 0) {
    const why = 'two of the places are the same point, and there is no line between them';
    return tell(reading, span, { kind: 'fault', code: 'number.arithmetic', params: { why } });
  }
  return figure(reading, span, angleOf(angleBetween(sub(a, b), sub(c, b))));
}

/** A value where a figure is wanted. */
export function asFigure(value: Value, span: Span, reading: Reading, wanted = 'a figure'): Quantity | null {
  if (value.kind === 'quantity') return value;
  const hint = '; write .x, .y or .z after a node for one of its coordinates';
  return tell(reading, span, { kind: 'fault', code: 'unit.dimension', params: { found: 'a place', wanted, hint } });
}

/** A value where a place is wanted. */
export function asSpot(value: Value, span: Span, reading: Reading): Vec3 | null {
  if (value.kind === 'spot') return within(value.at, span, reading);
  const params = { found: dimensionName(value.dimension), wanted: 'a place', hint: '' };
  return tell(reading, span, { kind: 'fault', code: 'unit.dimension', params });
}

/** A place that a car can have. */
export function within(at: Vec3, span: Span, reading: Reading): Vec3 | null {
  const worst = at.find((c) => !(Math.abs(c) <= FARTHEST));
  if (worst === undefined) return at;
  const params = { value: { value: worst, unit: 'mm' as const }, wanted: 'a coordinate is at most 10 km' };
  return tell(reading, span, { kind: 'fault', code: 'number.range', params });
}

/** The worth of an expression as a figure of one dimension, inside; null where it is not. */
export function measure(expr: Expr, dimension: Dimension, reading: Reading): number | null {
  const value = worth(expr, reading);
  if (value === null) return null;
  const q = asFigure(value, expr.span, reading, dimensionName(dimension));
  if (q === null) return null;
  const result = as(q, dimension);
  return failed(result) ? tell(reading, expr.span, result) : result;
}

/** +1 to the left, -1 to the right. */
export const sideSign = (side: Side): 1 | -1 => (side === 'left' ? 1 : -1);

/** Which way `out` is: by the block's side, else by where it starts; null on the centreline. */
export function outward(reading: Reading, start: Start): 1 | -1 | null {
  if (reading.scope.side !== null) return sideSign(reading.scope.side);
  const y = start === null || start === 'unknown' ? 0 : start[1];
  return y > CENTRE ? 1 : y < -CENTRE ? -1 : null;
}

/** Nearer to the centreline than this is on it, mm. */
export const CENTRE = 1e-6;

const TRIPLE = 'three coordinates such as (x, y, z), or direction words such as (aft 350, up 20)';

/** `(x, y, z)` or `(aft 350, down 20)`, mm. `start` is where it starts from, for `out` and `in`. */
export function triple(tuple: Tuple, reading: Reading, start: Start): Vec3 | null {
  const bare = tuple.items.filter((item) => item.word === null).length;
  if ((bare > 0 && bare < tuple.items.length) || (bare > 0 && bare !== 3)) {
    return tell(reading, tuple.span, {
      kind: 'fault',
      code: 'fact.value',
      params: { fact: '(…)', wanted: TRIPLE },
    });
  }
  if (bare === 3) {
    const [x, y, z] = tuple.items.map((item) => measure(item.value, LENGTH, reading));
    if (x === undefined || y === undefined || z === undefined || x === null || y === null || z === null) return null;
    return within([x, y, z], tuple.span, reading);
  }
  const at = directed(tuple, ['x', 'y', 'z'], reading, start);
  return at === null ? null : within([at.x, at.y, at.z], tuple.span, reading);
}

/** The sum of what direction words say, along axes that may be gone along; null where something is wrong. */
export function directed(
  tuple: Tuple,
  axes: readonly ('x' | 'y' | 'z')[],
  reading: Reading,
  start: Start,
): Record<'x' | 'y' | 'z', number> | null {
  const sum = { x: 0, y: 0, z: 0 };
  const said = new Map<string, string>();
  let sound = true;
  const wrong = (span: Span, fault: Omit<Fault, 'kind'>): void => {
    tell(reading, span, { kind: 'fault', ...fault });
    sound = false;
  };
  for (const { word, value } of tuple.items) {
    const length = measure(value, LENGTH, reading);
    if (length === null || word === null) {
      sound = false;
      continue;
    }
    const entry = Object.hasOwn(DIRECTIONS, word.text) ? DIRECTIONS[word.text] : undefined;
    if (entry === undefined) {
      const nearest = nearestWord(word.text, Object.keys(DIRECTIONS));
      wrong(word.span, {
        code: 'name.unknown',
        params: { what: 'Direction', name: word.text, hint: meant(nearest), nearest },
      });
      continue;
    }
    if (!axes.includes(entry.axis)) {
      const wanted = axes.includes('x')
        ? 'forward, aft, up or down: the plane runs along the car'
        : 'left, right, out, in, up or down: the plane runs across the car';
      wrong(word.span, { code: 'fact.value', params: { fact: word.text, wanted } });
      continue;
    }
    const before = said.get(entry.axis);
    if (before !== undefined) {
      wrong(word.span, {
        code: 'fact.value',
        params: { fact: word.text, wanted: `one word for that direction, and ${before} stands there already` },
      });
      continue;
    }
    said.set(entry.axis, word.text);
    const sign = entry.sign ?? inOrOut(word.text, outward(reading, start));
    if (sign !== null) sum[entry.axis] += sign * length;
    else if (start === 'unknown') sound = false;
    else wrong(word.span, { code: 'place.on-centre', params: { word: word.text } });
  }
  return sound ? sum : null;
}

const inOrOut = (word: string, out: 1 | -1 | null): 1 | -1 | null =>
  out === null ? null : word === 'in' ? (out === 1 ? -1 : 1) : out;

/** A share (0.4 for `40 %`) or a length in mm, as `at` takes them; a ratio without digits of its own is a share. */
export function shareOrLength(
  expr: Expr,
  reading: Reading,
): { readonly kind: 'share' | 'length'; readonly value: number } | null {
  const value = worth(expr, reading);
  const q = value === null ? null : asFigure(value, expr.span, reading, 'a length or a share');
  if (q === null) return null;
  const share = as(q, PLAIN);
  if (!failed(share) && (q.share || q.bare === null)) {
    if (share >= 0 && share <= 1) return { kind: 'share', value: share };
    const params = { value: `${String(Number((share * 100).toFixed(3)))} %`, wanted: 'a share is 0 to 100 %' };
    return wrong(reading, expr.span, 'number.range', params);
  }
  const length = as(q, LENGTH);
  return failed(length) ? tell(reading, expr.span, length) : { kind: 'length', value: length };
}
