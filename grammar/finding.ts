/**
 * The shape of a finding. Everything that the tool has to say to a person (syntax, names, geometry, rules)
 * is one of these; the table of codes with their words stands in `codes.ts`.
 *
 * A finding is made without its place and its sentence: it says which thing it is about and carries the figures.
 * It is placed (anchor -> file and span) and worded (in the file's units) last, so that moving lines
 * or changing `units` never makes a cached one stale.
 */

import type { Code } from './codes';

export type Severity = 'error' | 'warning' | 'information';

/** Half-open range of UTF-16 offsets. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A span in a file. `file` is the key under which the project holds the file (workspace-relative, `/`). */
export interface Place {
  readonly file: string;
  readonly span: Span;
}

/** What a finding points at, before it is placed. */
export type Anchor =
  | { readonly kind: 'place'; readonly place: Place }
  /**
   * A thing of the cage by its full name (`bar-end.left`, or the id of a nameless statement such as `vent:0`).
   * `fact` narrows it to one fact's value (`path`, `at`), `item` to the n-th element of that value.
   * Without `fact`: the name in the statement's head.
   */
  | { readonly kind: 'thing'; readonly thing: string; readonly fact?: string; readonly item?: number };

export type MeasureUnit = 'mm' | 'deg' | 'kg' | 'N' | 'MPa' | '1' | 'mm2';

/** A figure in the JSON's units: mm, degrees, kg, N, MPa, mm², or a plain number. */
export interface Measure {
  readonly value: number;
  readonly unit: MeasureUnit;
}

/** What is allowed; an open side is null. */
export interface Allowed {
  readonly from: number | null;
  readonly to: number | null;
  readonly unit: MeasureUnit;
}

/** How well a limit is known. `written here`: it stands in the car's own files; whoever wrote it there answers for it. */
export type SourceState = 'published' | 'from memory' | 'common practice' | 'written here';

export interface RuleRef {
  readonly book: string;
  readonly citation: string;
  readonly edition: string;
  readonly source: SourceState;
}

/** Values that the sentence of a code needs: names as strings, figures as measures. */
export type Params = Readonly<Record<string, string | number | Measure | readonly string[] | null>>;

/** A fix is an id with data, resolved to text edits only when somebody asks (server/fixes). */
export interface FixId {
  readonly id: string;
  readonly data: Params;
}

export interface FindingNote {
  readonly at: Anchor | null;
  readonly message: string;
}

export interface Finding {
  readonly code: Code;
  readonly severity: Severity;
  /** Full name of the thing that it is about, or '' for the text itself. */
  readonly subject: string;
  readonly at: Anchor;
  readonly params: Params;
  readonly measured?: Measure;
  readonly allowed?: Allowed;
  readonly rule?: RuleRef;
  readonly notes: readonly FindingNote[];
  readonly fixes: readonly FixId[];
}

export interface PlacedNote {
  readonly place: Place | null;
  readonly message: string;
}

/** A finding as it leaves the project: placed, worded, waived or not. */
export interface PlacedFinding extends Omit<Finding, 'at' | 'notes'> {
  readonly place: Place;
  readonly message: string;
  readonly notes: readonly PlacedNote[];
  readonly waived: boolean;
}
