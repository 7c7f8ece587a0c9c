/**
 * What the editor has open and what the project makes of it. An analysis is kept until something that it reached
 * changes; one that is under way when that happens starts again, so that nobody is ever answered from an old text.
 */
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis, Sources } from '../project/project';
import { sameUri, spaceOf, type OpenTexts, type ReadByEditor, type Space } from './folders';
import { describeFault, nextTurn, type Log } from './guard';

/** The project's door, as far as the server uses it. One for each space, since it holds caches. */
export interface Compiler {
  load(host: Space['host'], rootFile: string, text: string): Promise<Sources>;
  analyse(sources: Sources): Analysis;
}

/** An analysis of an open document, with the way from its keys to URIs and positions. */
export interface View {
  /** As the client spells it. */
  readonly uri: string;
  readonly key: string;
  readonly version: number;
  readonly analysis: Analysis;
  readonly space: Space;
  /** Under which key it holds a document; null when it does not reach it. */
  keyOf(uri: string): string | null;
  /** The text of a file as it was analysed; null for a file that it did not reach. */
  document(key: string): TextDocument | null;
}

interface Root {
  space: Space;
  key: string;
  /** Counts what happened to the document and to what it reaches. */
  epoch: number;
  /** The newest analysis, done or under way. */
  view: Promise<View | null> | null;
  done: boolean;
  /** Everything that the last pass reached, in the spelling of `sameUri`. */
  reach: ReadonlySet<string>;
  /** Something that it wanted was not there: a new file may mend that. */
  holes: boolean;
}

export interface OpenDocuments {
  get(uri: string): TextDocument | undefined;
  all(): TextDocument[];
}

export class Workspace {
  private folders: readonly string[] = [];
  private readonly roots = new Map<string, Root>();
  /** Same-spelling -> the client's spelling, of open documents. */
  private readonly spellings = new Map<string, string>();
  private readonly compilers = new Map<string, Compiler>();
  /** Called when an analysis has found out what it reaches. */
  onReach: (() => void) | null = null;
  private readonly open: OpenTexts = {
    text: (uri) => {
      const spelling = this.spellings.get(uri);
      return spelling === undefined ? null : (this.documents.get(spelling)?.getText() ?? null);
    },
    spelling: (uri) => this.spellings.get(sameUri(uri)) ?? uri,
  };

  constructor(
    private readonly documents: OpenDocuments,
    private readonly newCompiler: () => Compiler,
    private readonly readByEditor: ReadByEditor,
    private readonly log: Log,
  ) {}

  folderUris(): readonly string[] {
    return this.folders;
  }

  /** Sets the workspace folders; everything is looked at anew. */
  setFolders(folders: readonly string[]): void {
    this.folders = folders;
    this.compilers.clear();
    const uris = [...this.roots.keys()];
    this.roots.clear();
    for (const uri of uris) this.opened(uri);
  }

  opened(uri: string): void {
    this.spellings.set(sameUri(uri), uri);
    const space = spaceOf(uri, this.folders, this.open, this.readByEditor);
    const root = {
      space,
      key: space.keyOf(uri) ?? uri,
      epoch: 0,
      view: null,
      done: false,
      reach: new Set<string>(),
      holes: false,
    };
    this.roots.set(uri, root);
  }

  closed(uri: string): void {
    this.roots.delete(uri);
    this.spellings.delete(sameUri(uri));
    const used = new Set([...this.roots.values()].map((root) => root.space.id));
    for (const id of this.compilers.keys()) if (!used.has(id)) this.compilers.delete(id);
  }

  isOpen(uri: string): boolean {
    return this.roots.has(uri);
  }

  /** The version that the editor has open; null where it has none. */
  versionOf(uri: string): number | null {
    return this.documents.get(uri)?.version ?? null;
  }

  /** True while a file's text, as it was analysed, is the one that the editor has open; also where it has none open. */
  isCurrent({ analysis, space }: View, file: string): boolean {
    const text = this.open.text(sameUri(space.uriOf(file)));
    return text === null || text === analysis.sources.files.get(file);
  }

  /** What the open documents reach, in one spelling: their own files, those that they use, those that are missing. */
  reached(): ReadonlySet<string> {
    return new Set([...this.roots.values()].flatMap((root) => [...root.reach]));
  }

  /** URIs of the open documents. */
  openUris(): string[] {
    return [...this.roots.keys()];
  }

  /**
   * Something happened to a file, in the editor or on the disk.
   * @returns the open documents whose analysis this concerns
   */
  touched(uri: string): string[] {
    const same = sameUri(uri);
    const concerned: string[] = [];
    for (const [rootUri, root] of this.roots) {
      if (rootUri !== uri && !root.reach.has(same) && !root.holes && root.done) continue;
      root.epoch += 1;
      if (root.done) root.view = null;
      concerned.push(rootUri);
    }
    return concerned;
  }

  /** The analysis of an open document's newest text; null when it is not open, or after a fault (which is logged). */
  view(uri: string): Promise<View | null> {
    const root = this.roots.get(uri);
    if (root === undefined) return Promise.resolve(null);
    if (root.view === null) {
      root.done = false;
      root.view = this.compute(uri, root).catch((fault: unknown) => {
        root.done = true;
        this.log.error(`The analysis of ${uri} failed: ${describeFault(fault)}`);
        return null;
      });
    }
    return root.view;
  }

  /**
   * The analysis that knows most about a document: that of an open car which uses it, else its own.
   * Null when the document is not open.
   */
  async fullestView(uri: string): Promise<{ view: View; key: string } | null> {
    const own = await this.view(uri);
    if (own === null) return null;
    if (!own.analysis.cage.isCar) {
      for (const view of await this.views()) {
        const key = view.analysis.cage.isCar ? view.keyOf(uri) : null;
        if (key !== null) return { view, key };
      }
    }
    return { view: own, key: own.key };
  }

  /** The analyses of all open documents. */
  async views(): Promise<View[]> {
    const views = await Promise.all(this.openUris().map((uri) => this.view(uri)));
    return views.filter((view) => view !== null);
  }

  /**
   * Every analysis that reaches a document: those of open documents, and of cars on the disk that nobody has open. These
   * are made for this question alone, so it is for what a person waits for.
   */
  async viewsReaching(uri: string): Promise<View[]> {
    const open = await this.views();
    const seen = new Set(open.map((view) => sameUri(view.uri)));
    const found = open.filter((view) => view.keyOf(uri) !== null);
    const spaces = new Map(found.map(({ space }) => [space.id, space]));
    for (const space of spaces.values()) {
      const compiler = this.newCompiler();
      for (const key of await space.list()) {
        const rootUri = space.uriOf(key);
        if (seen.has(sameUri(rootUri))) continue;
        seen.add(sameUri(rootUri));
        const read = await space.host.read('', key);
        if (read.kind !== 'file') continue;
        const sources = await compiler.load(space.host, key, read.text);
        if (!reachOf(sources, space).uris.has(sameUri(uri))) continue;
        found.push(this.viewOf(rootUri, 0, { space, key }, compiler.analyse(sources)));
        await nextTurn();
      }
    }
    return found;
  }

  private async compute(uri: string, root: Root): Promise<View | null> {
    for (;;) {
      const { epoch, space, key } = root;
      const document = this.documents.get(uri);
      if (document === undefined || this.roots.get(uri) !== root) {
        root.done = true;
        return null;
      }
      const version = document.version;
      const compiler = this.compilerOf(space);
      const sources = await compiler.load(space.host, key, document.getText());
      // Changes that have arrived meanwhile come first: nobody wants an answer about an old text.
      await nextTurn();
      if (root.epoch !== epoch) continue;
      const reach = reachOf(sources, space);
      root.reach = reach.uris;
      root.holes = reach.holes;
      this.onReach?.();
      const analysis = compiler.analyse(sources);
      root.done = true;
      return this.viewOf(uri, version, root, analysis);
    }
  }

  private compilerOf(space: Space): Compiler {
    const known = this.compilers.get(space.id);
    if (known !== undefined) return known;
    const made = this.newCompiler();
    this.compilers.set(space.id, made);
    return made;
  }

  private viewOf(uri: string, version: number, { space, key }: Pick<Root, 'space' | 'key'>, analysis: Analysis): View {
    const made = new Map<string, TextDocument | null>();
    const document = (file: string): TextDocument | null => {
      // The editor's own copy knows its lines already; it is used only while it is the text that was analysed.
      const live = file === key ? this.documents.get(uri) : undefined;
      if (live?.version === version) return live;
      const known = made.get(file);
      if (known !== undefined) return known;
      const text = analysis.trees.get(file)?.text;
      if (text === undefined) return null;
      const snapshot = TextDocument.create(space.uriOf(file), 'cage', file === key ? version : 0, text);
      made.set(file, snapshot);
      return snapshot;
    };
    const keyOf = (other: string): string | null => {
      const same = sameUri(other);
      for (const file of analysis.trees.keys()) if (sameUri(space.uriOf(file)) === same) return file;
      return null;
    };
    return { uri, key, version, analysis, space, document, keyOf };
  }
}

const reachOf = ({ files, uses }: Sources, space: Space): { uris: Set<string>; holes: boolean } => {
  const uris = new Set([...files.keys()].map((key) => sameUri(space.uriOf(key))));
  let holes = false;
  for (const targets of uses.values()) {
    for (const target of targets.values()) {
      if (target.kind === 'file') continue;
      holes = true;
      if (target.kind !== 'outside') uris.add(sameUri(space.uriOf(target.file)));
    }
  }
  return { uris, holes };
};

/** An open document's fullest analysis, with the text that positions belong to. */
export interface Opened {
  readonly view: View;
  readonly key: string;
  readonly document: TextDocument;
}

/** A document as requests look at it; null when it is not open. */
export const openedIn = async (workspace: Workspace, uri: string): Promise<Opened | null> => {
  const found = await workspace.fullestView(uri);
  const document = found?.view.document(found.key) ?? null;
  return found === null || document === null ? null : { ...found, document };
};
