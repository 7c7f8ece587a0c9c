/** In which corner of its two tubes a gusset sits. Millimetres. */
import type { Cage } from '../cage/cage';
import type { Gusset } from '../cage/hardware';
import type { Centreline } from '../centreline/centreline';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, dot, scale } from '../centreline/vector';
import type { Shape } from './shape';
import { byText } from './tell';

/** The node, and a point along each of the two tubes. */
export type Corners = readonly [Vec3, Vec3, Vec3];

/** An end this near to a point is at it, mm. */
const AT_END = 1;
/** Directions that differ by less are taken for the same. */
const SAME = 1e-6;

export const nodeAt = (cage: Cage, name: string | null): Vec3 | null => {
  const node = name === null ? undefined : cage.things.get(name);
  return node?.kind === 'node' ? node.at : null;
};

/** The whole tube, also where it is split; or the piece that is named. */
function lineOf(shape: Shape, name: string | null): Centreline | null {
  if (name === null) return null;
  const tube = shape.cage.things.get(name);
  return tube?.kind === 'tube' ? tube.centreline : (shape.parts.get(name)?.centreline ?? null);
}

/** The directions in which a tube leaves a point on it: two, or one at its end. */
function waysFrom(line: Centreline, at: Vec3): readonly Vec3[] {
  const { tangent, station } = nearestOn(line, at);
  const back = scale(tangent, -1);
  if (station < AT_END) return [tangent];
  return station > line.length - AT_END ? [back] : [tangent, back];
}

/** All corners between two tubes: sharp ones first, of two alike the upper, then the one ahead, then the left one. */
function cornersOf(shape: Shape, gusset: Gusset, at: Vec3): readonly Corners[] {
  const { between, legs } = gusset;
  if (between === null || legs === null) return [];
  const [first, second] = [lineOf(shape, between[0]), lineOf(shape, between[1])];
  if (first === null || second === null) return [];
  const found = waysFrom(first, at).flatMap((a) => waysFrom(second, at).map((b) => ({ a, b, middle: add(a, b) })));
  const order = [
    ({ a, b }: (typeof found)[number]) => dot(a, b),
    ...[2, 0, 1].map(
      (k) =>
        ({ middle }: (typeof found)[number]) =>
          middle[k as 0 | 1 | 2],
    ),
  ];
  found.sort((one, two) => {
    for (const of of order) if (Math.abs(of(one) - of(two)) > SAME) return of(two) - of(one);
    return 0;
  });
  return found.map(({ a, b }): Corners => [at, addScaled(at, a, legs[0]), addScaled(at, b, legs[1])]);
}

/** In which of the corners between its two tubes a gusset sits. */
export interface Cornered {
  readonly corners: Corners;
  /** 0: the sharpest of them. */
  readonly rank: number;
  readonly of: number;
}

/**
 * Where each gusset sits, by its name; one of which a figure is missing has no place. The text says only which tubes it
 * ties: the first by name gets the sharpest corner, others between the same tubes the next ones.
 */
export function gussetPlaces(shape: Shape): ReadonlyMap<string, Cornered> {
  const placed = new Map<string, Cornered>();
  const taken = new Map<string, number>();
  const gussets = [...shape.cage.things.values()].filter((thing) => thing.kind === 'gusset');
  for (const gusset of gussets.sort((a, b) => byText(a.name, b.name))) {
    const at = nodeAt(shape.cage, gusset.node);
    if (at === null) continue;
    const corners = cornersOf(shape, gusset, at);
    const where = `${gusset.node ?? ''} ${[...(gusset.between ?? [])].sort().join(' ')}`;
    const before = taken.get(where) ?? 0;
    const rank = before % corners.length;
    const own = corners[rank];
    if (own === undefined) continue;
    taken.set(where, before + 1);
    placed.set(gusset.name, { corners: own, rank, of: corners.length });
  }
  return placed;
}

/** The same without what else there is to choose from. */
export const gussetCorners = (shape: Shape): ReadonlyMap<string, Corners> =>
  new Map([...gussetPlaces(shape)].map(([name, { corners }]) => [name, corners]));
