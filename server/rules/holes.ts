/** Holes that are drilled into a tube from outside: where on it they are. */
import { nearestOn } from '../centreline/query';
import type { Car, Member } from './car';

export interface AirHole {
  /** Name of the statement. */
  readonly hole: string;
  readonly member: Member;
  /** On the tube's centreline, mm. */
  readonly station: number;
  /** Radians. */
  readonly clock: number;
  readonly dia: number;
}

/** Vents to the open air of which place and size are known. */
export const airHoles = (car: Car): readonly AirHole[] =>
  [...car.cage.things.values()].flatMap((thing): readonly AirHole[] => {
    if (thing.kind !== 'vent' || thing.to === null || typeof thing.to === 'string') return [];
    const node = thing.node === null ? undefined : car.cage.things.get(thing.node);
    const member = thing.tube === null ? null : car.member(thing.tube.replace(/\.[ab]$/, ''));
    if (member === null || node?.kind !== 'node' || node.at === null || thing.from === null || thing.dia === null)
      return [];
    const at = nearestOn(member.line, node.at).station;
    // `from` counts from the end that is at the node, into the tube.
    const last = at > member.line.length / 2;
    const station = last ? at - thing.from : at + thing.from;
    return [{ hole: thing.name, member, station, clock: thing.clock ?? 0, dia: thing.dia }];
  });
