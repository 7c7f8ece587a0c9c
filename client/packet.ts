/** The command that writes the shop papers: asks the person for a folder, the server for the rest. */
import { env, ProgressLocation, Uri, window, workspace } from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { documentAsked } from './report';

interface Packet {
  readonly why: string | null;
  readonly page: string;
  readonly papers: number;
  readonly errors: number;
  readonly stopped: number;
}

/** Says what went wrong instead of failing; nothing of others is written over without the person's word. */
export const writePacket = async (client: LanguageClient, language: string, version: string): Promise<void> => {
  const document = documentAsked(language);
  if (document === null) {
    void window.showInformationMessage('Open the cage file that the shop papers are for.');
    return;
  }
  const { uri } = document;
  const picked = await window.showOpenDialog({
    canSelectFiles: false,
    canSelectFolders: true,
    canSelectMany: false,
    ...(uri.scheme === 'file' ? { defaultUri: Uri.joinPath(uri, '..') } : {}),
    openLabel: 'Put the Papers Here',
    title: 'Folder for the Shop Papers',
  });
  const folder = picked?.[0];
  if (folder === undefined) return;
  const ask = (force: boolean): Thenable<Packet | null> =>
    window.withProgress({ location: ProgressLocation.Notification, title: 'Making the shop papers' }, () =>
      client.sendRequest<Packet | null>('cagewright/packet', {
        textDocument: { uri: client.code2ProtocolConverter.asUri(uri) },
        folder: client.code2ProtocolConverter.asUri(folder),
        force,
        version,
      }),
    );
  let packet = await ask(false);
  if (packet?.why?.includes('--force') === true) {
    const over = 'Write Over';
    const detail = packet.why.replace(/: --force writes over it/, '');
    if ((await window.showWarningMessage('Files of others lie there.', { modal: true, detail }, over)) !== over) return;
    packet = await ask(true);
  }
  if (packet === null) {
    void window.showErrorMessage('The shop papers could not be made: a folder on the disk is needed for them.');
    return;
  }
  if (packet.why !== null) {
    void window.showErrorMessage(`The shop papers were not written. ${packet.why}`);
    return;
  }
  const errors =
    packet.errors === 0
      ? ''
      : ` Errors are open: ${packet.stopped === 1 ? 'one part has' : `${String(packet.stopped)} parts have`} no templates.`;
  const open = 'Open in Browser';
  const place = workspace.asRelativePath(Uri.joinPath(Uri.file(packet.page), '..'));
  const said = `${String(packet.papers)} shop papers are written to ${place}.${errors}`;
  const chosen = await (errors === ''
    ? window.showInformationMessage(said, open)
    : window.showWarningMessage(said, open));
  if (chosen === open) await env.openExternal(Uri.file(packet.page));
};
