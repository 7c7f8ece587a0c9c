/** What a report is made from: the judgements of a car with the waivers that cover them, and what the edge knows of its files. */
import type { PlacedFinding, Severity, SourceState } from '../../grammar/finding';
import type { Waiver } from '../cage/cage';
import type { Assessment } from '../rules/assess';
import { holdsOn } from '../rules/assess';
import type { Car } from '../rules/car';
import type { Book, Limit } from '../rules/rule';

/** One book's judgement of one thing, and the waiver that covers it. */
export interface Judged {
  readonly assessment: Assessment;
  readonly waiver: Waiver | null;
}

export type Word = 'met' | 'broken' | 'waived' | 'unknown';

export const wordOf = ({ assessment, waiver }: Judged): Word =>
  waiver !== null && assessment.verdict.kind !== 'met' ? 'waived' : assessment.verdict.kind;

/** A verdict by what it means for the car: what is broken, by how much that matters. */
export type Kind = Exclude<Word, 'broken'> | Severity;

export const kindOf = (judged: Judged): Kind => {
  const word = wordOf(judged);
  const { verdict } = judged.assessment;
  return word !== 'broken' ? word : verdict.kind === 'broken' ? verdict.limit.severity : 'error';
};

/** Each verdict has a shape of its own beside its word, so that colour need not tell them apart. */
export const VERDICTS: Readonly<Record<Word, { readonly shape: string; readonly says: string }>> = {
  met: { shape: '○', says: 'met' },
  broken: { shape: '■', says: 'broken' },
  waived: { shape: '◆', says: 'waived' },
  unknown: { shape: '△', says: 'cannot be judged' },
};

export const SOURCES: Readonly<Record<SourceState, string>> = {
  published: 'published',
  'from memory': 'from memory, not seen in the book',
  'common practice': 'common practice, no source',
  'written here': "written in the car's own files",
};

/** A file that the car is written in. */
export interface SourceFile {
  readonly name: string;
  /** Of its text as UTF-8, hexadecimal; null: not taken. */
  readonly sha256: string | null;
}

export interface ReportInput {
  readonly car: Car;
  readonly books: readonly Book[];
  readonly judged: readonly Judged[];
  /** All findings, as `check` lists them. */
  readonly findings: readonly PlacedFinding[];
  /** `car.cage:12`, for the place of a finding. */
  readonly placeOf: (finding: PlacedFinding) => string;
  readonly waivers: readonly (Waiver & { readonly used: boolean })[];
  readonly files: readonly SourceFile[];
  /** Who made it: `Cagewright 1.2.0`. */
  readonly maker: string;
  /** As it is to be printed; null: left open, to be written by hand. */
  readonly date: string | null;
}

/** The limits by which a thing was judged: where the car's day is known, only those of that day. */
export function holding({ assessment: { limits } }: Judged, car: Car): readonly Limit[] {
  const day = car.day();
  return day === null ? limits : limits.filter((limit) => holdsOn(limit, day));
}

/** Without judgements by limits of another day: nothing was asked. */
export const asked = (judged: readonly Judged[], car: Car): readonly Judged[] =>
  judged.filter((one) => holding(one, car).length > 0);

/** The limits of a book that no judgement of this car used. */
export function unusedLimits(book: Book, judged: readonly Judged[], car: Car): readonly Limit[] {
  const used = new Set(judged.filter(({ assessment }) => assessment.book === book).flatMap((one) => holding(one, car)));
  return book.limits.filter((limit) => !used.has(limit));
}
