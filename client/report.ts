/** The command that writes the report for the scrutineer: asks the server for the page, the person for the file. */
import { env, Uri, window, type TextDocument } from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { nameOf, placeBeside, saveAsked } from './save';

interface Report {
  readonly html: string;
  readonly uri: string;
  readonly errors: number;
}

/** The cage file in front of the person: that of the active editor, else the only one that is seen. */
export const documentAsked = (language: string): TextDocument | null => {
  const active = window.activeTextEditor?.document;
  if (active?.languageId === language) return active;
  const seen = window.visibleTextEditors.map(({ document }) => document).filter((one) => one.languageId === language);
  return seen.length === 1 ? (seen[0] ?? null) : null;
};

/** Says what went wrong instead of failing; nothing is written over without the person's word. */
export const writeReport = async (client: LanguageClient, language: string, version: string): Promise<void> => {
  const document = documentAsked(language);
  if (document === null) {
    void window.showInformationMessage('Open the cage file that the report is for.');
    return;
  }
  const report = await client.sendRequest<Report | null>('cagewright/report', {
    textDocument: { uri: client.code2ProtocolConverter.asUri(document.uri) },
    version,
  });
  if (report === null) {
    void window.showErrorMessage('The report could not be made. See the output “Cagewright”.');
    return;
  }
  const car = Uri.parse(report.uri);
  const target = await saveAsked({
    proposed: placeBeside(car, nameOf(car).replace(/(\.cage)?$/i, '-report.html')),
    filters: { 'Web page': ['html'] },
    title: 'Report for the Scrutineer',
    content: new TextEncoder().encode(report.html),
  });
  if (target === null) return;
  const errors =
    report.errors === 0
      ? ''
      : report.errors === 1
        ? ' An error stands in it.'
        : ` ${String(report.errors)} errors stand in it.`;
  const open = 'Open in Browser';
  const chosen = await window.showInformationMessage(`The report is written.${errors}`, open);
  if (chosen === open) await env.openExternal(target);
};
