/** What is kept of a car's shape from one run to the next, by numbers alone; bounded by what one car needs. */
import type { Geometries } from './bodies';
import type { ClashCaches, Overlap } from './clash';
import type { CutCaches } from './cutting';
import type { CutCope } from './cut-to';
import { Memo, NumberKey } from './memo';
import type { Probe } from './probe';

/** How often each stage really ran. */
export interface ShapeRuns {
  readonly end: number;
  readonly part: number;
  readonly clash: number;
}

/** One for each judged car. Shared between cars it stays right, but forgets. */
export class ShapeCache implements CutCaches, ClashCaches {
  readonly key = new NumberKey();
  readonly probes = new Memo<Probe>();
  readonly copes = new Memo<CutCope>();
  readonly clashes = new Memo<Overlap | null>();
  private readonly ids = new Memo<number>();
  private lastId = 0;
  readonly nextId = (): number => ++this.lastId;
  private runs = { end: 0, part: 0, clash: 0 };

  /** Small numbers for centrelines with radii: equal for equal numbers, never used again for others. */
  readonly geometries: Geometries = {
    idOf: (key) => this.ids.get(key, this.nextId),
  };

  private all(): readonly Memo<unknown>[] {
    return [this.probes, this.copes, this.clashes, this.ids];
  }

  /** Begins a run. */
  begin(): void {
    for (const memo of this.all()) memo.begin();
  }

  /** Ends a run: counts it, and forgets what it did not need. */
  end(): void {
    this.runs.end += this.copes.misses;
    this.runs.part += this.ids.misses;
    this.runs.clash += this.clashes.misses;
    for (const memo of this.all()) memo.sweep();
  }

  /** How often each stage really ran since this was last asked. */
  takeRuns(): ShapeRuns {
    const runs = this.runs;
    this.runs = { end: 0, part: 0, clash: 0 };
    return runs;
  }
}
