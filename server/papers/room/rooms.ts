/** For every bar of a car: whether it goes in where what comes before it stands already, and what it has to be in before. */
import type { Cage } from '../../cage/cage';
import type { Room } from '../../geometry/room/room';
import { anyGoes, hostsOf, isInside, Rooms } from '../../geometry/room/room';
import type { Part, Shape } from '../../geometry/shape';
import { sortSteps } from '../order/graph';
import type { Job } from '../order/jobs';
import { jobsOf } from '../order/jobs';

/** That a bar has to be in before its neighbour stands. */
export interface Before {
  readonly bar: string;
  readonly neighbour: string;
}

export interface Inside {
  readonly part: Part;
  /** Null: it cannot be computed. */
  readonly room: Room | null;
  /** Neighbours that it has to be in before; empty where it goes in as things stand, or where that does not help. */
  readonly before: readonly string[];
}

export interface Insides {
  /** In the order in which they are put in. */
  readonly bars: readonly Inside[];
  readonly before: readonly Before[];
}

/** Tubes in the order in which they go in: by jobs, as the order of work has them. */
class Sequence {
  readonly jobs: readonly Job[];
  readonly before: Before[] = [];
  private readonly keys: ReadonlyMap<string, string>;

  constructor(private readonly parts: ReadonlyMap<string, Part>) {
    const made = [...parts.values()].filter(({ tube }) => !tube.existing);
    this.jobs = jobsOf(made, (part) => this.hosts(part), true);
    this.keys = new Map(this.jobs.flatMap(({ key, parts: of }) => of.map(({ name }) => [name, key])));
  }

  private hosts(part: Part): readonly Part[] {
    return hostsOf(part, this.parts).filter((host) => host !== part && !host.tube.existing);
  }

  /** Every job after those that it is cut to, and after bars that have to be in before it. Null: they wait for one another. */
  order(more: readonly Before[] = []): readonly Part[] | null {
    const waits = new Map(this.jobs.map(({ key }) => [key, new Set<string>()]));
    for (const { key, parts } of this.jobs)
      for (const host of parts.flatMap((part) => this.hosts(part))) waits.get(key)?.add(this.keys.get(host.name) ?? '');
    for (const { bar, neighbour } of [...this.before, ...more])
      waits.get(this.keys.get(neighbour) ?? '')?.add(this.keys.get(bar) ?? '');
    const steps = this.jobs.map(({ key }) => {
      const needs = [...(waits.get(key) ?? [])].filter((on) => on !== key).map((on) => ({ on, why: '' }));
      return { id: key, does: '', group: '', needs };
    });
    const { order, stuck } = sortSteps(steps);
    const byKey = new Map(this.jobs.map((job) => [job.key, job.parts]));
    return stuck.length > 0 ? null : order.flatMap(({ id }) => byKey.get(id) ?? []);
  }

  /** True where the neighbours may wait until the bar is in: made here, in another job, and with nobody waiting in a circle. */
  mayWait(bar: Part, neighbours: readonly string[]): boolean {
    const own = this.keys.get(bar.name);
    const others = neighbours.every((name) => this.keys.has(name) && this.keys.get(name) !== own);
    return others && this.order(neighbours.map((neighbour) => ({ bar: bar.name, neighbour }))) !== null;
  }
}

/** All bars of a car, with what stands before each in the order of work. */
export function insidesOf({ shape }: { readonly cage: Cage; readonly shape: Shape }): Insides {
  const rooms = new Rooms(shape.parts);
  const existing = [...shape.parts.values()].filter(({ tube }) => tube.existing);
  const sequence = new Sequence(shape.parts);
  const bars: Inside[] = [];
  // Parts that wait for one another are told by the order of work: here they come in the order of the file.
  const order = sequence.order() ?? sequence.jobs.flatMap(({ parts }) => parts);
  for (const [i, part] of order.entries()) {
    if (!isInside(part)) continue;
    const room = rooms.of(part, [...existing, ...order.slice(0, i)]);
    const before = room === null || anyGoes(room.ways) ? [] : waiting(room, sequence);
    bars.push({ part, room, before });
    for (const neighbour of before) sequence.before.push({ bar: part.name, neighbour });
  }
  return { bars: bars.map((bar) => again(bar, sequence, rooms, existing)), before: sequence.before };
}

/** A bar that has to wait for another is asked once more, with that one standing. */
function again(inside: Inside, sequence: Sequence, rooms: Rooms, existing: readonly Part[]): Inside {
  const { part, room } = inside;
  if (room === null || !sequence.before.some(({ neighbour }) => neighbour === part.name)) return inside;
  const order = sequence.order() ?? [];
  const standing = order.slice(0, Math.max(0, order.indexOf(part)));
  return { ...inside, room: rooms.of(part, [...existing, ...standing]) };
}

/** The neighbours of the way with the fewest in it that may wait until this bar is in. */
function waiting({ part, ways }: Room, sequence: Sequence): readonly string[] {
  const choices = Object.values(ways)
    .map((sought) => sought?.blockers.map(({ name }) => name) ?? [])
    .filter((names) => names.length > 0)
    .sort((a, b) => a.length - b.length);
  return choices.find((names) => sequence.mayWait(part, names)) ?? [];
}
