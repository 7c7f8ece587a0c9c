/**
 * What a rule is, as data. A rule measures one quantity (one file each, with why it exists, how it is measured and an
 * example); a book is a list of limits on such quantities with where each limit is written. Several books may limit the
 * same quantity: nothing is averaged or merged.
 */
import type { RuleCode } from '../../grammar/codes';
import type { Explanation } from '../../grammar/explanations';
import type {
  Allowed,
  Anchor,
  FindingNote,
  FixId,
  Measure,
  MeasureUnit,
  Params,
  Place,
  Severity,
  SourceState,
} from '../../grammar/finding';
import type { Role, Vehicle } from '../cage/cage';
import type { Car } from './car';
import type { SizeTable } from './sizes';

/** What a reading and a fact that is missing have in common. */
export interface Spot {
  /** Full name of the thing. */
  readonly subject: string;
  readonly at: Anchor;
  /** Which kind of thing this is to the books (`backstay`, `hoop foot`); null: books make no difference. */
  readonly group: string | null;
}

/** The figure of one thing that a rule looks at, in the JSON's units. */
export interface Reading extends Spot {
  readonly measured: Measure;
  /** Where the quantity is a word (how a tube is made): that word. Books list the words that they accept. */
  readonly word?: string;
  /** What the code's sentence wants besides `measured`, `ask` and `mend`. */
  readonly params: Params;
  readonly notes: readonly FindingNote[];
  readonly fixes: readonly FixId[];
  /** A limit that belongs to this thing alone (the hardware that this strap must hold); null: the book's own counts. */
  readonly limit: { readonly from: number | null; readonly to: number | null } | null;
}

/** A thing that has the figure, but it cannot be known: a fact is not written. Told, not guessed. */
export interface Missing extends Spot {
  /** What is missing and how to write it: `the car's mass is not written: vehicle { mass 980 kg without driver }`. */
  readonly fact: string;
  /** A fact of the whole car: what cannot be judged for want of such facts is told together. */
  readonly ofCar?: boolean;
}

export type Item = Reading | Missing;

export const isMissing = (item: Item): item is Missing => 'fact' in item;

/** What mends a broken limit: a phrase with `{names}` of its own figures, so that it is worded in the file's units last. */
export interface Mend {
  readonly says: string;
  /** What the book asks for, where "at most" and "at least" would read oddly. */
  readonly ask?: string;
  readonly params: Params;
}

/** What one limit says of one reading. */
export type Decision =
  | { readonly kind: 'met' }
  | {
      readonly kind: 'broken';
      readonly measured: Measure;
      readonly from: number | null;
      readonly to: number | null;
      readonly low: boolean;
      readonly mend?: Mend;
    }
  | { readonly kind: 'unknown'; readonly fact: string };

/** The explanation's `what`, `why` and so on, without `source`: that stands with the limits of the books. */
export type RuleExplanation = Omit<Explanation, 'source'>;

/** Takes the readings of a car: all at once, or thing by thing ({@link each}). */
export type Read = ((car: Car) => readonly Item[]) & {
  readonly byThing?: {
    readonly things: (car: Car) => readonly unknown[];
    readonly one: (thing: unknown, car: Car) => readonly Item[];
  };
};

/** A quantity that books put limits on. */
export interface Rule {
  readonly code: RuleCode;
  readonly unit: MeasureUnit;
  /** The smallest difference that counts, in the rule's unit: below what anybody can measure. */
  readonly slack: number;
  /** The groups by which it tells things apart; those that books name need not be listed. */
  readonly groups?: readonly string[];
  /**
   * Every thing of the car that has this figure, or should have it and a fact is not written. What could not be computed
   * because of a fault is left out: that has its own finding.
   */
  readonly read: Read;
  /** What brings one reading to `target` (same unit as the reading). */
  readonly mend: (reading: Reading, target: number, car: Car) => Mend;
  /** For limits that are tables: what such a limit says of a reading. Without it: the limit's range, or its words. */
  readonly decide?: (limit: Limit, reading: Reading, car: Car) => Decision;
  readonly explanation: RuleExplanation;
}

/** What kind of car it is. */
export type CarKind = NonNullable<Vehicle['kind']>;

/** How strongly a book wants a limit. The word is used in the sentence: "fia-253 recommends at most 10". */
export type Force = 'allows' | 'recommends' | 'wants';

/** One limit of one book. */
export interface Limit {
  readonly code: RuleCode;
  readonly allowed: Allowed;
  /** Where the quantity is a word: the words that the book accepts. */
  readonly accepts?: readonly string[];
  /** Where the limit is a table of tube sizes. */
  readonly sizes?: SizeTable;
  /** True where the bound itself is too much already: "less than 100 mm". */
  readonly strict?: boolean;
  /** A figure over the bound, but not over `upTo`, is borderline: how the book measures is not known for sure. */
  readonly borderline?: { readonly upTo: number; readonly says: string };
  /** Where the quantity is a number of tubes: the roles that the book counts besides. */
  readonly counts?: readonly Role[];
  /** The plate that is fixed to the shell under a foot counts, where one is written, not the foot's own. */
  readonly onShell?: boolean;
  /** Only for readings of these groups; without it for all. */
  readonly of?: readonly string[];
  /** Not for readings of these groups. */
  readonly notOf?: readonly string[];
  /** Only for full cages, or only for bare roll bars; without it for both. */
  readonly structure?: 'cage' | 'bar';
  /** Only for cars of these kinds; a car of which the kind is not told is a production car. */
  readonly cars?: readonly CarKind[];
  /** Only for cars whose shell is their frame. */
  readonly noFrame?: boolean;
  /** Not for feet that are welded and have no bolts. */
  readonly ifBolted?: boolean;
  /** Only for cages that were built by the text of the book: of a certified one the certificate counts. */
  readonly selfBuilt?: boolean;
  /** Only for cars homologated on this day or later, `2007-01-01`. */
  readonly since?: string;
  /** Only for cars homologated before this day. */
  readonly before?: string;
  readonly force: Force;
  readonly severity: Severity;
  readonly citation: string;
  /** Which text the figure was seen in; empty where it was not seen. */
  readonly edition: string;
  readonly source: SourceState;
  /** What happens to the car, the weld or the driver, where the rule's own words do not say it; else empty. */
  readonly why: string;
  /** Holds only where no other chosen book limits the same quantity: practice stands back where a rule is written. */
  readonly standsBack: boolean;
  /** The rows of the fact sheets that it stands for. */
  readonly rows: readonly string[];
  /** In a book that is based on another: the book that says this, where it is not the book itself. */
  readonly inherited?: string;
  /** Where it stands in the files of the car, if it does. */
  readonly writtenAt?: Place;
}

/** One text of a book, for cars homologated before a day. */
export interface Text {
  /** The first day for which it does not hold any more; null: the last one. */
  readonly before: string | null;
  readonly name: string;
  /** What has to be said with it; empty: nothing. */
  readonly note: string;
}

export interface Book {
  /** What stands in a `rules` line. */
  readonly name: string;
  readonly title: string;
  /** True where the book asks for a full cage, so that a bare roll bar is told that it is none. */
  readonly asksCage: boolean;
  /** What has to be said where the cage came with a certificate. */
  readonly certified?: string;
  /** Which text counts, by the car's homologation; empty: one text. */
  readonly texts: readonly Text[];
  /** The strictest consequence first: of the limits on one quantity, the first that is broken is told, and no other. */
  readonly limits: readonly Limit[];
  /** The book that this one changes; none for those of the tool. */
  readonly base?: string | null;
}
