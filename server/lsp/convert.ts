/** Offsets to positions and back, and findings to the protocol's diagnostics. The only place that knows lines and characters. */
import {
  DiagnosticSeverity,
  type Diagnostic,
  type DiagnosticRelatedInformation,
  type Position,
  type Range,
} from 'vscode-languageserver/node.js';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { PlacedFinding, Severity, Span } from '../../grammar/finding';
import type { ClientFeatures } from './client-features';
import { explainLink } from './explain-link';
import type { View } from './workspace';

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
};

export const rangeOf = (document: TextDocument, span: Span): Range => ({
  start: document.positionAt(span.start),
  end: document.positionAt(Math.max(span.start, span.end)),
});

export const offsetOf = (document: TextDocument, position: Position): number => document.offsetAt(position);

export const spanOf = (document: TextDocument, range: Range): Span => ({
  start: document.offsetAt(range.start),
  end: document.offsetAt(range.end),
});

/** What a quick fix needs to find its finding again. */
export interface DiagnosticData {
  readonly root: string;
  readonly code: string;
  readonly subject: string;
}

const related = (view: View, finding: PlacedFinding): DiagnosticRelatedInformation[] =>
  finding.notes.flatMap(({ place, message }) => {
    const document = place === null ? null : view.document(place.file);
    if (place === null || document === null) return [];
    return [{ location: { uri: document.uri, range: rangeOf(document, place.span) }, message }];
  });

/**
 * A finding as a diagnostic.
 * @param document the text that the finding stands in
 * @param features whether the client shows notes at their own places (otherwise they are told in the message), and pages
 */
export const diagnosticOf = (
  view: View,
  document: TextDocument,
  finding: PlacedFinding,
  { relatedInformation: withRelated, explainScheme }: Pick<ClientFeatures, 'relatedInformation' | 'explainScheme'>,
): Diagnostic => {
  const elsewhere = finding.notes.filter((note) => !withRelated || note.place === null).map((note) => note.message);
  const message = [finding.waived ? `Waived. ${finding.message}` : finding.message, ...elsewhere].join('\n');
  const data: DiagnosticData = { root: view.uri, code: finding.code, subject: finding.subject };
  const notes = withRelated ? related(view, finding) : [];
  return {
    range: rangeOf(document, finding.place.span),
    // An editor's list leaves hints out, and a waived finding stays in every list.
    severity: finding.waived ? DiagnosticSeverity.Information : SEVERITIES[finding.severity],
    code: finding.code,
    ...(explainScheme === null ? {} : { codeDescription: explainLink(explainScheme, finding.code, view.uri) }),
    source: finding.rule === undefined ? 'cagewright' : `cagewright, ${finding.rule.book}`,
    message,
    data,
    ...(notes.length > 0 ? { relatedInformation: notes } : {}),
  };
};
