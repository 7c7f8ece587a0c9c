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
    this.passing = added(this.passing, made(code, scope, span, params, more));
  }

  private keep(owner: Written, list: Told[], told: Told): Told[] {
    this.touched.add(owner);
    return added(list, told);
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

/** A list with one more finding, unless it stands there; the empty list that all share is never filled. */
function added(list: Told[], told: Told): Told[] {
  const { code, scope, span, world } = told;
  const same = list.findIndex(
    (one) => one.code === code && one.scope === scope && one.span.start === span.start && one.span.end === span.end,
  );
  const before = list[same];
  if (before === undefined) return [...list, told];
  if (before.world === 'real' || world === 'image') return list;
  return list.map((one) => (one === before ? told : one));
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function compareAnchors(a: Finding, b: Finding): number {
  if (a.at.kind !== 'place' || b.at.kind !== 'place') return 0;
  const [p, q] = [a.at.place, b.at.place];
  return compare(p.file, q.file) || p.span.start - q.span.start || p.span.end - q.span.end;
}
