/** Quick fixes at a place: which findings there have one, and what it does when taken. */
import type { PlacedFinding, Span } from '../../grammar/finding';
import { fixesFor, mayBeSolved, resolveFix, solving, type Solved, type TextEdit } from '../fixes/fixes';
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

/** The finding that an earlier list named: same code, thing and place, and of several such the one that says the same. */
export const findAgain = (
  analysis: Analysis,
  wanted: {
    readonly code: string;
    readonly subject: string;
    readonly file: string;
    readonly start: number;
    readonly message?: string;
  },
): PlacedFinding | null => {
  const there = analysis.findings.filter(
    ({ code, subject, place }) =>
      code === wanted.code &&
      subject === wanted.subject &&
      place.file === wanted.file &&
      place.span.start === wanted.start,
  );
  return there.find(({ message }) => message === wanted.message) ?? there[0] ?? null;
};

/** The edits of a fix that is not solved; empty where it can no longer be done. */
export const solveFix = (analysis: Analysis, id: string, finding: PlacedFinding): readonly TextEdit[] =>
  resolveFix(id, finding, analysis);

const SOLVED = 'solve.';

/** The place of a solved fix in the list of {@link solving}; null for every other fix. */
export const solvedIndex = (id: string): number | null =>
  id.startsWith(SOLVED) ? Number(id.slice(SOLVED.length)) : null;

/** Findings in a span for which a number may be solved: more at once are not asked about by pointing at a place. */
const MOST_SOLVED = 6;

/** The findings of {@link fixesAt} that are worth solving, the gravest first. */
export const solvableAt = (analysis: Analysis, file: string, span: Span): PlacedFinding[] => {
  const gravity = { error: 0, warning: 1, information: 2 } as const;
  return analysis.findings
    .filter(({ place }) => place.file === file && touches(place.span, span))
    .filter((finding) => mayBeSolved(finding, analysis))
    .sort((a, b) => gravity[a.severity] - gravity[b.severity])
    .slice(0, MOST_SOLVED);
};

/** Solves a finding step by step: whoever asked can give up between two steps. */
export const solveSteps = (analysis: Analysis, finding: PlacedFinding): Generator<void, readonly Solved[]> =>
  solving(finding, analysis);

/**
 * The quick fixes of a place with what was solved for its findings: solved ones stand before the waiver. What two findings
 * would both write (two ends at one node, two books on one figure) is offered once.
 */
export function withSolved(
  analysis: Analysis,
  fixes: readonly QuickFix[],
  solved: ReadonlyMap<PlacedFinding, readonly Solved[]>,
): readonly QuickFix[] {
  const findings = [...new Set([...fixes.map(({ finding }) => finding), ...solved.keys()])];
  const seen = new Set<string>();
  const once = (edits: readonly TextEdit[]): boolean => {
    const key = JSON.stringify(edits.map(({ file, span, newText }) => [file, span.start, span.end, newText]));
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  };
  return findings.flatMap((finding) => {
    const cheap = fixes.filter((fix) => fix.finding === finding && once(solveFix(analysis, fix.id, finding)));
    const taken = cheap.some(({ preferred }) => preferred);
    const offers = (solved.get(finding) ?? []).flatMap(({ title, edits }, i): readonly QuickFix[] =>
      once(edits) ? [{ title, preferred: !taken && i === 0, finding, id: `${SOLVED}${String(i)}` }] : [],
    );
    return [...cheap.filter(({ id }) => id !== 'waive'), ...offers, ...cheap.filter(({ id }) => id === 'waive')];
  });
}
