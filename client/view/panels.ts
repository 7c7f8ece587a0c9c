/** All panels: one for each car, opened by a command, restored with the window, told what happens in the texts. */
import { commands, Disposable, Uri, ViewColumn, window, workspace } from 'vscode';
import { State } from 'vscode-languageclient/node';
import { documentAsked } from '../report';
import { nameOf } from '../save';
import { readKept } from './messages';
import { CarPanel, pageFolder, type Surroundings } from './panel';

const VIEW_TYPE = 'cagewright.view';

/** Registers all that the panels need; disposing of the answer takes it back. */
export const watchPanels = (around: Surroundings): Disposable => {
  const panels = new Set<CarPanel>();
  const { client, language } = around;

  const takeOver = (panel: ConstructorParameters<typeof CarPanel>[1], asked: Uri): void => {
    const car = new CarPanel(around, panel, asked, () => panels.delete(car));
    panels.add(car);
    const editor = window.visibleTextEditors.find(({ document }) => document.uri.toString() === asked.toString());
    if (editor !== undefined) car.cursorMoved(editor, undefined);
  };

  const show = (target: unknown): void => {
    const uri = target instanceof Uri ? target : documentAsked(language)?.uri;
    if (uri === undefined) {
      void window.showInformationMessage('Open the cage file of the car.');
      return;
    }
    const open = [...panels].find((panel) => panel.shows(uri));
    if (open !== undefined) {
      open.bringUp();
      return;
    }
    const where = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    // Nothing is kept of a hidden page but its state: the car is drawn again within a blink, and a hidden one costs nothing.
    const options = { enableScripts: true, localResourceRoots: [pageFolder(around.home)] };
    takeOver(window.createWebviewPanel(VIEW_TYPE, nameOf(uri), where, options), uri);
  };

  const tell = (uri: Uri): void => {
    for (const panel of panels) if (panel.shows(uri)) panel.changed();
  };

  return Disposable.from(
    commands.registerCommand('cagewright.showCar', show),
    window.registerWebviewPanelSerializer(VIEW_TYPE, {
      deserializeWebviewPanel: (panel, state: unknown) => {
        const kept = readKept(state);
        if (kept === null) panel.dispose();
        else takeOver(panel, client.protocol2CodeConverter.asUri(kept.uri));
        return Promise.resolve();
      },
    }),
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (contentChanges.length > 0) tell(document.uri);
    }),
    workspace.onDidCloseTextDocument(({ uri }) => tell(uri)),
    workspace.onDidRenameFiles(({ files }) => {
      for (const panel of panels) for (const { oldUri, newUri } of files) if (panel.shows(oldUri)) panel.moved(newUri);
    }),
    window.onDidChangeTextEditorSelection(({ textEditor, kind }) => {
      if (textEditor.document.languageId !== language) return;
      for (const panel of panels) panel.cursorMoved(textEditor, kind);
    }),
    client.onNotification('cagewright/judged', (params: unknown) => {
      const judged = readKept(params);
      if (judged === null) return;
      const uri = client.protocol2CodeConverter.asUri(judged.uri);
      for (const panel of panels) if (panel.shows(uri)) panel.judged();
    }),
    // After a fall the new server knows nothing of what was asked.
    client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) for (const panel of panels) panel.changed();
    }),
  );
};
