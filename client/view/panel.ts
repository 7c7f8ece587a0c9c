/** One panel: the page, what its conversation has done for it, and its life. */
import { randomBytes } from 'node:crypto';
import {
  commands,
  env,
  MarkdownString,
  Range,
  Selection,
  TabInputText,
  TextEditorRevealType,
  type TextEditorSelectionChangeKind,
  Uri,
  ViewColumn,
  window,
  workspace,
  WorkspaceEdit,
  type Hover,
  type MarkedString,
  type TextEditor,
  type WebviewPanel,
} from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import type {
  ExportAnswer,
  ExportParams,
  MeasureAnswer,
  MeasureParams,
  TextPlace,
  TryAnswer,
  TryParams,
  ViewParams,
  ViewWindow,
  WireModel,
} from '../../server/lsp/view-wire';
import { nameOf, placeBeside, saveAsked } from '../save';
import { Conversation, type About, type Have, type Ports } from './conversation';
import { Drops } from './drops';
import type { ExportKind } from './messages';
import { pageHtml } from './page';

/** What a panel needs from the extension. */
export interface Surroundings {
  readonly client: LanguageClient;
  readonly language: string;
  /** Of the extension itself: its files, its version. */
  readonly home: Uri;
  readonly version: string;
}

/** So long must nobody have typed before what takes its time is asked. */
const QUIET_MS = 800;

const FILTERS: Readonly<Record<ExportKind, Readonly<Record<string, readonly string[]>>>> = {
  plan: { Drawing: ['svg'] },
  side: { Drawing: ['svg'] },
  front: { Drawing: ['svg'] },
  glb: { 'glTF model': ['glb'] },
};
const TITLES: Readonly<Record<ExportKind, string>> = {
  plan: 'Plan of the Car',
  side: 'Side View of the Car',
  front: 'Front View of the Car',
  glb: 'Model for Other Programs',
};

const textOf = (piece: MarkdownString | MarkedString): string =>
  typeof piece === 'string' ? piece : piece instanceof MarkdownString ? piece.value : `\`\`\`\n${piece.value}\n\`\`\``;

const rangeOf = ({ start, end }: TextPlace): Range => new Range(start.line, start.character, end.line, end.character);

const versionOf = (uri: string): number | null =>
  workspace.textDocuments.find((document) => document.uri.toString() === uri)?.version ?? null;

const seenEditor = (uri: Uri): TextEditor | undefined =>
  window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri.toString());

/** The folder of what the page may load, which holds the bundle and nothing of the person's. */
export const pageFolder = (home: Uri): Uri => Uri.joinPath(home, 'client', 'dist');

export class CarPanel {
  private readonly ports: Ports;
  private readonly conversation: Conversation;
  private readonly drops = new Drops();
  /** Where the panel itself put the cursor last. */
  private placed: { readonly uri: string; readonly at: Range['start'] } | null = null;

  /** Takes a panel over: fills its page and listens to it until it is closed. */
  constructor(
    private readonly around: Surroundings,
    private readonly panel: WebviewPanel,
    private asked: Uri,
    gone: () => void,
  ) {
    this.ports = this.makePorts();
    this.conversation = new Conversation(this.ports, this.about());
    const { webview } = panel;
    const listeners = [
      webview.onDidReceiveMessage((message: unknown) => this.conversation.heard(message)),
      // A hidden panel has no page: it begins anew when it is seen again.
      panel.onDidChangeViewState(() => {
        if (!panel.visible) this.conversation.away();
      }),
    ];
    panel.onDidDispose(() => {
      this.conversation.away();
      for (const listener of listeners) listener.dispose();
      gone();
    });
    const folder = pageFolder(around.home);
    webview.options = { enableScripts: true, enableForms: false, localResourceRoots: [folder] };
    webview.html = pageHtml({
      source: webview.cspSource,
      script: webview.asWebviewUri(Uri.joinPath(folder, 'view.js')).toString(),
      style: webview.asWebviewUri(Uri.joinPath(folder, 'view.css')).toString(),
      nonce: randomBytes(16).toString('hex'),
    });
    if (panel.visible) this.conversation.awaitPage();
  }

  /** Names the panel after its document. */
  private about(): About {
    const name = nameOf(this.asked);
    this.panel.title = `Car: ${name}`;
    return { uri: this.around.client.code2ProtocolConverter.asUri(this.asked), name };
  }

  /** The document was renamed. */
  moved(to: Uri): void {
    this.asked = to;
    this.conversation.moved(this.about());
  }

  /** Whether this is the picture of that document. */
  shows(uri: Uri): boolean {
    return uri.toString() === this.asked.toString() || this.sameFile(this.conversation.uri, uri.toString());
  }

  bringUp(): void {
    this.panel.reveal(undefined, true);
  }

  changed(): void {
    this.conversation.changed();
  }

  judged(): void {
    this.conversation.judged();
  }

  /** `kind`: how, as far as the editor tells. */
  cursorMoved(
    { document, selection }: Pick<TextEditor, 'document' | 'selection'>,
    kind: TextEditorSelectionChangeKind | undefined,
  ): void {
    const [uri, at] = [document.uri.toString(), selection.active];
    const own = this.placed?.uri === uri && this.placed.at.isEqual(at);
    this.placed = null;
    this.conversation.cursorMoved({ uri, at: { line: at.line, character: at.character } }, kind !== undefined && !own);
  }

  private codeUri(uri: string): Uri {
    return this.around.client.protocol2CodeConverter.asUri(uri);
  }

  private sameFile(a: string, b: string): boolean {
    return a === b || this.codeUri(a).toString() === this.codeUri(b).toString();
  }

  /** The document is opened where it is not: the server knows what is open. */
  private async textDocument(): Promise<ViewParams['textDocument']> {
    const { client, language } = this.around;
    const document = await workspace.openTextDocument(this.asked);
    if (document.languageId !== language) throw new Error(`${nameOf(this.asked)} is not a cage file.`);
    return { uri: client.code2ProtocolConverter.asUri(document.uri) };
  }

  private makePorts(): Ports {
    const { client } = this.around;
    return {
      post: (message) => void this.panel.webview.postMessage(message),
      model: async (have: Have) => {
        const params: ViewParams = { textDocument: await this.textDocument(), have };
        return client.sendRequest<WireModel | null>('cagewright/view', params);
      },
      window: async () =>
        client.sendRequest<ViewWindow | null>('cagewright/viewWindow', { textDocument: await this.textDocument() }),
      pause: () => new Promise((done) => setTimeout(done, QUIET_MS)),
      tryMove: async (node, to, have) => {
        const params: TryParams = { textDocument: await this.textDocument(), have, node, to };
        return client.sendRequest<TryAnswer | null>('cagewright/viewTry', params);
      },
      measure: async (a, b) => {
        const params: MeasureParams = { textDocument: await this.textDocument(), a, b };
        return client.sendRequest<MeasureAnswer | null>('cagewright/measure', params);
      },
      stamp: () =>
        JSON.stringify(
          workspace.textDocuments
            .filter(({ languageId }) => languageId === this.around.language)
            .map(({ uri, version }) => [uri.toString(), version]),
        ),
      write: (edits, stamp) => this.write(edits, stamp),
      undo: () => this.undo(),
      reveal: (place, focus) => this.reveal(place, focus),
      hover: (place) => this.hover(place),
      copy: async (text) => env.clipboard.writeText(text),
      savePicture: async (content) => {
        const name = nameOf(this.asked).replace(/(\.cage)?$/i, '.png');
        const proposed = placeBeside(this.asked, name);
        return this.said(
          await saveAsked({ proposed, filters: { Picture: ['png'] }, title: 'Picture of the Car', content }),
        );
      },
      save: (kind) => this.save(kind),
      sameFile: (a, b) => this.sameFile(a, b),
    };
  }

  private said(written: Uri | null): string | null {
    return written === null ? null : `${nameOf(written)} is written.`;
  }

  private async save(kind: ExportKind): Promise<string | null> {
    const { client, version } = this.around;
    const params: ExportParams = { textDocument: await this.textDocument(), kind, version };
    const answer = await client.sendRequest<ExportAnswer | null>('cagewright/export', params);
    if (answer === null) throw new Error('there is nothing to draw yet.');
    const content = new Uint8Array(Buffer.from(answer.content, 'base64'));
    const proposed = placeBeside(this.asked, answer.name);
    return this.said(await saveAsked({ proposed, filters: FILTERS[kind], title: TITLES[kind], content }));
  }

  private async write(edits: TryAnswer['edits'], stamp: string): Promise<boolean> {
    const edit = new WorkspaceEdit();
    for (const { place, text } of edits) edit.replace(this.codeUri(place.uri), rangeOf(place), text);
    const [only, ...others] = new Set(edits.map(({ place }) => this.codeUri(place.uri).toString()));
    const before = only === undefined ? null : versionOf(only);
    // Between this question and the edit nothing waits: no text changes unseen.
    if (this.ports.stamp() !== stamp) return false;
    const written = await workspace.applyEdit(edit);
    const after = only === undefined ? null : versionOf(only);
    // What was written into several texts is taken back there.
    if (written && only !== undefined && others.length === 0 && before !== null && after !== null)
      this.drops.wrote(only, before, after);
    return written;
  }

  /** The editor's undo is of the editor that has the keyboard: it gets it, and the panel has it back. */
  private async undo(): Promise<string> {
    const uri = this.drops.next(versionOf);
    if (uri === null)
      return 'What was dragged here last is not the last change of one text (more was typed, or it changed two files): undo it in the text.';
    await this.show(Uri.parse(uri), true);
    await commands.executeCommand('undo');
    this.drops.undone(versionOf);
    this.panel.reveal(undefined, false);
    return 'Taken back.';
  }

  private async reveal(place: TextPlace, focus: boolean): Promise<void> {
    const uri = this.codeUri(place.uri);
    const range = rangeOf(place);
    this.placed = { uri: uri.toString(), at: range.start };
    const seen = seenEditor(uri);
    if (seen !== undefined && !focus) {
      seen.selection = new Selection(range.start, range.start);
      seen.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
      return;
    }
    await this.show(uri, focus, new Range(range.start, range.start));
  }

  private async show(uri: Uri, focus: boolean, selection?: Range): Promise<void> {
    const seen = seenEditor(uri);
    await window.showTextDocument(await workspace.openTextDocument(uri), {
      viewColumn: seen?.viewColumn ?? this.columnOf(uri),
      preserveFocus: !focus,
      ...(selection === undefined ? {} : { selection }),
    });
  }

  /** Where a document has its tab; of one that has none, beside the panel. */
  private columnOf(uri: Uri): ViewColumn {
    const group = window.tabGroups.all.find(({ tabs }) =>
      tabs.some(({ input }) => input instanceof TabInputText && input.uri.toString() === uri.toString()),
    );
    if (group !== undefined) return group.viewColumn;
    const beside = window.tabGroups.all.find(({ viewColumn }) => viewColumn !== this.panel.viewColumn);
    return beside?.viewColumn ?? ViewColumn.Beside;
  }

  private async hover(place: TextPlace): Promise<string> {
    const { uri } = await workspace.openTextDocument(this.codeUri(place.uri));
    const at = rangeOf(place).start;
    const hovers = await commands.executeCommand<readonly Hover[]>('vscode.executeHoverProvider', uri, at);
    return hovers.flatMap(({ contents }) => contents.map(textOf)).join('\n\n');
  }
}
