/**
 * Where numbers stand in a place or a fact: a slot is one figure of it (a height, a distance along a tube, the length of
 * a plate) with the numbers that govern it, followed through `let` to the digits that were written.
 */
import type { Arg, Expr, PlaceForm, Tuple } from '../../../grammar/tree';
import { unitsOf } from '../../../grammar/file-units';
import type { Origin } from '../../cage/cage';
import type { Analysis } from '../../project/project';
import type { Holder, Literal, Quantity } from './literals';
import { meaningOf, worthOf } from './literals';

export interface Slot {
  /** Slots with the same axis can share a value: `z`, `before crown on main-hoop`, `plate.0`. */
  readonly axis: string;
  /** Words before its value in a title: `z = `, `aft `; and behind it: ` before crown`. */
  readonly before: string;
  readonly after: string;
  readonly literals: readonly Literal[];
  /** The value in mm or rad; null where more than numbers stand in it. */
  readonly total: number | null;
  /** The number by which the whole value is moved, and which way: 1 where both grow together; null: none does so simply. */
  readonly lead: { readonly literal: Literal; readonly sense: 1 | -1 } | null;
}

/** What a place hangs on besides its own numbers, by base names. */
export interface Hangs {
  /** Nodes with which it moves as one. */
  readonly rigid: string[];
  readonly nodes: string[];
  readonly tubes: string[];
  readonly planes: string[];
}

export interface PlaceRead extends Hangs {
  readonly slots: Slot[];
}

/** Where an expression stands. */
interface Where {
  readonly origin: Origin;
  readonly holder: Holder;
}

/** A `let` of a `let` of a `let`: deeper than this nobody reads. */
const DEEPEST = 20;
/** A number below this beside `*` or `/` is taken for a factor. */
const FACTOR = 10;
const AXES = ['x', 'y', 'z'] as const;

type Found = Pick<Slot, 'total' | 'lead'> & { readonly literals: Literal[] };

const other = (sense: 1 | -1): 1 | -1 => (sense === 1 ? -1 : 1);
const turned = (lead: Slot['lead']): Slot['lead'] => (lead === null ? null : { ...lead, sense: other(lead.sense) });

export class SlotReader {
  constructor(private readonly analysis: Pick<Analysis, 'trees' | 'cage'>) {}

  private unitOf(file: string): string {
    const tree = this.analysis.trees.get(file);
    return tree === undefined ? 'mm' : unitsOf(tree);
  }

  /** The numbers of a sum. `into` takes the nodes that stand in it (`P.z`). */
  private scalar(expr: Expr, wanted: Quantity, where: Where, into: Hangs, signed = false, depth = 0): Found {
    const none: Found = { literals: [], total: null, lead: null };
    if (depth > DEEPEST) return none;
    switch (expr.kind) {
      case 'number':
        return this.number(expr, wanted, where, null, signed);
      case 'unary': {
        if (signed && expr.value.kind === 'number') return this.negative(expr.value, expr.span.start, wanted, where);
        const inner = this.scalar(expr.value, wanted, where, into, false, depth + 1);
        return { ...inner, total: inner.total === null ? null : -inner.total, lead: turned(inner.lead) };
      }
      case 'binary': {
        const left = this.scalar(expr.left, wanted, where, into, false, depth + 1);
        const right = this.scalar(expr.right, wanted, where, into, false, depth + 1);
        const sum = expr.op === '+' || expr.op === '-';
        // A factor is a shape, no measure: only what is multiplied by it may change.
        const kept = (found: Found): Literal[] =>
          sum ? found.literals : found.literals.filter(({ holder, value }) => holder.kind === 'let' && value >= FACTOR);
        const literals = [...kept(left), ...kept(right)];
        if (!sum || left.total === null || right.total === null) return { literals, total: null, lead: null };
        const minus = expr.op === '-';
        const total = minus ? left.total - right.total : left.total + right.total;
        return { literals, total, lead: left.lead ?? (minus ? turned(right.lead) : right.lead) };
      }
      case 'tuple': {
        const only = expr.items[0];
        if (only === undefined || expr.items.length !== 1) return none;
        return this.scalar(only.value, wanted, where, into, false, depth + 1);
      }
      case 'ref': {
        const name = expr.names[0]?.text ?? '';
        if (expr.names.length > 1) {
          into.nodes.push(name);
          return none;
        }
        const origin = this.analysis.cage.lets.get(name)?.origin;
        const value = origin?.entry.line.groups[0]?.args[0];
        if (origin === undefined || value === undefined || !isExpr(value)) return none;
        const held: Where = { origin, holder: { kind: 'let', name, fact: '' } };
        return this.scalar(value, wanted, held, into, signed, depth + 1);
      }
      case 'call':
      case 'missing':
        return none;
    }
  }

  private number(
    expr: Extract<Expr, { kind: 'number' }>,
    wanted: Quantity,
    { origin, holder }: Where,
    listUnit: string | null,
    signed: boolean,
  ): Found {
    const meaning = meaningOf(expr, wanted, this.unitOf(origin.file), listUnit);
    if (meaning === null) return { literals: [], total: null, lead: null };
    const start = origin.statement.offset + expr.span.start;
    const literal: Literal = {
      file: origin.file,
      span: { start, end: start + expr.text.length },
      text: expr.text,
      value: expr.value,
      ...meaning,
      holder,
      signed,
    };
    return { literals: [literal], total: expr.value * worthOf(literal), lead: { literal, sense: 1 } };
  }

  /** `-190` as the whole of a coordinate: the sign belongs to the number, which may come to lose it. */
  private negative(expr: Extract<Expr, { kind: 'number' }>, start: number, wanted: Quantity, where: Where): Found {
    const found = this.number(expr, wanted, where, null, true);
    const [positive] = found.literals;
    if (positive === undefined || found.total === null) return found;
    const from = where.origin.statement.offset + start;
    const source = this.analysis.trees.get(positive.file)?.text ?? '';
    const span = { start: from, end: positive.span.end };
    const text = source.slice(from, span.end);
    const literal: Literal = { ...positive, span, text, value: -positive.value };
    return { literals: [literal], total: -found.total, lead: { literal, sense: 1 } };
  }

  private slot(
    expr: Expr,
    wanted: Quantity,
    where: Where,
    into: PlaceRead,
    words: { readonly axis: string; readonly before?: string; readonly after?: string; readonly signed?: boolean },
  ): void {
    const found = this.scalar(expr, wanted, where, into, words.signed === true);
    if (found.literals.length === 0) return;
    into.slots.push({ axis: words.axis, before: words.before ?? '', after: words.after ?? '', ...found });
  }

  private tuple(tuple: Tuple, where: Where, into: PlaceRead, prefix: string): void {
    for (const [i, item] of tuple.items.entries()) {
      const word = item.word?.text;
      const axis = word ?? AXES[i] ?? String(i);
      const before = word === undefined ? `${axis} = ` : `${word} `;
      this.slot(item.value, 'length', where, into, { axis: `${prefix}${axis}`, before, signed: true });
    }
  }

  /** A place: its own slots, and what it hangs on. */
  place(
    arg: Arg,
    where: Where,
    into: PlaceRead = { slots: [], rigid: [], nodes: [], tubes: [], planes: [] },
  ): PlaceRead {
    switch (arg.kind) {
      case 'tuple':
        this.tuple(arg, where, into, '');
        break;
      case 'ref':
        into.rigid.push(arg.names[0]?.text ?? '');
        break;
      case 'binary':
        this.place(arg.left, where, into);
        if (arg.right.kind === 'tuple') this.tuple(arg.right, where, into, `${arg.op} `);
        else this.place(arg.right, where, into);
        break;
      case 'between': {
        for (const end of [arg.a, arg.b]) this.deeper(end, where, into);
        const ends = [arg.a, arg.b].map((end) => (end.kind === 'ref' ? end.names.map((n) => n.text).join('.') : '?'));
        const after = ` between ${ends.join(' and ')}`;
        this.slot(arg.at, shareOr(arg.at), where, into, { axis: after, after });
        break;
      }
      case 'in-plane': {
        const plane = arg.plane.names[0]?.text ?? '';
        into.planes.push(plane);
        if (arg.pair.kind === 'tuple') this.tuple(arg.pair, where, into, `in ${plane} `);
        break;
      }
      case 'on-at': {
        const tube = this.onto(arg.tube, into);
        const from = arg.from?.names[0]?.text ?? '';
        const after = from === '' ? ` of ${tube}` : ` from ${from}`;
        this.slot(arg.at, from === '' ? 'share' : 'length', where, into, { axis: `on ${tube}${after}`, after });
        break;
      }
      case 'on-bend': {
        const tube = this.onto(arg.tube, into);
        const after = ` ${arg.side} ${arg.corner.names[0]?.text ?? ''}`;
        this.slot(arg.at, 'length', where, into, { axis: `on ${tube}${after}`, after });
        break;
      }
      case 'on-mid':
        this.onto(arg.tube, into);
        break;
      case 'on-where':
        this.onto(arg.tube, into);
        this.place(arg.plane, where, into);
        break;
      case 'on-nearest':
        this.onto(arg.tube, into);
        this.deeper(arg.to, where, into);
        break;
      case 'meets':
        this.onto(arg.a, into);
        this.onto(arg.b, into);
        break;
      case 'plane':
        this.slot(arg.value, 'length', where, into, { axis: arg.axis, before: `${arg.axis} = `, signed: true });
        break;
      default:
        break;
    }
    return into;
  }

  private onto(ref: { readonly names: readonly { readonly text: string }[] }, into: Hangs): string {
    const tube = ref.names[0]?.text ?? '';
    into.tubes.push(tube);
    return tube;
  }

  /** A place that another starts from: it does not move as one with it. */
  private deeper(arg: Expr | PlaceForm, where: Where, into: PlaceRead): void {
    const own = this.place(arg, where, { slots: [], rigid: [], nodes: [], tubes: [], planes: [] });
    into.nodes.push(...own.rigid, ...own.nodes);
    into.tubes.push(...own.tubes);
    into.planes.push(...own.planes);
    into.slots.push(...own.slots.map((slot) => ({ ...slot, axis: `of ${slot.axis}` })));
  }

  /** The numbers of a fact that is no place: sizes, distances, angles. */
  fact(args: readonly Arg[], wanted: Quantity, where: Where): PlaceRead {
    const into: PlaceRead = { slots: [], rigid: [], nodes: [], tubes: [], planes: [] };
    let before = '';
    for (const arg of args) {
      if (arg.kind === 'ref') before = arg.names[0]?.text ?? '';
      if (arg.kind === 'plane') this.place(arg, where, into);
      else if (arg.kind === 'tuple') this.tuple(arg, where, into, `${where.holder.fact} ${String(arg.span.start)} `);
      else if (arg.kind === 'sized') this.sized(arg.parts, wanted, where, into);
      else if (arg.kind === 'number' || arg.kind === 'unary' || arg.kind === 'binary' || isLet(arg, this.analysis))
        this.slot(arg, wanted, where, into, { axis: `${where.holder.fact} ${before}`.trim() });
    }
    return into;
  }

  private sized(parts: readonly Expr[], wanted: Quantity, where: Where, into: PlaceRead): void {
    const last = parts[parts.length - 1];
    const listUnit = last?.kind === 'number' ? (last.unit?.text ?? null) : null;
    for (const [i, part] of parts.entries()) {
      const axis = `${where.holder.fact} ${String(i)}`;
      if (part.kind !== 'number') {
        this.slot(part, wanted, where, into, { axis });
        continue;
      }
      const found = this.number(part, wanted, where, listUnit, false);
      if (found.literals.length > 0) into.slots.push({ axis, before: '', after: '', ...found });
    }
  }
}

const isExpr = (arg: Arg): arg is Expr =>
  arg.kind === 'number' ||
  arg.kind === 'ref' ||
  arg.kind === 'tuple' ||
  arg.kind === 'call' ||
  arg.kind === 'unary' ||
  arg.kind === 'binary' ||
  arg.kind === 'missing';

const isLet = (arg: Arg, { cage }: Pick<Analysis, 'cage'>): arg is Expr =>
  arg.kind === 'ref' && arg.names.length === 1 && cage.lets.has(arg.names[0]?.text ?? '');

/** A share where it is written in per cent. */
const shareOr = (expr: Expr): Quantity => (expr.kind === 'number' && expr.unit?.text === '%' ? 'share' : 'length');
