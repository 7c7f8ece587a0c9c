/**
 * All demands on the bar's place as one field over the side view: at each point the room to every limit. What was worked
 * out once is kept, and stages may be added: then only they are worked out at the points that are known.
 */
import type { Vec3 } from '../../centreline/vector';
import type { Demand, Judge, Level, Unknown } from './demands';
import { Demands, judgeStage } from './demands';
import type { Stage } from './stage';

/** A place of the bar's axis in side view, mm: forward, up. */
export type Point = readonly [x: number, z: number];

/** From the rear to the front, from the lowest to the highest, mm. */
export interface Box {
  readonly x: readonly [number, number];
  readonly z: readonly [number, number];
}

/** Which demands are looked at; with `stages`: all of them belong to these. */
export interface Choice {
  (demand: Demand): boolean;
  readonly stages?: ReadonlySet<Stage>;
}

export const REQUIRED: Choice = ({ counts }) => counts === 'required';
export const PREFERRED: Choice = ({ counts }) => counts !== 'told';

/** Where points are told apart, mm. */
const FINE = 1e6;
/** Where so much is missing to one stage, mm, the others make no difference to where the edge is. */
const FAR_OUT = 1;

export class Field {
  /** Of each point the levels of each stage that was worked out there. */
  private readonly kept = new Map<string, (readonly Level[])[]>();
  private readonly demands = new Demands();
  private readonly stages: Stage[] = [];
  /** The stage by which a point was found to be outside last: that of its neighbour, most likely. */
  private culprit = 0;
  readonly unknown = new Map<string, Unknown>();

  /**
   * @param at where the bar is now
   * @param box where its axis may be: outside nothing is kept
   * @param ignored demands that nothing can be done about by moving the bar
   */
  constructor(
    readonly at: Point,
    readonly box: Box,
    private readonly judge: Judge,
    private readonly ignored: (demand: Demand) => boolean,
  ) {}

  add(stage: Stage): void {
    this.stages.push(stage);
  }

  has(stage: Stage): boolean {
    return this.stages.includes(stage);
  }

  /** Of which stages a choice is, as they were added. */
  stagesOf(choice: Choice): readonly number[] {
    return this.stages.flatMap((stage, i) => (choice.stages?.has(stage) === false ? [] : [i]));
  }

  private shift([x, z]: Point): Vec3 {
    return [x - this.at[0], 0, z - this.at[1]];
  }

  /** What one stage says of a point, whether it was added or not. */
  ofStage(stage: Stage, point: Point): readonly Level[] {
    const { levels, unknown } = judgeStage(stage, this.shift(point), this.judge, this.demands);
    for (const one of unknown) this.unknown.set(`${one.code}|${one.subject}|${one.book ?? ''}|${one.fact}`, one);
    return levels.filter(({ demand }) => !this.ignored(demand));
  }

  private known(point: Point): (readonly Level[])[] {
    const key = `${String(Math.round(point[0] * FINE))} ${String(Math.round(point[1] * FINE))}`;
    const known = this.kept.get(key) ?? [];
    this.kept.set(key, known);
    return known;
  }

  private stageAt(known: (readonly Level[])[], i: number, point: Point): readonly Level[] {
    const stage = this.stages[i];
    return (known[i] ??= stage === undefined ? [] : this.ofStage(stage, point));
  }

  /** The room to the limits of the stage added as the `i`th. */
  levelsOf(i: number, point: Point): readonly Level[] {
    return this.stageAt(this.known(point), i, point);
  }

  /** The room to every limit at a point. */
  levels(point: Point): readonly Level[] {
    const known = this.known(point);
    return this.stages.flatMap((_, i) => this.stageAt(known, i, point));
  }

  /** True where a place is known already at which all of the chosen demands are kept. */
  isKnownToHold(demands: readonly Demand[]): boolean {
    for (const known of this.kept.values()) {
      const holds = demands.every((demand) => {
        const levels = known[this.stages.indexOf(demand.stage)] ?? [];
        return levels.some((level) => level.demand === demand && level.room >= 0);
      });
      if (holds) return true;
    }
    return false;
  }

  /** How far inside the searched box a point is; below 0: outside. */
  within([x, z]: Point): number {
    const { box } = this;
    return Math.min(x - box.x[0], box.x[1] - x, z - box.z[0], box.z[1] - z);
  }

  /** The least room of the chosen demands, and which it is; null demand: the edge of the searched box. */
  least(point: Point, choice: Choice): { readonly room: number; readonly level: Level | null } {
    let room = this.within(point);
    let level: Level | null = null;
    for (const one of this.levels(point)) if (one.room < room && choice(one.demand)) [room, level] = [one.room, one];
    return { room, level };
  }

  /** The least room of the chosen demands; where it is under `floor`, it may be less than what is given. */
  room(point: Point, choice: Choice, floor = -FAR_OUT): number {
    let room = this.within(point);
    if (room < Math.min(0, floor)) return room;
    const known = this.known(point);
    const first = this.culprit;
    for (let n = 0; n < this.stages.length; n++) {
      // The culprit first, then the others in their order.
      const i = n === 0 ? first : n <= first ? n - 1 : n;
      const stage = this.stages[i];
      if (stage === undefined || choice.stages?.has(stage) === false) continue;
      for (const one of this.stageAt(known, i, point)) if (one.room < room && choice(one.demand)) room = one.room;
      if (room >= floor) continue;
      this.culprit = i;
      break;
    }
    return room;
  }
}
