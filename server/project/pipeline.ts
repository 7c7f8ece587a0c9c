/**
 * Runs the stages: text -> tree -> cage -> shape -> judgement -> placed findings, and holds their caches.
 * Every cache is bounded and keyed by content, so that a project can live for as long as the editor does.
 */
import { parseFile, StatementCache } from '../../grammar/parser';
import type { FileTree } from '../../grammar/tree';
import { CageKeeper } from '../cage/build';
import { ShapeCache, shapeOf } from '../geometry/index';
import { BOOKS } from '../rules/books';
import { Judging } from '../rules/judge';
import { loadSources } from './load';
import type { Sentences } from './placing';
import { placeFindings } from './placing';
import type { Analysis, Apart, Built, Host, Sources } from './project';

/** Files whose trees are kept, the least recently used goes first. A car and its parts are a handful. */
const KEPT_TREES = 64;

/**
 * Of so much text, in UTF-16 units, more is kept than the car that is being judged. A hundred times that can hang on it,
 * and a file that the editor has closed must not hold it for ever.
 */
const KEPT_TEXT = 1024 * 1024;

const BOOK_NAMES: readonly string[] = BOOKS.map((book) => book.name);

/** Judged cars of which the last run is kept, the one judged longest ago goes first. */
const KEPT_CARS = 8;

/** Cars of which the stages for trying changes are kept. */
const KEPT_TRIED = 2;

/** What is kept of one judged car. */
interface Car {
  readonly shape: ShapeCache;
  readonly judging: Judging;
  readonly sentences: Sentences;
}

/** Gives the entry of that key, made if it is new, and drops those that were wanted longest ago. */
function recent<V>(map: Map<string, V>, key: string, most: number, make: (old: V | undefined) => V): V {
  const value = make(map.get(key));
  map.delete(key);
  map.set(key, value);
  for (const oldest of map.keys()) {
    if (map.size <= most) break;
    map.delete(oldest);
  }
  return value;
}

export class Project implements Apart {
  private readonly statements = new StatementCache();
  private readonly cages = new CageKeeper();
  private readonly cars = new Map<string, Car>();
  private readonly trees = new Map<string, FileTree>();
  private readonly tried = new Map<string, Project>();
  private parses = 0;

  /** The tree of a text: the kept one while the text is the same. */
  parse(file: string, text: string): FileTree {
    return recent(this.trees, file, KEPT_TREES, (kept) => (kept?.text === text ? kept : this.parseAnew(file, text)));
  }

  private parseAnew(file: string, text: string): FileTree {
    this.parses += 1;
    return parseFile(file, text, this.statements);
  }

  /** Loads a judged file with all that it uses. `text` is the editor's own, saved or not. */
  load(host: Host, file: string, text: string): Promise<Sources> {
    return loadSources(host, file, text, (name, content) => this.parse(name, content));
  }

  /** The first stages alone: text to tree to cage. */
  build(sources: Sources): Built {
    const trees = new Map([...sources.files].map(([file, text]) => [file, this.parse(file, text)]));
    const cage = this.cages.build({ root: sources.root, trees, uses: sources.uses, books: BOOK_NAMES });
    return { trees, cage };
  }

  /**
   * A project for trying changes of one car: it knows the car's text and geometry from the beginning, and nothing
   * that it does reaches back. It is kept, so that whoever tries again finds it warm.
   */
  private apart(root: string): Apart {
    return recent(this.tried, root, KEPT_TRIED, (old) => {
      if (old !== undefined) return old;
      const project = new Project();
      for (const file of this.trees.keys()) project.statements.keep(file, this.statements.take(file), 0);
      const shape = new ShapeCache(this.cars.get(root)?.shape ?? null);
      project.cars.set(root, { shape, judging: new Judging(), sentences: new WeakMap() });
      return project;
    });
  }

  private carOf(root: string): Car {
    return recent(
      this.cars,
      root,
      KEPT_CARS,
      (old) => old ?? { shape: new ShapeCache(), judging: new Judging(), sentences: new WeakMap() },
    );
  }

  /** The stages before judgement. */
  shape(sources: Sources): Pick<Analysis, 'cage' | 'shape'> {
    const { cage } = this.build(sources);
    return { cage, shape: shapeOf(cage, this.carOf(sources.root).shape) };
  }

  /** Everything that is known about the judged file. Synchronous and pure but for the caches. */
  analyse(sources: Sources): Analysis {
    const { trees, cage } = this.build(sources);
    const car = this.carOf(sources.root);
    const shape = shapeOf(cage, car.shape);
    const { findings: judged, asked } = car.judging.judge(cage, shape);
    const { findings, waivers } = placeFindings({
      cage,
      shape,
      trees,
      judged,
      askedByBooks: asked,
      sentences: car.sentences,
    });
    const runs = {
      parse: this.parses,
      statement: this.statements.takeRuns(),
      evaluate: this.cages.takeRuns(),
      ...car.shape.takeRuns(),
      judgement: car.judging.takeRuns(),
    };
    this.parses = 0;
    this.letGo(trees);
    return {
      root: sources.root,
      sources,
      trees,
      cage,
      shape,
      findings,
      waivers,
      runs,
      apart: () => this.apart(sources.root),
    };
  }

  /** Lets go of what was wanted longest ago, while there is too much of it. What is `wanted` now stays. */
  private letGo(wanted: ReadonlyMap<string, FileTree>): void {
    let length = 0;
    for (const [file, { text }] of this.trees) if (!wanted.has(file)) length += text.length;
    for (const [file, { text }] of this.trees) {
      if (length <= KEPT_TEXT) return;
      if (wanted.has(file)) continue;
      length -= text.length;
      this.trees.delete(file);
      this.statements.forget(file);
      this.cages.forget(file);
      this.cars.delete(file);
      this.tried.delete(file);
    }
  }
}
