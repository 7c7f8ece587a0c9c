/** Where the stages of the cage leave what they have to say, each finding once, with the statement that it is about. */
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { Finding, FindingNote, Params, Place, Span } from '../../grammar/finding';
import type { Scope, Written } from './names';

/** The car as it is, or its image in y = 0, in which the twins are read. */
export type World = 'real' | 'image';

/** A note beside a finding, by the statement in which it stands. */
export interface ToldNote {
  readonly scope: Scope;
  readonly span: Span;
  readonly message: string;
}

/** A finding before it has its place: spans are those of the statement, which may move. */
export interface Told {
  readonly code: Code;
  readonly scope: Scope;
  readonly span: Span;
  readonly params: Params;
  readonly subject: string;
  readonly notes: readonly ToldNote[];
  readonly world: World;
}

export type More = Partial<Pick<Told, 'subject' | 'notes' | 'world'>>;

/** A span of a statement as a place in its file. */
export const placeIn = (scope: Scope, span: Span): Place => ({
  file: scope.file,
  span: { start: scope.statement.offset + span.start, end: scope.statement.offset + span.end },
});

const render = ({ code, scope, span, params, subject, notes }: Told): Finding => ({
  code,
  severity: CODES[code].severity,
  subject,
  at: { kind: 'place', place: placeIn(scope, span) },
  params,
  notes: notes.map((note): FindingNote => ({
    at: { kind: 'place', place: placeIn(note.scope, note.span) },
    message: note.message,
  })),
  fixes: [],
});

/**
 * Collects findings. What the text of a twin gives twice, once in the car and once in its image, is kept once,
 * as the car itself says it.
 */
export class Reporter {
  /** The statements that have something told of them. */
  private readonly touched = new Set<Written>();
  /** Found anew at every building. */
  private passing: Told[] = [];
  /** Of the lists being filled: where in them each finding stands. Lists that are gone are forgotten with them. */
  private readonly places = new WeakMap<readonly Told[], Map<string, number>>();

  private readonly numbers = new WeakMap<Scope, number>();
  private scopes = 0;

  /** Reports about a statement's words and names. */
  ofNames(owner: Written, code: Code, scope: Scope, span: Span, params: Params, more: More = {}): void {
    owner.toldOfNames = this.keep(owner, owner.toldOfNames, made(code, scope, span, params, more));
  }

  /** Reports about what a statement's values are worth. */
  ofValues(owner: Written, code: Code, scope: Scope, span: Span, params: Params, more: More = {}): void {
    owner.toldOfValues = this.keep(owner, owner.toldOfValues, made(code, scope, span, params, more));
  }

  /** Reports something that is looked for at every building. */
  now(code: Code, scope: Scope, span: Span, params: Params, more: More = {}): void {
    this.passing = this.added(this.passing, made(code, scope, span, params, more));
  }

  private keep(owner: Written, list: Told[], told: Told): Told[] {
    this.touched.add(owner);
    return this.added(list, told);
  }

  /** A list with one more finding, unless it stands there; the empty list that all share is never filled. */
  private added(before: Told[], told: Told): Told[] {
    const list = before.length === 0 ? [] : before;
    let places = this.places.get(list);
    if (places === undefined) this.places.set(list, (places = new Map()));
    const { code, span, world } = told;
    const key = `${code} ${String(this.numberOf(told.scope))} ${String(span.start)} ${String(span.end)}`;
    const at = places.get(key);
    const old = at === undefined ? undefined : list[at];
    if (at === undefined || old === undefined) {
      places.set(key, list.length);
      list.push(told);
    } else if (old.world === 'image' && world === 'real') list[at] = told;
    return list;
  }

  private numberOf(scope: Scope): number {
    let number = this.numbers.get(scope);
    if (number === undefined) this.numbers.set(scope, (number = this.scopes++));
    return number;
  }

  /** Takes back what was told of a statement's names, or of its values: they are going to be looked at again. */
  forget(owner: Written, names: boolean, values: boolean): void {
    if (!this.touched.has(owner)) return;
    if (values) owner.toldOfValues = [];
    if (names) owner.toldOfNames = [];
  }

  /** Takes back what is found anew at every building. */
  begin(): void {
    this.passing = [];
  }

  /** All findings, in the order of file and place. */
  findings(): readonly Finding[] {
    const all = [...this.touched].flatMap(({ toldOfNames, toldOfValues }) => [...toldOfNames, ...toldOfValues]);
    return [...all, ...this.passing].map(render).sort((a, b) => compareAnchors(a, b) || compare(a.code, b.code));
  }
}

const made = (code: Code, scope: Scope, span: Span, params: Params, more: More): Told => ({
  code,
  scope,
  span,
  params,
  subject: more.subject ?? '',
  notes: more.notes ?? [],
  world: more.world ?? 'real',
});

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function compareAnchors(a: Finding, b: Finding): number {
  if (a.at.kind !== 'place' || b.at.kind !== 'place') return 0;
  const [p, q] = [a.at.place, b.at.place];
  return compare(p.file, q.file) || p.span.start - q.span.start || p.span.end - q.span.end;
}
