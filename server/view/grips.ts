/**
 * What a hand can move of a node: each plain number that alone says how far along a direction the node is, and for the
 * rest what it hangs on. A number behind a `let` counts while nothing else uses that `let`.
 */
import type { Place, Span } from '../../grammar/finding';
import { unitsOf } from '../../grammar/file-units';
import type { Arg, Expr, FileTree, Ref, Tuple } from '../../grammar/tree';
import { DIRECTIONS } from '../../grammar/words';
import type { Cage, Node, Origin } from '../cage/cage';
import { buildPath } from '../centreline/build';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, dot, mirrorY, norm, scale, sub, unit } from '../centreline/vector';
import { absolute, writtenSide } from '../fixes/edit';
import type { Literal } from '../fixes/solve/literals';
import { meaningOf, worthOf } from '../fixes/solve/literals';
import type { Centreline } from '../centreline/centreline';

export type Axis = 'x' | 'y' | 'z';
export const AXES: readonly Axis[] = ['x', 'y', 'z'];

/** A number that a hand moves. */
export interface Grip {
  /** The axis of the car along which it is dragged; null: along the tube that the node is on, or the line between two nodes. */
  readonly axis: Axis | null;
  /** How the node goes when the number grows by a millimetre; a share, by what that is of its tube. */
  readonly way: Vec3;
  /** What one of the number's own unit is, mm. */
  readonly worth: number;
  /** Its word in the text: `x`, `up`, `out`; empty for a distance along a tube. */
  readonly word: string;
  readonly literal: Literal;
  /** Of a distance along a tube, or between two nodes. */
  readonly line: Centreline | null;
}

export interface Held {
  readonly grips: readonly Grip[];
  /** What the rest hangs on, a sentence; null: nothing. */
  readonly hangs: string | null;
}

/** What is asked of the analysis. */
export interface Written {
  readonly trees: ReadonlyMap<string, FileTree>;
  readonly cage: Cage;
}

/** Where something is written, for a person: `line 12`. */
export type SayPlace = (place: Place) => string;

/** A number, or why there is none. */
type Found = { readonly literal: Literal } | { readonly why: string };

/** A `let` of a `let` of a `let`: deeper than this nobody reads. */
const DEEPEST = 20;
/** Nearer to the centre plane than this a thing has no outside, mm. */
const CENTRE = 1e-6;
/** Farther than this from where its number says that it is, a node is not there for that number, mm. */
const OFF = 1e-6;

export class GripReader {
  private readonly used = new Map<string, number>();

  constructor(
    private readonly written: Written,
    private readonly say: SayPlace,
  ) {
    for (const { target, definition } of written.cage.uses)
      if (!definition && target.startsWith('let:')) this.used.set(target, (this.used.get(target) ?? 0) + 1);
  }

  /** The grips of a node. One that has none says what it hangs on. */
  of(node: Node): Held {
    const place = node.origin.entry.line.ok ? node.origin.entry.line.groups[0]?.args[0] : undefined;
    if (place === undefined || node.at === null) return { grips: [], hangs: 'where it is cannot be read' };
    const { grips, hangs } = this.read(node, place);
    if (!node.twin) return { grips, hangs };
    return { grips: grips.map((grip) => ({ ...grip, way: mirrorY(grip.way), line: grip.line })), hangs };
  }

  private text(origin: Origin, span: Span): string {
    const { start, end } = absolute(origin, span);
    return (this.written.trees.get(origin.file)?.text.slice(start, end) ?? '').replace(/\s+/g, ' ');
  }

  private read(node: Node, place: Arg): Held {
    const { origin } = node;
    const said = this.text(origin, place.span);
    switch (place.kind) {
      case 'tuple':
        return this.tuple(node, place, { base: null });
      case 'binary': {
        if (place.op !== '+' || place.right.kind !== 'tuple') return { grips: [], hangs: `it is worked out: ${said}` };
        const base = this.text(origin, place.left.span);
        // A sum of two triples has two numbers to each coordinate.
        return place.left.kind === 'ref'
          ? this.tuple(node, place.right, { base })
          : { grips: [], hangs: `it is worked out: ${said}` };
      }
      case 'in-plane':
        return place.pair.kind === 'tuple'
          ? this.inPlane(node, place.plane, place.pair)
          : { grips: [], hangs: 'where it is cannot be read' };
      case 'on-at':
      case 'on-bend':
        return this.along(node, place, said);
      case 'on-where':
        return this.where(node, place, said);
      case 'on-mid':
      case 'on-nearest':
        return { grips: [], hangs: `${said}: it moves with that tube` };
      case 'meets':
        return { grips: [], hangs: `${said}: it moves with those tubes` };
      case 'between':
        return this.between(node, place, said);
      case 'ref':
        return { grips: [], hangs: `it is the same place as ${said}, and moves with it` };
      default:
        return { grips: [], hangs: `it is worked out: ${said}` };
    }
  }

  /** `(x, y, z)` or `(aft 350, up 20)`; behind a `+` from another place. */
  private tuple(node: Node, tuple: Tuple, { base }: { readonly base: string | null }): Held {
    const held: { grips: Grip[]; why: string[]; free: Set<Axis> } = { grips: [], why: [], free: new Set() };
    for (const [i, item] of tuple.items.entries()) {
      const word = item.word?.text ?? null;
      const entry = word === null || !Object.hasOwn(DIRECTIONS, word) ? null : (DIRECTIONS[word] ?? null);
      const axis = word === null ? AXES[i] : entry?.axis;
      if (axis === undefined) continue;
      const sign = word === null ? 1 : (entry?.sign ?? this.outward(node, word, base));
      this.take(held, node.origin, item.value, axis, word ?? axis, sign === null ? null : unitAlong(axis, sign));
    }
    const missing = AXES.filter((axis) => !held.free.has(axis) && !held.why.some((why) => why.startsWith(axis)));
    const rest =
      base === null || missing.length === 0
        ? []
        : [`${missing.join(', ')} ${missing.length > 1 ? 'come' : 'comes'} from ${base}`];
    return { grips: held.grips, hangs: sentence([...held.why, ...rest]) };
  }

  /** In a plane: its two measures, along the plane's own axes. */
  private inPlane(node: Node, ref: Ref, pair: Tuple): Held {
    const name = ref.names[0]?.text ?? '';
    const plane = this.written.cage.planes.get(name);
    if (plane === undefined) return { grips: [], hangs: 'where it is cannot be read' };
    const held: { grips: Grip[]; why: string[]; free: Set<Axis> } = { grips: [], why: [], free: new Set() };
    const first: Axis = plane.runs === 'across' ? 'y' : 'x';
    for (const [i, item] of pair.items.entries()) {
      const word = item.word?.text ?? null;
      const entry = word === null || !Object.hasOwn(DIRECTIONS, word) ? null : (DIRECTIONS[word] ?? null);
      const axis = word === null ? (i === 0 ? first : 'z') : entry?.axis;
      if (axis === undefined) continue;
      const sign = word === null ? 1 : (entry?.sign ?? this.outward(node, word, null));
      const along = axis === 'z' ? plane.up : plane.first;
      this.take(
        held,
        node.origin,
        item.value,
        axis,
        word ?? (axis === 'z' ? 'up' : first),
        sign === null ? null : scale(along, sign),
      );
    }
    return { grips: held.grips, hangs: sentence([...held.why, `it stays in plane ${name}`]) };
  }

  private take(
    held: { readonly grips: Grip[]; readonly why: string[]; readonly free: Set<Axis> },
    origin: Origin,
    value: Expr,
    axis: Axis,
    word: string,
    way: Vec3 | null,
  ): void {
    const found = this.number(origin, value);
    if ('why' in found) held.why.push(`${axis} ${found.why}`);
    else if (way !== null && !held.free.has(axis)) {
      held.free.add(axis);
      held.grips.push({ axis, way, word, literal: found.literal, worth: worthOf(found.literal), line: null });
    }
  }

  /** A plain distance along a tube, from an end or from a bend. */
  private along(node: Node, place: Extract<Arg, { kind: 'on-at' | 'on-bend' }>, said: string): Held {
    const hangs = `${said}: it moves with that tube`;
    const line = this.lineOf(node);
    const isShare = place.kind === 'on-at' && place.from === null;
    const found = this.number(node.origin, place.at, isShare ? 'share' : 'length');
    if (line === null || node.at === null || 'why' in found) return { grips: [], hangs };
    const on = nearestOn(line, node.at);
    // The distance grows toward the tube's last end where it is told from its first, or behind a bend.
    const forward = isShare || (place.kind === 'on-bend' ? place.side === 'after' : this.fromFirst(node, place.from));
    if (forward === null) return { grips: [], hangs };
    // A tube that exists once runs the other way than its image does: what is before a bend there is behind it here.
    const turned =
      (isShare || place.kind === 'on-bend') && node.twin && node.on !== null && !/\.(left|right)$/.test(node.on.tube);
    const sign = forward !== turned ? 1 : -1;
    const way = scale(on.tangent, sign);
    const { literal } = found;
    return {
      grips: [
        {
          axis: null,
          way: node.twin ? mirrorY(way) : way,
          word: '',
          literal,
          worth: worthOf(literal) * (isShare ? line.length : 1),
          line,
        },
      ],
      hangs,
    };
  }

  /** `on TUBE where z = 700`: dragged along that axis, it slides along the tube. */
  private where(node: Node, place: Extract<Arg, { kind: 'on-where' }>, said: string): Held {
    const hangs = `${said}: it moves with that tube`;
    const line = this.lineOf(node);
    const { axis } = place.plane;
    const found = this.number(node.origin, place.plane.value);
    if (line === null || node.at === null) return { grips: [], hangs };
    if ('why' in found) return { grips: [], hangs: `${hangs}; ${axis} ${found.why}` };
    const { tangent } = nearestOn(line, node.at);
    const slope = dot(tangent, unitAlong(axis, 1));
    if (Math.abs(slope) < 1e-3) return { grips: [], hangs };
    const sign = node.twin && axis === 'y' ? -1 : 1;
    const way = scale(tangent, sign / slope);
    return {
      grips: [
        {
          axis,
          way: node.twin ? mirrorY(way) : way,
          word: axis,
          literal: found.literal,
          worth: worthOf(found.literal),
          line: null,
        },
      ],
      hangs,
    };
  }

  /** `between A and B at 40 %`, or at a distance from A: along the straight line between two nodes. */
  private between(node: Node, place: Extract<Arg, { kind: 'between' }>, said: string): Held {
    const hangs = `${said}: it moves with those places`;
    const [a, b] = [this.nodeMeant(node, place.a), this.nodeMeant(node, place.b)];
    const share = this.number(node.origin, place.at, 'share');
    const found = 'why' in share ? this.number(node.origin, place.at) : share;
    if (a === null || b === null || node.at === null || 'why' in found) return { grips: [], hangs };
    const line = buildPath([a, b], null).centreline;
    const { literal } = found;
    const isShare = literal.quantity === 'share';
    const along = literal.value * worthOf(literal) * (isShare ? (line?.length ?? 0) : 1);
    const way = unit(sub(b, a));
    // Set elsewhere for its side, it is not where its number says.
    if (line === null || norm(sub(addScaled(a, way, along), node.at)) > OFF) return { grips: [], hangs };
    const worth = worthOf(literal) * (isShare ? line.length : 1);
    return { grips: [{ axis: null, way: node.twin ? mirrorY(way) : way, word: '', literal, worth, line }], hangs };
  }

  /** Where a node stands that is told by its name alone. */
  private nodeMeant(node: Node, place: Extract<Arg, { kind: 'between' }>['a']): Vec3 | null {
    if (place.kind !== 'ref') return null;
    const [at] = this.meant(node, place).flatMap((name) => {
      const thing = this.written.cage.things.get(name);
      return thing?.kind === 'node' && thing.at !== null ? [thing.at] : [];
    });
    return at ?? null;
  }

  private lineOf(node: Node): Centreline | null {
    const tube = node.on === null ? undefined : this.written.cage.things.get(node.on.tube);
    return tube?.kind === 'tube' ? tube.centreline : null;
  }

  /** Whether a distance is told from the first end of the tube that the node is on; null: from neither. */
  private fromFirst(node: Node, from: Ref | null): boolean | null {
    const tube = node.on === null ? undefined : this.written.cage.things.get(node.on.tube);
    if (tube?.kind !== 'tube' || from === null) return null;
    const meant = this.meant(node, from);
    const [first, last] = [tube.path[0] ?? null, tube.path.at(-1) ?? null];
    if (first !== null && meant.includes(first)) return true;
    return last !== null && meant.includes(last) ? false : null;
  }

  /** Full names that a name in the statement of a node may stand for, on the side that this node is on. */
  private meant(node: Node, { names }: Ref): readonly string[] {
    const said = names.map(({ text }) => text).join('.');
    const written = writtenSide(node);
    const side = node.twin ? (written === 'left' ? 'right' : 'left') : written;
    return [said, ...(names.length > 1 || side === null ? [] : [`${said}.${side}`])].map((name) =>
      node.twin && names.length > 1 ? otherSide(name) : name,
    );
  }

  /** +1 where `out` is to the left, for the written one of twins. */
  private outward(node: Node, word: string, base: string | null): 1 | -1 | null {
    const side = writtenSide(node);
    const from = base === null ? null : this.written.cage.things.get(base);
    const y = side !== null ? (side === 'left' ? 1 : -1) : from?.kind === 'node' ? (from.at?.[1] ?? 0) : 0;
    if (Math.abs(y) < CENTRE) return null;
    return y > 0 === (word === 'out') ? 1 : -1;
  }

  /** The one number that a coordinate is. */
  private number(
    origin: Origin,
    expr: Expr,
    wanted: 'length' | 'share' = 'length',
    holder: Literal['holder'] | null = null,
    depth = 0,
  ): Found {
    const held = holder ?? { kind: 'node' as const, name: '', fact: '' };
    if (expr.kind === 'number' || (expr.kind === 'unary' && expr.value.kind === 'number')) {
      const digits = expr.kind === 'number' ? expr : expr.value;
      const tree = this.written.trees.get(origin.file);
      if (tree === undefined || digits.kind !== 'number') return { why: 'cannot be read' };
      const meaning = meaningOf(digits, wanted, unitsOf(tree));
      if (meaning?.quantity !== wanted) return { why: `is no ${wanted}` };
      const { start } = absolute(origin, expr.span);
      const end = absolute(origin, digits.span).start + digits.text.length;
      const text = tree.text.slice(start, end);
      const value = expr.kind === 'number' ? digits.value : -digits.value;
      return {
        literal: { file: origin.file, span: { start, end }, text, value, ...meaning, holder: held, signed: true },
      };
    }
    const [only, ...more] = expr.kind === 'tuple' ? expr.items : [];
    if (only !== undefined && more.length === 0 && only.word === null && depth < DEEPEST)
      return this.number(origin, only.value, wanted, holder, depth + 1);
    if (expr.kind === 'ref' && expr.names.length === 1) return this.let(expr, wanted, depth);
    return { why: `is worked out, ${this.text(origin, expr.span)}` };
  }

  private let(expr: Ref, wanted: 'length' | 'share', depth: number): Found {
    const name = expr.names[0]?.text ?? '';
    const entry = this.written.cage.lets.get(name);
    const value = entry?.origin.entry.line.groups[0]?.args[0];
    if (entry === undefined || value === undefined) return { why: 'cannot be read' };
    const { start, end } = absolute(entry.origin, entry.origin.entry.span);
    const from = `comes from let ${name} (${this.say({ file: entry.origin.file, span: { start, end } })})`;
    if ((this.used.get(`let:${name}`) ?? 0) !== 1 || depth > DEEPEST || !isExpr(value)) return { why: from };
    const found = this.number(entry.origin, value, wanted, { kind: 'let', name, fact: '' }, depth + 1);
    return 'why' in found ? { why: from } : found;
  }
}

const unitAlong = (axis: Axis, sign: number): Vec3 => [
  axis === 'x' ? sign : 0,
  axis === 'y' ? sign : 0,
  axis === 'z' ? sign : 0,
];

const otherSide = (name: string): string =>
  name.replace(/\.(left|right)$/, (_, side: string) => (side === 'left' ? '.right' : '.left'));

const sentence = (parts: readonly string[]): string | null => (parts.length === 0 ? null : parts.join('; '));

const isExpr = (arg: Arg): arg is Expr =>
  ['number', 'ref', 'tuple', 'call', 'unary', 'binary', 'missing'].includes(arg.kind);

/** How far along its number a grip has to go so that its node comes to `to`, mm. */
export function wayTo(grip: Grip, at: Vec3, to: Vec3): number {
  if (grip.line !== null) {
    const { station } = nearestOn(grip.line, to);
    const here = nearestOn(grip.line, at);
    return (station - here.station) * Math.sign(dot(here.tangent, grip.way));
  }
  const i = grip.axis === null ? 0 : AXES.indexOf(grip.axis);
  const share = grip.way[i] ?? 0;
  return Math.abs(share) < 1e-6 ? 0 : (sub(to, at)[i] ?? 0) / share;
}
