/**
 * What a rule is, as data. A rule measures one quantity (one file each); a book is a list of limits on such
 * quantities with where each limit is written. Several books may limit the same quantity: nothing is averaged or merged.
 */
import type { Code } from '../../grammar/codes';
import type {
  Allowed,
  Anchor,
  FindingNote,
  FixId,
  Measure,
  MeasureUnit,
  Params,
  Severity,
  SourceState,
} from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import type { Shape } from '../geometry/shape';

/** The figure of one thing that a rule looks at, in the JSON's units. */
export interface Reading {
  /** Full name of the thing. */
  readonly subject: string;
  readonly at: Anchor;
  readonly measured: Measure;
  /** What the code's sentence wants besides `measured`, `ask` and `mend`. */
  readonly params: Params;
  readonly notes: readonly FindingNote[];
  readonly fixes: readonly FixId[];
  /** A limit that belongs to this thing alone (the hardware that this strap must hold); null: the book's own counts. */
  readonly limit: { readonly from: number | null; readonly to: number | null } | null;
  /** The figures that it was read from: the same object for as long as nothing that they hang on has changed. */
  readonly figures: object;
}

/** What mends a broken limit: a phrase with `{names}` of its own figures, so that it is worded in the file's units last. */
export interface Mend {
  readonly says: string;
  /** What the book asks for, where "at most" and "at least" would read oddly. */
  readonly ask?: string;
  readonly params: Params;
}

/** A quantity that books put limits on. */
export interface Rule {
  readonly code: Code;
  readonly unit: MeasureUnit;
  /** Every thing of the car that has this figure. What could not be computed is left out: that has its own finding. */
  readonly read: (cage: Cage, shape: Shape) => readonly Reading[];
  /** What brings one reading to `target` (same unit as the reading). */
  readonly mend: (reading: Reading, target: number, cage: Cage, shape: Shape) => Mend;
  /** The smallest difference that counts, in the rule's unit: below what anybody can measure. */
  readonly slack: number;
}

/** How strongly a book wants a limit. The word is used in the sentence: "fia-253 recommends at most 10". */
export type Force = 'allows' | 'recommends' | 'wants';

/** One limit of one book. */
export interface Limit {
  readonly code: Code;
  readonly allowed: Allowed;
  readonly force: Force;
  readonly severity: Severity;
  readonly citation: string;
  readonly edition: string;
  readonly source: SourceState;
  /** What happens to the car, the weld or the driver. */
  readonly why: string;
  /** Holds only where no other chosen book limits the same quantity: practice stands back where a rule is written. */
  readonly standsBack: boolean;
}

export interface Book {
  readonly name: string;
  readonly title: string;
  /** The strictest consequence first: of the limits on one quantity, the first that is broken is told, and no other. */
  readonly limits: readonly Limit[];
}
