/** What is kept of a car's shape from one run to the next, by numbers alone; bounded by what one car needs. */
import type { Finding } from '../../grammar/finding';
import type { BodiesBefore, Body, Geometries } from './bodies';
import type { ClashCaches, Clashes, Overlap } from './clash';
import type { CutCaches, Cuts, EndCut } from './cutting';
import type { CutCope } from './cut-to';
import type { HostEndCache } from './end-findings';
import { Kept } from './kept';
import { Memo, NumberKey } from './memo';
import type { Neighbours } from './neighbours';
import type { MadePart } from './parts';
import type { Probe } from './probe';
import { SeatCache } from './seats';
import { newSpaceCaches } from './spaces';
import { newStrapCaches } from './straps';
import type { Surroundings } from './surroundings';

/** How often each stage really ran. */
export interface ShapeRuns {
  readonly end: number;
  readonly part: number;
  readonly clash: number;
  readonly strap: number;
  readonly seat: number;
  readonly vent: number;
}

const NONE: ShapeRuns = { end: 0, part: 0, clash: 0, strap: 0, seat: 0, vent: 0 };

/** The run before: what has not changed since is used again, the same objects. */
export interface LastRun {
  readonly bodies: BodiesBefore;
  readonly around: Surroundings;
  readonly neighbours: Neighbours;
  readonly said: string;
  readonly cuts: Cuts;
  readonly parts: ReadonlyMap<Body, MadePart>;
  readonly clashes: Clashes;
  readonly ofEnds: ReadonlyMap<EndCut, readonly Finding[]>;
}

/** One for each judged car. Shared between cars it stays right, but forgets. */
export class ShapeCache implements CutCaches, ClashCaches {
  readonly key = new NumberKey();
  readonly probes: Memo<Probe>;
  readonly copes: Memo<CutCope>;
  readonly clashes: Memo<Overlap | null>;
  private readonly ids: Memo<number>;
  private lastId: number;
  readonly nextId = (): number => ++this.lastId;
  readonly bends = new Kept<readonly Finding[]>();
  readonly hostEnds: HostEndCache = new Kept();
  readonly feet = new Kept<readonly Finding[]>();
  readonly straps = newStrapCaches();
  readonly seats = new SeatCache();
  readonly spaces = newSpaceCaches();
  private runs: ShapeRuns = NONE;
  last: LastRun | null = null;

  /** Small numbers for centrelines with radii: equal for equal numbers, never used again for others. */
  readonly geometries: Geometries = {
    idOf: (key) => this.ids.get(key, this.nextId),
  };

  /** @param like what this one knows from the beginning, by its numbers; the two go their own ways from there. */
  constructor(like: ShapeCache | null = null) {
    this.probes = like?.probes.copy() ?? new Memo();
    this.copes = like?.copes.copy() ?? new Memo();
    this.clashes = like?.clashes.copy() ?? new Memo();
    this.ids = like?.ids.copy() ?? new Memo();
    this.lastId = like?.lastId ?? 0;
  }

  /** How many results are kept. */
  get size(): number {
    return [this.ids, ...this.kept()].reduce((sum, memo) => sum + memo.size, 0);
  }

  private kept(): readonly Memo<unknown>[] {
    return [this.probes, this.copes, this.clashes];
  }

  /** Begins a run. */
  begin(): void {
    this.ids.begin();
    for (const memo of this.kept()) memo.begin();
  }

  /** Ends a run: counts it, and forgets what is not needed. */
  end(run: LastRun): void {
    this.runs = {
      end: this.runs.end + this.copes.misses,
      part: this.runs.part + this.ids.misses,
      clash: this.runs.clash + this.clashes.misses,
      strap: this.runs.strap + this.straps.laid.takeMisses(),
      seat: this.runs.seat + this.seats.takeMisses(),
      vent: this.runs.vent + this.spaces.vents.takeMisses(),
    };
    for (const kept of [
      this.bends,
      this.hostEnds,
      this.feet,
      this.seats,
      ...Object.values(this.straps),
      ...Object.values(this.spaces),
    ])
      kept.sweep();
    this.ids.sweep(run.bodies.all.length);
    for (const memo of this.kept()) memo.sweep(run.cuts.cuts.size);
    this.last = run;
  }

  /** How often each stage really ran since this was last asked. */
  takeRuns(): ShapeRuns {
    const runs = this.runs;
    this.runs = NONE;
    return runs;
  }
}
