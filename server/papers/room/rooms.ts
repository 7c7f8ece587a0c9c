/** For every bar of a car: whether it goes in where what comes before it stands already, and what mends it. */
import type { Part } from '../../geometry/shape';
import type { Room } from '../../geometry/room/room';
import { anyGoes, hostsOf, isInside, Rooms } from '../../geometry/room/room';
import { sortSteps } from '../order/graph';
import type { PacketInput } from '../packet/paper';

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
  readonly bars: readonly Inside[];
  readonly before: readonly Before[];
}

/** Every tube after those that it is cut to, and after `before`; else in the order of the file. Null: they wait for one another. */
function inOrder(parts: readonly Part[], waits: (part: Part) => readonly string[]): readonly Part[] | null {
  const steps = parts.map((part) => ({
    id: part.name,
    does: '',
    group: '',
    needs: waits(part).map((on) => ({ on, why: '' })),
  }));
  const { order, stuck } = sortSteps(steps);
  const byName = new Map(parts.map((part) => [part.name, part]));
  return stuck.length > 0 ? null : order.flatMap(({ id }) => byName.get(id) ?? []);
}

/** In the order in which they are put in. */
export function roomsOf({ shape }: Pick<PacketInput, 'shape'>): Insides {
  const all = [...shape.parts.values()];
  const made = all.filter(({ tube }) => !tube.existing);
  const existing = all.filter(({ tube }) => tube.existing);
  const rooms = new Rooms(shape.parts);
  const before: Before[] = [];
  const waits = (part: Part, more: readonly Before[] = []): readonly string[] => [
    ...hostsOf(part, shape.parts).map(({ name }) => name),
    ...[...before, ...more].flatMap(({ bar, neighbour }) => (neighbour === part.name ? [bar] : [])),
  ];
  // Parts that wait for one another are told by the order of work: here they come in the order of the file.
  const order = inOrder(made, waits) ?? made;
  const bars = order.flatMap((part, i): readonly Inside[] => {
    if (!isInside(part)) return [];
    const room = rooms.of(part, [...existing, ...order.slice(0, i)]);
    if (room === null || anyGoes(room.ways)) return [{ part, room, before: [] }];
    // The way with the fewest in it that may wait until this bar is in.
    const choices = Object.values(room.ways)
      .flatMap((sought) =>
        sought === null || sought.blockers.length === 0 ? [] : [sought.blockers.map(({ name }) => name)],
      )
      .sort((a, b) => a.length - b.length);
    const names = choices.find(
      (of) =>
        of.every((name) => made.some((one) => one.name === name)) &&
        inOrder(made, (one) =>
          waits(
            one,
            of.map((neighbour) => ({ bar: part.name, neighbour })),
          ),
        ) !== null,
    );
    for (const neighbour of names ?? []) before.push({ bar: part.name, neighbour });
    return [{ part, room, before: names ?? [] }];
  });
  return { bars, before };
}
