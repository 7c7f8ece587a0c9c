/** Quick fixes at a place: which findings there have one, and what it does when taken. */
import type { PlacedFinding, Span } from '../../grammar/finding';
import { fixesFor, resolveFix, type TextEdit } from '../fixes/fixes';
import type { Analysis } from '../project/project';

export interface QuickFix {
  readonly title: string;
  readonly preferred: boolean;
  readonly finding: PlacedFinding;
  /** Asks {@link solveFix} for the edits. */
  readonly id: string;
}

const touches = (a: Span, b: Span): boolean => a.start <= b.end && b.start <= a.end;

/** The fixes of the findings that touch a span of a file. */
export const fixesAt = (analysis: Analysis, file: string, span: Span): QuickFix[] =>
  analysis.findings
    .filter((finding) => finding.place.file === file && !finding.waived && touches(finding.place.span, span))
    .flatMap((finding) =>
      fixesFor(finding, analysis).map(({ id, title, preferred }) => ({ id, title, preferred, finding })),
    );

/** The finding that an earlier list named: same code, thing and place. */
export const findAgain = (
  analysis: Analysis,
  wanted: { readonly code: string; readonly subject: string; readonly file: string; readonly start: number },
): PlacedFinding | null =>
  analysis.findings.find(
    ({ code, subject, place }) =>
      code === wanted.code &&
      subject === wanted.subject &&
      place.file === wanted.file &&
      place.span.start === wanted.start,
  ) ?? null;

/** The edits of a fix; empty where it can no longer be done. */
export const solveFix = (analysis: Analysis, id: string, finding: PlacedFinding): readonly TextEdit[] =>
  resolveFix(id, finding, analysis);
