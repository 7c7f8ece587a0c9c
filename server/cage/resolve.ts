/**
 * What a name in the text means. Each occurrence is looked at once, whatever hangs on it; what is wrong with it is told
 * there, and whoever needs it gets null and says nothing more.
 */
import type { Code } from '../../grammar/codes';
import type { Params, Span } from '../../grammar/finding';
import type { Axis, Name, Ref } from '../../grammar/tree';
import type { NameUse, Side } from './cage';
import type { Census, Definition, Scope, Space, Written } from './names';
import { nameOn, otherSide, subjectOf } from './names';
import { meant, nearestWord } from '../../grammar/nearest';
import type { More, Reporter } from './reporter';
import { placeIn } from './reporter';

/** A thing with the side on which it is meant, as the text says it; in a twin's text the sides are those of the image. */
export interface Target {
  readonly definition: Definition;
  /** Null: it exists once. */
  readonly side: Side | null;
  /** `P.x`. */
  readonly axis: Axis | null;
  /** `NAME.a` of a split tube. */
  readonly piece: 'a' | 'b' | null;
}

/** What a place in the text wants a name for. */
export interface Wanted {
  readonly space: Space;
  /** Kinds that will do. */
  readonly kinds: readonly string[];
  /** For messages: `a tube or a foot`. */
  readonly what: string;
  /** True where a piece of a split tube may be named. */
  readonly pieces: boolean;
}

export const NODE: Wanted = { space: 'thing', kinds: ['node'], what: 'a node', pieces: false };
export const TUBE: Wanted = { space: 'thing', kinds: ['tube'], what: 'a tube', pieces: false };
export const PLANE: Wanted = { space: 'plane', kinds: ['plane'], what: 'a plane', pieces: false };

const SPACE_ORDER: readonly Space[] = ['thing', 'let', 'plane', 'section', 'die', 'material', 'book'];

const article = (kind: string): string => (/^[aeiou]/.test(kind) ? `an ${kind}` : `a ${kind}`);
/** `a node` -> `node`: the sentences of the findings bring their own article. */
const plain = (what: string): string => what.replace(/^an? /, '').replace(/ an? /g, ' ');

const isAxis = (text: string): text is Axis => text === 'x' || text === 'y' || text === 'z';
const isSide = (text: string): text is Side => text === 'left' || text === 'right';

interface Unknown {
  readonly owner: Written;
  readonly name: Name;
  readonly scope: Scope;
  readonly spaces: readonly Space[];
  readonly kinds: readonly string[];
  readonly what: string;
}

/** Looking for a near name costs (unknown names) x (known names); beyond this nobody is helped by waiting. */
const MOST_COMPARISONS = 1e6;

export class Resolver {
  /** The statement whose names are being looked at. */
  private owner: Written | null = null;
  private unknown: Unknown[] = [];

  constructor(
    private readonly census: Census,
    private readonly reporter: Reporter,
  ) {}

  /** The first definition of a name that is seen from a file. */
  private find(space: Space, name: string, scope: Scope): Definition | null {
    for (let d = this.census.spaces[space].get(name) ?? null; d !== null; d = d.next) {
      if (scope.sees.has(d.scope.file)) return d;
    }
    return null;
  }

  /** A name where a thing of certain kinds is wanted. `anySide`: a bare name of something that is mirrored will do. */
  named(ref: Ref, wanted: Wanted, scope: Scope, anySide = false): Target | null {
    return this.once(ref, scope, () => {
      const first = ref.names[0];
      if (first === undefined) return null;
      const definition = this.lookUp(ref, first, [wanted.space], wanted.kinds, plain(wanted.what), scope);
      if (definition === null) return null;
      if (!wanted.kinds.includes(definition.kind)) {
        this.wrongKind(first, definition.kind, plain(wanted.what), scope);
        return null;
      }
      return this.sided(ref, definition, scope, { axis: false, piece: wanted.pieces, anySide });
    });
  }

  /** The name of a rulebook: one that is written in a file that is seen from here; null: it may still be one of the tool's. */
  book(ref: Ref, scope: Scope): Target | null {
    return this.once(ref, scope, () => {
      const name = ref.names[0];
      const definition = name === undefined ? null : this.find('book', name.text, scope);
      if (name === undefined || definition === null) return null;
      this.use(name.span, definition, false, null);
      return { definition, side: null, axis: null, piece: null };
    });
  }

  /** A name in an expression: a let, a node, or a node's coordinate. Where both bear it, `place` prefers the node. */
  inExpression(ref: Ref, place: boolean, scope: Scope): Target | null {
    return this.once(ref, scope, () => {
      const first = ref.names[0];
      if (first === undefined) return null;
      const dotted = ref.names.length > 1;
      const spaces: readonly Space[] = dotted || place ? ['thing', 'let'] : ['let', 'thing'];
      const kinds = dotted || place ? ['node'] : ['let', 'node'];
      const what = dotted || place ? 'node' : 'name';
      const definition = this.lookUp(ref, first, spaces, kinds, what, scope);
      if (definition === null) return null;
      if (definition.kind === 'let') {
        if (!dotted) return { definition, side: null, axis: null, piece: null };
        this.wrongKind(first, 'let', 'node', scope);
        return null;
      }
      if (definition.kind !== 'node') {
        this.wrongKind(first, definition.kind, place || dotted ? 'node' : 'figure', scope);
        return null;
      }
      return this.sided(ref, definition, scope, { axis: true, piece: false, anySide: false });
    });
  }

  private once(ref: Ref, scope: Scope, find: () => Target | null): Target | null {
    const known = scope.meanings.get(ref);
    if (known !== undefined) return known;
    const target = find();
    scope.meanings.set(ref, target);
    return target;
  }

  /** Begins with a statement: what is found from here on is told of it. */
  begin(owner: Written): void {
    this.owner = owner;
  }

  /** Reports about the statement whose names are being looked at. */
  tell(code: Code, scope: Scope, span: Span, params: Params, notes: More['notes'] = []): void {
    const { owner } = this;
    if (owner !== null) this.reporter.ofNames(owner, code, scope, span, params, { subject: subjectOf(owner), notes });
  }

  /** Notes an occurrence of a name. */
  use(span: Span, target: Definition, isDefinition: boolean, side: Side | null): void {
    if (this.owner === null) return;
    const one = { span, target, definition: isDefinition, side };
    if (this.owner.occurrences.length === 0) this.owner.occurrences = [one];
    else this.owner.occurrences.push(one);
  }

  /** Where each name stands and what it means, made when it is asked for. */
  uses(): readonly NameUse[] {
    return this.census.written.flatMap(({ occurrences, scope }) =>
      occurrences.map(({ span, target, definition, side }) => ({
        place: placeIn(scope, span),
        target: `${target.space}:${target.name}`,
        definition,
        side: target.side === null ? null : side,
      })),
    );
  }

  private lookUp(
    ref: Ref,
    name: Name,
    spaces: readonly Space[],
    kinds: readonly string[],
    what: string,
    scope: Scope,
  ): Definition | null {
    for (const space of spaces) {
      const found = this.find(space, name.text, scope);
      if (found === null) continue;
      const said = ref.names[1]?.text ?? '';
      this.use(name.span, found, false, isSide(said) ? said : scope.side);
      return found;
    }
    if (this.census.dark.has(name.text)) return null;
    for (const space of SPACE_ORDER) {
      if (spaces.includes(space)) continue;
      const other = this.find(space, name.text, scope);
      if (other === null) continue;
      this.wrongKind(name, other.kind, what === 'name' ? 'let or node' : what, scope);
      return null;
    }
    if (this.owner !== null) this.unknown.push({ owner: this.owner, name, scope, spaces, kinds, what });
    return null;
  }

  private wrongKind(name: Name, found: string, wanted: string, scope: Scope): void {
    this.tell('name.kind', scope, name.span, { name: name.text, found, wanted });
  }

  /** Reads what follows the dots: a side, a coordinate, a piece. */
  private sided(
    ref: Ref,
    definition: Definition,
    scope: Scope,
    may: { readonly axis: boolean; readonly piece: boolean; readonly anySide: boolean },
  ): Target | null {
    const rest = ref.names.slice(1);
    let side: Side | null = null;
    let axis: Axis | null = null;
    let piece: 'a' | 'b' | null = null;
    const next = rest[0];
    if (next !== undefined && isSide(next.text)) {
      if (definition.side === null) {
        const why = 'stands outside mirror and exists once: it has no left and no right';
        const tail = rest.slice(1).map((n) => n.text);
        this.side(ref, definition.name, why, [[definition.name, ...tail].join('.')], scope);
        return null;
      }
      side = next.text;
      rest.shift();
    }
    const tail = rest[0];
    if (tail !== undefined && may.axis && isAxis(tail.text)) axis = tail.text;
    else if (tail !== undefined && may.piece && (tail.text === 'a' || tail.text === 'b')) piece = tail.text;
    if (axis !== null || piece !== null) rest.shift();
    const left = rest[0];
    if (left !== undefined) {
      const choices = [
        ...(side === null && definition.side !== null ? ['left', 'right'] : []),
        ...(may.axis ? ['x', 'y', 'z'] : []),
      ];
      const hint = choices.length === 0 ? '' : `; after the dot stands ${choices.join(', ')}`;
      const params = { what: `In '${ref.names.map((n) => n.text).join('.')}'`, name: left.text, hint };
      this.tell('name.unknown', scope, left.span, params);
      return null;
    }
    if (side === null && definition.side !== null) {
      if (scope.side === null && !may.anySide) {
        const both = [nameOn(definition, 'left'), nameOn(definition, 'right')];
        const tail = ref.names.slice(1).map((n) => n.text);
        const choices = both.map((one) => [one, ...tail].join('.'));
        this.side(ref, definition.name, `stands on both sides: write ${choices.join(' or ')}`, choices, scope);
        return null;
      }
      side = scope.side;
    }
    return { definition, side, axis, piece };
  }

  private side(ref: Ref, name: string, why: string, choices: readonly string[], scope: Scope): void {
    this.tell('name.side', scope, ref.span, { name, why, choices });
  }

  /** Tells the names that are not known, each with what is nearest to it. To be called once all names are looked at. */
  tellUnknown(): void {
    const candidates = new Map<string, readonly string[]>();
    const distinct = new Set(this.unknown.map(({ name }) => name.text)).size;
    const known = Object.values(this.census.spaces).reduce((sum, names) => sum + names.size, 0);
    const affordable = distinct * known <= MOST_COMPARISONS;
    const hints = new Map<string, { readonly hint: string; readonly nearest: string | null }>();
    for (const { owner, name, scope, spaces, kinds, what } of this.unknown) {
      this.owner = owner;
      if (this.cased(name, spaces, kinds, scope)) continue;
      const key = `${scope.file} ${kinds.join()} ${name.text}`;
      let found = hints.get(key);
      if (found === undefined) {
        found = this.hint(name.text, spaces, kinds, scope, affordable, candidates);
        hints.set(key, found);
      }
      const params: Params = {
        what: what.charAt(0).toUpperCase() + what.slice(1),
        name: name.text,
        hint: found.hint,
        nearest: found.nearest,
      };
      this.tell('name.unknown', scope, name.span, params);
    }
    this.unknown = [];
  }

  private names(spaces: readonly Space[], kinds: readonly string[], scope: Scope): readonly string[] {
    const names: string[] = [];
    for (const space of spaces) {
      for (const [name, first] of this.census.spaces[space]) {
        for (let d: Definition | null = first; d !== null; d = d.next) {
          if (!kinds.includes(d.kind) || !scope.sees.has(d.scope.file)) continue;
          names.push(name);
          break;
        }
      }
    }
    return names;
  }

  /** True where the name is known but for the case of its letters, which is told. */
  private cased(name: Name, spaces: readonly Space[], kinds: readonly string[], scope: Scope): boolean {
    const folded = name.text.toLowerCase();
    for (const known of this.byFold(spaces, kinds, scope).get(folded) ?? []) {
      this.tell('name.case', scope, name.span, { name: name.text, known });
      return true;
    }
    return false;
  }

  private readonly folds = new Map<string, ReadonlyMap<string, readonly string[]>>();

  private byFold(
    spaces: readonly Space[],
    kinds: readonly string[],
    scope: Scope,
  ): ReadonlyMap<string, readonly string[]> {
    const key = `${scope.file} ${spaces.join()} ${kinds.join()}`;
    const known = this.folds.get(key);
    if (known !== undefined) return known;
    const folds = new Map<string, string[]>();
    for (const name of this.names(spaces, kinds, scope)) {
      const folded = name.toLowerCase();
      const group = folds.get(folded);
      if (group === undefined) folds.set(folded, [name]);
      else group.push(name);
    }
    for (const group of folds.values()) group.sort();
    this.folds.set(key, folds);
    return folds;
  }

  private hint(
    name: string,
    spaces: readonly Space[],
    kinds: readonly string[],
    scope: Scope,
    affordable: boolean,
    cache: Map<string, readonly string[]>,
  ): { readonly hint: string; readonly nearest: string | null } {
    for (const space of spaces) {
      const elsewhere = this.census.spaces[space].get(name);
      if (elsewhere !== undefined) {
        return {
          hint: ` in this file: it stands in ${elsewhere.scope.file}, which this file does not use`,
          nearest: null,
        };
      }
    }
    const glued = /^(.+)-(\d[\p{L}\d_-]*)$/u.exec(name);
    const [, before = '', after = ''] = glued ?? [];
    if (glued !== null && spaces.some((space) => this.find(space, before, scope) !== null)) {
      return { hint: `; a minus has blanks on both sides: ${before} - ${after}`, nearest: `${before} - ${after}` };
    }
    if (!affordable) return { hint: '', nearest: null };
    const key = `${scope.file} ${spaces.join()} ${kinds.join()}`;
    let known = cache.get(key);
    if (known === undefined) {
      known = this.names(spaces, kinds, scope);
      cache.set(key, known);
    }
    const nearest = nearestWord(name, known);
    return { hint: meant(nearest), nearest };
  }

  /**
   * Tells the names that stand twice, at the later one; in the order of file and text. Not in a line that did not parse:
   * of `node crown-` more is to come.
   */
  tellTwice(): void {
    for (const d of this.census.definitions) {
      if (!d.repeated || !d.entry.line.ok) continue;
      const first = this.census.spaces[d.space].get(d.name);
      if (first === undefined) continue;
      const sameFile = first.scope.file === d.scope.file;
      const params = { name: d.name, first: `${article(first.kind)}${sameFile ? '' : ` in ${first.scope.file}`}` };
      const notes = [{ scope: first.scope, span: first.nameSpan, message: `'${d.name}' is named here first.` }];
      this.reporter.ofNames(d, 'name.twice', d.scope, d.nameSpan, params, { subject: subjectOf(d), notes });
    }
  }
}

/** The side that a target has for the twin of a text, in the car itself. */
export const twinSide = (side: Side | null): Side | null => (side === null ? null : otherSide(side));
