/**
 * Runs the stages: text -> tree -> cage -> shape -> judgement -> placed findings, and holds their caches.
 * Every cache is bounded and keyed by content, so that a project can live for as long as the editor does.
 */
import { parseFile, StatementCache } from '../../grammar/parser';
import type { FileTree } from '../../grammar/tree';
import { CageKeeper } from '../cage/build';
import { ShapeCache, shapeOf } from '../geometry/index';
import { BOOKS } from '../rules/books';
import { judge } from '../rules/judge';
import { loadSources } from './load';
import { placeFindings } from './placing';
import type { Analysis, Host, Sources } from './project';

/** Files whose trees are kept, the least recently used goes first. A car and its parts are a handful. */
const KEPT_TREES = 64;

const BOOK_NAMES: readonly string[] = BOOKS.map((book) => book.name);

export class Project {
  private readonly statements = new StatementCache();
  private readonly cages = new CageKeeper();
  private readonly shapes = new ShapeCache();
  private readonly trees = new Map<string, FileTree>();
  private parses = 0;

  /** The tree of a text: the kept one while the text is the same. */
  parse(file: string, text: string): FileTree {
    const kept = this.trees.get(file);
    if (kept !== undefined) this.trees.delete(file);
    const tree = kept?.text === text ? kept : this.parseAnew(file, text);
    this.trees.set(file, tree);
    for (const oldest of this.trees.keys()) {
      if (this.trees.size <= KEPT_TREES) break;
      this.trees.delete(oldest);
    }
    return tree;
  }

  private parseAnew(file: string, text: string): FileTree {
    this.parses += 1;
    return parseFile(file, text, this.statements);
  }

  /** Loads a judged file with all that it uses. `text` is the editor's own, saved or not. */
  load(host: Host, file: string, text: string): Promise<Sources> {
    return loadSources(host, file, text, (name, content) => this.parse(name, content));
  }

  /** Everything that is known about the judged file. Synchronous and pure but for the caches. */
  analyse(sources: Sources): Analysis {
    const trees = new Map([...sources.files].map(([file, text]) => [file, this.parse(file, text)]));
    const cage = this.cages.build({ root: sources.root, trees, uses: sources.uses, books: BOOK_NAMES });
    const shape = shapeOf(cage, this.shapes);
    const { findings, waivers } = placeFindings({ cage, shape, trees, judged: judge(cage, shape) });
    const runs = {
      parse: this.parses,
      statement: this.statements.takeRuns(),
      evaluate: this.cages.takeRuns(),
      ...this.shapes.takeRuns(),
    };
    this.parses = 0;
    return { root: sources.root, trees, cage, shape, findings, waivers, runs };
  }
}
