/** Holes that are drilled into a tube from outside: where on it they are. */
import { nearestOn } from '../centreline/query';
import { dot, sub } from '../centreline/vector';
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
  /** From the node, as it is written. */
  readonly from: number;
  /** From the node to the cut at the hole's clock; null where nothing is welded to that end. */
  readonly cut: number | null;
}

/** Vents to the open air of which place and size are known. */
export const airHoles = (car: Car): readonly AirHole[] =>
  car.ofKind('vent').flatMap((thing): readonly AirHole[] => {
    if (thing.to === null || typeof thing.to === 'string') return [];
    const node = thing.node === null ? undefined : car.cage.things.get(thing.node);
    const member = thing.tube === null ? null : car.member(thing.tube.replace(/\.[ab]$/, ''));
    if (member === null || node?.kind !== 'node' || node.at === null || thing.from === null || thing.dia === null)
      return [];
    const on = nearestOn(member.line, node.at);
    const at = on.station;
    // Only from an end is such a hole measured; what is wrong with one elsewhere is told by geometry.
    const beside = (member.tube.section?.od ?? 0) / 2;
    if (Math.min(at, member.line.length - at) > beside || on.distance > beside) return [];
    // `from` counts from the end that is at the node, into the tube.
    const last = at > member.line.length / 2;
    const station = last ? at - thing.from : at + thing.from;
    const clock = thing.clock ?? 0;
    const cut = cutBeside(car, thing.tube ?? '', last ? 1 : 0, clock);
    return [{ hole: thing.name, member, station, clock, dia: thing.dia, from: thing.from, cut }];
  });

/** From the node of an end to its cut at a clock; null where the end is welded to nothing. */
function cutBeside(car: Car, name: string, which: 0 | 1, clock: number): number | null {
  const part = car.shape.parts.get(name);
  const end = part?.ends[which];
  if (part === undefined || end === undefined || (end.fit !== 'cope' && end.fit !== 'foot')) return null;
  const cut = end.curve?.cut(clock) ?? null;
  const node = which === 0 ? part.centreline?.points[0] : part.centreline?.points.at(-1);
  if (cut === null || node === undefined || end.origin === null || end.away === null) return null;
  return cut + dot(sub(end.origin, node), end.away);
}
