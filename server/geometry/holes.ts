/** Holes drilled from outside: on which part they lie, and whether they let its bore breathe. */
import type { Finding } from '../../grammar/finding';
import type { Length } from '../../grammar/units';
import type { Hole } from '../cage/cage';
import type { Part } from './shape';
import { bodyStretch, partsOf } from './stretch';
import { figure, tell } from './tell';

export interface DrilledPart {
  readonly part: Part;
  /** Along the part's own centreline. */
  readonly station: Length;
}

/** The part that a hole goes into; null where one of the two is not known. */
export function drilledBy(hole: Hole, parts: ReadonlyMap<string, Part>): DrilledPart | null {
  if (hole.tube === null || hole.station === null) return null;
  const [first, second] = partsOf(parts, hole.tube);
  const length = first?.centreline?.length ?? null;
  if (first === undefined || length === null) return null;
  if (second === undefined || hole.station <= length) return { part: first, station: hole.station };
  return { part: second, station: (hole.station - length) as Length };
}

/** Sleeved and plugged holes leave the bore closed; of one whose tube or place is not known nobody can tell. */
export const staysOpen = (hole: Hole): boolean => !hole.sleeve && hole.plug === null;

/** Holes where their tube is cut away: beyond the long point of its end. */
export function holeFindings(holes: readonly Hole[], parts: ReadonlyMap<string, Part>): readonly Finding[] {
  return holes.flatMap((hole): readonly Finding[] => {
    const at = drilledBy(hole, parts);
    const body = at === null ? null : bodyStretch(at.part);
    if (at === null || body === null) return [];
    const radius = (hole.dia ?? 0) / 2;
    const before = body.from - (at.station - radius);
    const behind = at.station + radius - body.to;
    const by = Math.max(before, behind);
    if (by <= 0) return [];
    const why = 'at its {end} end the tube is cut away there, by {by}';
    const params = { tube: at.part.tube.name, why, end: before > behind ? 'first' : 'last', by: figure(by, 'mm') };
    return [tell('hole.off-tube', hole.name, { kind: 'thing', thing: hole.name, fact: 'from' }, params)];
  });
}
