/**
 * Findings on their way to the editor. Each document has one channel: an open one is asked for by clients that ask, and sent to
 * those that do not; a file that is not open but reached by an open one is always sent. Lists that did not change
 * are not sent again, and nothing is ever emptied on the way to a new list.
 */
import {
  DocumentDiagnosticReportKind,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type PublishDiagnosticsParams,
} from 'vscode-languageserver/node.js';
import type { Analysis } from '../project/project';
import type { ClientFeatures } from './client-features';
import { diagnosticOf } from './convert';
import { describeFault, type Log } from './guard';
import type { View, Workspace } from './workspace';

export interface Channel {
  publish(params: PublishDiagnosticsParams): Promise<void>;
  /** Asks the client to ask again. */
  refresh(): void;
  /** An open document has been judged anew. */
  judged(uri: string): void;
}

interface Told {
  readonly text: string;
  readonly id: string;
}

export class Diagnostics {
  /** What a client that asks was told last, by URI. */
  private readonly answered = new Map<string, Told>();
  /** What was sent last, by URI. */
  private readonly sent = new Map<string, string>();
  private readonly waiting = new Set<string>();
  /** Documents that the editor itself changed: sent even when the list is the same, with their new version. */
  private readonly edited = new Set<string>();
  /** The judgement that was told last, by URI. */
  private readonly judged = new Map<string, Analysis>();
  private running = false;
  private count = 0;

  constructor(
    private readonly workspace: Workspace,
    private readonly features: ClientFeatures,
    private readonly channel: Channel,
    private readonly log: Log,
  ) {}

  /**
   * The text of these open documents, or of something that they reach, has changed.
   * @param edited the document that the editor opened or changed; null when a disk or another document did
   */
  changed(uris: readonly string[], edited: string | null): void {
    if (edited !== null) this.edited.add(edited);
    for (const uri of uris) this.waiting.add(uri);
    if (this.running) return;
    this.running = true;
    void this.drain();
  }

  /** A document opened: if it was sent while it was closed and will now be asked for, what was sent goes. */
  opened(uri: string): void {
    if (this.features.pullDiagnostics) this.clear(uri);
  }

  /** A document closed. What others find in it is sent with their next pass. */
  closed(uri: string): void {
    this.answered.delete(uri);
    this.edited.delete(uri);
    this.waiting.delete(uri);
    this.judged.delete(uri);
    this.clear(uri);
  }

  /** The answer to a client that asks. */
  async answer(uri: string, previousResultId: string | undefined): Promise<DocumentDiagnosticReport> {
    const list = await this.listOf(uri);
    const before = this.answered.get(uri);
    // After a fault the client keeps what it has; with nothing told yet, there is nothing to keep.
    if (list === null && before !== undefined && before.id === previousResultId) {
      return { kind: DocumentDiagnosticReportKind.Unchanged, resultId: before.id };
    }
    const items = list?.items ?? [];
    const text = JSON.stringify(items);
    const told = before?.text === text ? before : { text, id: String((this.count += 1)) };
    this.answered.set(uri, told);
    if (told.id === previousResultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId: told.id };
    return { kind: DocumentDiagnosticReportKind.Full, resultId: told.id, items };
  }

  private clear(uri: string): void {
    if (this.sent.delete(uri)) void this.publish({ uri, diagnostics: [] });
  }

  private async publish(params: PublishDiagnosticsParams): Promise<void> {
    try {
      await this.channel.publish(params);
    } catch (fault) {
      this.log.error(`Sending problems failed: ${describeFault(fault)}`);
    }
  }

  private async drain(): Promise<void> {
    try {
      while (this.waiting.size > 0) await this.round();
    } catch (fault) {
      this.log.error(`Finding problems failed: ${describeFault(fault)}`);
    } finally {
      this.running = false;
    }
  }

  private async round(): Promise<void> {
    // What the person is typing in comes first.
    const uris = [...this.waiting].sort((a, b) => Number(this.edited.has(b)) - Number(this.edited.has(a)));
    this.waiting.clear();
    const reached = new Set<string>();
    let asked = false;
    for (const uri of uris) {
      const view = await this.workspace.view(uri);
      if (view !== null) {
        for (const key of view.analysis.trees.keys()) reached.add(view.space.uriOf(key));
        this.tellJudged(view);
      }
      asked = (await this.tell(uri)) || asked;
    }
    for (const uri of reached) if (!uris.includes(uri)) asked = (await this.tell(uri)) || asked;
    await this.forgetUnreached();
    if (asked && this.features.refreshDiagnostics) this.channel.refresh();
  }

  /** What hangs on the whole judgement, and not on the list alone, is told once for each. */
  private tellJudged({ uri, analysis }: View): void {
    if (this.judged.get(uri) === analysis || !this.workspace.isOpen(uri)) return;
    this.judged.set(uri, analysis);
    this.channel.judged(uri);
  }

  /** Sends a document's list, if it changed; true when a client that asks has to ask again. */
  private async tell(uri: string): Promise<boolean> {
    const edited = this.edited.has(uri);
    const open = this.workspace.isOpen(uri);
    if (open && this.features.pullDiagnostics) {
      this.edited.delete(uri);
      // After its own edit the client asks by itself.
      if (edited) return false;
      const list = await this.listOf(uri);
      const before = this.answered.get(uri);
      return list !== null && before !== undefined && before.text !== JSON.stringify(list.items);
    }
    const list = await this.listOf(uri);
    // Newer edits put it on the list again; after a fault the last list stays.
    if (list === null || this.workspace.isOpen(uri) !== open) return false;
    const text = JSON.stringify(list.items);
    this.edited.delete(uri);
    if (!edited && (this.sent.get(uri) ?? '[]') === text) return false;
    if (text === '[]' && !open) this.sent.delete(uri);
    else this.sent.set(uri, text);
    const { version } = list;
    await this.publish({ uri, diagnostics: list.items, ...(version === null ? {} : { version }) });
    return false;
  }

  /** Empties what was sent for files that are neither open nor reached any more. */
  private async forgetUnreached(): Promise<void> {
    const closed = [...this.sent.keys()].filter((uri) => !this.workspace.isOpen(uri));
    if (closed.length === 0) return;
    const views = await this.workspace.views();
    for (const uri of closed) if (!views.some((view) => view.keyOf(uri) !== null)) this.clear(uri);
  }

  /**
   * The list of a document. Cars that use it judge it; a part that no open car uses judges itself, and so does a car.
   * Null when there is nothing to go by.
   */
  private async listOf(uri: string): Promise<{ items: Diagnostic[]; version: number | null } | null> {
    const own = await this.workspace.view(uri);
    if (own === null && this.workspace.isOpen(uri)) return null;
    const judges = own?.analysis.cage.isCar === true ? [own] : await this.judgesOf(uri, own);
    const seen = new Set<string>();
    const items: Diagnostic[] = [];
    for (const view of judges) {
      const key = view.keyOf(uri);
      const document = key === null ? null : view.document(key);
      if (document === null) continue;
      for (const finding of view.analysis.findings) {
        if (finding.place.file !== key) continue;
        const { start, end } = finding.place.span;
        const mark = `${finding.code} ${String(start)} ${String(end)} ${finding.message}`;
        if (seen.has(mark)) continue;
        seen.add(mark);
        items.push(diagnosticOf(view, document, finding, this.features));
      }
    }
    return { items, version: own?.version ?? null };
  }

  private async judgesOf(uri: string, own: View | null): Promise<View[]> {
    const others = (await this.workspace.views()).filter((view) => view.uri !== uri && view.keyOf(uri) !== null);
    const cars = others.filter((view) => view.analysis.cage.isCar);
    if (cars.length > 0) return cars;
    return own === null ? others : [own];
  }
}
