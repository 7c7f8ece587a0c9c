/** Quick fixes: offered by the finding's code, turned into text edits only when somebody takes one. */
import type { Place, PlacedFinding, Span } from '../../grammar/finding';
import type { FileTree } from '../../grammar/tree';
import type { Cage } from '../cage/cage';
import type { Shape } from '../geometry/shape';

/** What a fix may look at: an analysis of the car. */
export interface FixContext {
  readonly trees: ReadonlyMap<string, FileTree>;
  readonly cage: Cage;
  readonly shape: Shape;
}

/** Replaces `span` of the file's text. Edits of one fix never overlap. */
export interface TextEdit {
  readonly file: string;
  readonly span: Span;
  readonly newText: string;
}

/** One way to mend one finding. `id` is unique among the offers for that finding. */
export interface FixOffer {
  readonly id: string;
  /** What it will do, in the imperative. */
  readonly title: string;
  /** The one to take without thinking. At most one of a finding's offers is. */
  readonly preferred: boolean;
  /** Computes the edits, for the same analysis from which it was offered. Empty: nothing can be done. */
  readonly edits: () => readonly TextEdit[];
}

export type Fixer = (finding: PlacedFinding, context: FixContext) => readonly FixOffer[];

/** The text that a place covers; '' where the file is not known. */
export const textAt = (context: FixContext, place: Place): string =>
  context.trees.get(place.file)?.text.slice(place.span.start, place.span.end) ?? '';
