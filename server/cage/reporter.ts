/** Where the stages of the cage leave what they have to say, each finding once. */
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { Finding, FindingNote, Params, Place, Span } from '../../grammar/finding';
import type { Scope } from './names';

/** The car as it is, or its image in y = 0, in which the twins are read. */
export type World = 'real' | 'image';

export interface More {
  /** Full name of what it is about. */
  readonly subject?: string;
  readonly notes?: readonly FindingNote[];
  readonly world?: World;
}

/** A span of a statement as a place in its file. */
export const placeIn = (scope: Scope, span: Span): Place => ({
  file: scope.file,
  span: { start: scope.statement.offset + span.start, end: scope.statement.offset + span.end },
});

/**
 * Collects findings. What the text of a twin gives twice, once in the car and once in its image, is kept once,
 * as the car itself says it.
 */
export class Reporter {
  private readonly kept = new Map<string, { readonly finding: Finding; readonly world: World }>();

  /** Reports `code` at a span of a statement. */
  report(code: Code, scope: Scope, span: Span, params: Params, more: More = {}): void {
    this.reportAt(code, placeIn(scope, span), params, more);
  }

  /** Reports `code` at a place. */
  reportAt(code: Code, place: Place, params: Params, more: More = {}): void {
    const key = `${code} ${place.file} ${place.span.start} ${place.span.end}`;
    const world = more.world ?? 'real';
    const before = this.kept.get(key);
    if (before !== undefined && (before.world === 'real' || world === 'image')) return;
    const finding: Finding = {
      code,
      severity: CODES[code].severity,
      subject: more.subject ?? '',
      at: { kind: 'place', place },
      params,
      notes: more.notes ?? [],
      fixes: [],
    };
    this.kept.set(key, { finding, world });
  }

  /** All findings, in the order of file and place. */
  findings(): readonly Finding[] {
    return [...this.kept.values()]
      .map(({ finding }) => finding)
      .sort((a, b) => compareAnchors(a, b) || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0));
  }
}

function compareAnchors(a: Finding, b: Finding): number {
  if (a.at.kind !== 'place' || b.at.kind !== 'place') return 0;
  const [p, q] = [a.at.place, b.at.place];
  if (p.file !== q.file) return p.file < q.file ? -1 : 1;
  return p.span.start - q.span.start || p.span.end - q.span.end;
}
