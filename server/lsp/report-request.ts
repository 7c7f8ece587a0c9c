/** `cagewright/report`: the page for the scrutineer of the car that a document belongs to. The editor writes it to a file. */
import { createHash } from 'node:crypto';
import type { Connection } from 'vscode-languageserver/node.js';
import { reportHtml } from '../project/report';
import { rangeOf } from './convert';
import type { Guard } from './guard';
import type { Workspace } from './workspace';

export interface ReportAnswer {
  readonly html: string;
  /** The document of the judged car: of a file that a car uses, that of the car. */
  readonly uri: string;
  /** Findings at error that are not waived. */
  readonly errors: number;
}

interface ReportParams {
  readonly textDocument: { readonly uri: string };
  /** Of the extension, for the line that says who made the page. */
  readonly version?: unknown;
}

const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

/** Answers with the page for the newest text; null where the document is not open. */
export const listenToReport = (connection: Connection, guard: Guard, workspace: Workspace): void => {
  connection.onRequest(
    'cagewright/report',
    guard.request('The report', 'document', null, async (params: ReportParams): Promise<ReportAnswer | null> => {
      const found = await workspace.fullestView(params.textDocument.uri);
      if (found === null) return null;
      const { view } = found;
      const { version } = params;
      const html = reportHtml(view.analysis, {
        hashOf: sha256,
        placeOf: ({ place }) => {
          const document = view.document(place.file);
          return document === null
            ? place.file
            : `${place.file}:${String(rangeOf(document, place.span).start.line + 1)}`;
        },
        maker: typeof version === 'string' ? `Cagewright ${version}` : 'Cagewright',
        date: null,
      });
      const errors = view.analysis.findings.filter(({ waived, severity }) => !waived && severity === 'error').length;
      return { html, uri: view.uri, errors };
    }),
  );
};
