/**
 * Dimensions by which a bent tube is checked before anything is cut to it: each between two places that a tape, a
 * straightedge or a pair of squares reaches. Taken from the true bent surface. Millimetres.
 */
import type { Arc, Centreline } from '../../centreline/centreline';
import { arcPoint, arcTangent } from '../../centreline/piece';
import type { Vec3 } from '../../centreline/vector';
import { addScaled, cross, distance, dot, norm, scale, sub, unit } from '../../centreline/vector';
import { arcsOf, isFlat } from './stick';
import type { Rim } from './tape';
import { farthestOn, insideToInside, isClear, nearestOfRim, outsideToOutside, rimsOf } from './tape';

export type Face = 'outside' | 'inside';

/**
 * A place on the tube: the outside or inside of a bend at its middle mark; of an end the point of its rim that is farthest
 * from the other place, or nearest to it.
 */
export type Spot =
  | { readonly kind: 'bend'; readonly bend: number; readonly face: Face }
  | { readonly kind: 'end'; readonly which: 'first' | 'last'; readonly face: Face };

/** How it is taken: a tape straight through the air; the tube flat on the floor and a square at both points. */
export type Reach = 'tape' | 'square';

export type Check =
  | {
      readonly kind: 'between';
      readonly from: Spot;
      readonly to: Spot;
      readonly value: number;
      readonly reach: Reach;
      readonly ends: readonly [Vec3, Vec3];
    }
  /** From a straightedge over both ends square to the farthest outside; across: along it, outside to outside. */
  | { readonly kind: 'height' | 'across'; readonly value: number }
  /** Both legs of a bend on the floor: from the floor to the highest point of an end's rim. */
  | { readonly kind: 'rise'; readonly bend: number; readonly which: 'first' | 'last'; readonly value: number };

type Place =
  | { readonly number: number; readonly kind: 'bend'; readonly arc: Arc }
  | { readonly number: number; readonly kind: 'end'; readonly which: 'first' | 'last'; readonly rim: Rim };

/** The outside (or inside, `by` below 0) of a bend at the middle of its arc. */
function middleOf(arc: Arc, by: number): Vec3 {
  const on = arcPoint(arc, arc.angle / 2);
  return addScaled(on, unit(sub(on, arc.centre)), by);
}

/** Both ends of the tape, on the outsides or on the insides of both places. */
function endsOf(a: Place, b: Place, face: Face, radius: number): readonly [Vec3, Vec3] {
  const out = face === 'outside';
  const by = out ? radius : -radius;
  const onRim = out ? farthestOn : nearestOfRim;
  if (a.kind === 'end') {
    if (b.kind === 'end') return out ? outsideToOutside(a.rim, b.rim) : insideToInside(a.rim, b.rim);
    const at = middleOf(b.arc, by);
    return [onRim(a.rim, at), at];
  }
  const at = middleOf(a.arc, by);
  return [at, b.kind === 'end' ? onRim(b.rim, at) : middleOf(b.arc, by)];
}

const spotOf = (place: Place, face: Face): Spot =>
  place.kind === 'end' ? { kind: 'end', which: place.which, face } : { kind: 'bend', bend: place.number, face };

/** Bends up to this many of a tube that does not lie flat are each measured to each other. */
const FEW = 4;

/**
 * What is measured to what. Numbers: END 1 is 0, then the bends, then END 2. Of a flat tube: end to end, bend to bend beside
 * it, bend to the one that answers it from the other end, and from each end to the bends of the other half.
 */
function pairs(places: readonly Place[], flat: boolean): readonly (readonly [Place, Place])[] {
  const last = places.length - 1;
  const bends = last - 1;
  const wanted = (i: number, k: number): boolean => {
    if (i === 0 && k === last) return true;
    if (bends === 1) return true;
    if (i === 0) return flat || bends > FEW ? k > last / 2 : k > 1;
    if (k === last) return flat || bends > FEW ? i < last / 2 : i < bends;
    return k - i === 1 || i + k === last || (!flat && bends <= FEW);
  };
  return places.flatMap((a, i) => places.slice(i + 1).flatMap((b) => (wanted(i, b.number) ? [[a, b] as const] : [])));
}

/** Largest value along a unit direction of all points of the tube's surface, square ends included. */
export function reachAlong(line: Centreline, radius: number, direction: Vec3): number {
  const at = (point: Vec3, tangent: Vec3): number => {
    const along = dot(tangent, direction);
    return dot(point, direction) + radius * Math.sqrt(Math.max(0, 1 - along * along));
  };
  let most = -Infinity;
  for (const piece of line.pieces) {
    if (piece.kind === 'leg') {
      most = Math.max(most, at(piece.from, piece.direction), at(piece.to, piece.direction));
      continue;
    }
    const on = (angle: number): number => at(arcPoint(piece, angle), arcTangent(piece, angle));
    const steps = Math.max(8, Math.ceil(piece.angle / 0.02));
    let best = 0;
    for (let i = 0; i <= steps; i++) if (on((piece.angle * i) / steps) > on((piece.angle * best) / steps)) best = i;
    let [low, high] = [Math.max(0, best - 1), Math.min(steps, best + 1)].map((i) => (piece.angle * i) / steps) as [
      number,
      number,
    ];
    // Between neighbours of the largest one there is one peak.
    for (let k = 0; k < 60; k++) {
      const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
      if (on(a) < on(b)) low = a;
      else high = b;
    }
    most = Math.max(most, on(0), on(piece.angle), on((low + high) / 2));
  }
  return most;
}

/** How far a straightedge over both ends may lean to lie on both, radians. */
const LEAN = 0.6;

/**
 * The unit direction square to a straightedge that lies on the rims of both ends, in the plane of the bends, toward them.
 * Null where there is none, or the tube itself is in its way.
 */
function upFrom(line: Centreline, radius: number, normal: Vec3): Vec3 | null {
  const rims = rimsOf(line, radius);
  const across = sub(rims[1].centre, rims[0].centre);
  const chord = addScaled(across, normal, -dot(across, normal));
  if (norm(chord) < 2 * radius) return null;
  const e = unit(chord);
  const side = cross(normal, e);
  const middle = addScaled(rims[0].centre, across, 0.5);
  const above = reachAlong(line, radius, side) - dot(middle, side);
  const below = reachAlong(line, radius, scale(side, -1)) + dot(middle, side);
  const up = above >= below ? side : scale(side, -1);
  const lowest = ({ centre, out }: Rim, u: Vec3): number => {
    const along = dot(out, u);
    return dot(centre, u) - radius * Math.sqrt(Math.max(0, 1 - along * along));
  };
  const leaned = (by: number): Vec3 => addScaled(scale(up, Math.cos(by)), e, Math.sin(by));
  const differ = (by: number): number => lowest(rims[0], leaned(by)) - lowest(rims[1], leaned(by));
  let [low, high] = [-LEAN, LEAN];
  if (differ(low) * differ(high) > 0) return null;
  const rising = differ(high) > 0;
  for (let k = 0; k < 80; k++) {
    const half = (low + high) / 2;
    if (differ(half) > 0 === rising) high = half;
    else low = half;
  }
  const u = leaned((low + high) / 2);
  // Nothing of the tube may stand below the straightedge.
  const floor = Math.min(lowest(rims[0], u), lowest(rims[1], u));
  return -reachAlong(line, radius, scale(u, -1)) < floor - 0.05 ? null : u;
}

function overall(line: Centreline, radius: number, normal: Vec3): readonly Check[] {
  const up = upFrom(line, radius, normal);
  if (up === null) return [];
  const height = reachAlong(line, radius, up) + reachAlong(line, radius, scale(up, -1));
  const e = cross(up, normal);
  const across = reachAlong(line, radius, e) + reachAlong(line, radius, scale(e, -1));
  return [
    { kind: 'height', value: height },
    { kind: 'across', value: across },
  ];
}

/** Of a tube that does not lie flat: how high its ends stand while both legs of a bend lie on the floor. */
function rises(line: Centreline, radius: number, arcs: readonly Arc[]): readonly Check[] {
  const rims = rimsOf(line, radius);
  return arcs.flatMap((arc, i) =>
    [arc.axis, scale(arc.axis, -1)].flatMap((up): readonly Check[] => {
      const floor = dot(arc.centre, up) - radius;
      if (-reachAlong(line, radius, scale(up, -1)) < floor - 0.05) return [];
      return rims.flatMap(({ centre, out }, which): readonly Check[] => {
        const along = dot(out, up);
        const value = dot(centre, up) + radius * Math.sqrt(Math.max(0, 1 - along * along)) - floor;
        // An end that lies on the floor itself says nothing.
        if (value < 2 * radius + 1) return [];
        return [{ kind: 'rise', bend: i + 1, which: which === 0 ? 'first' : 'last', value }];
      });
    }),
  );
}

/**
 * The check dimensions of a bent tube with square ends. `radius`: of its outside. Where neither a tape nor a square reaches
 * from outside to outside, the insides are tried; what cannot be reached is left out.
 */
export function checksOf(line: Centreline, radius: number): readonly Check[] {
  const arcs = arcsOf(line);
  const [one] = arcs;
  if (one === undefined || !(radius > 0)) return [];
  const flat = isFlat(arcs);
  const [first, last] = rimsOf(line, radius);
  const places: readonly Place[] = [
    { number: 0, kind: 'end', which: 'first', rim: first },
    ...arcs.map((arc, i): Place => ({ number: i + 1, kind: 'bend', arc })),
    { number: arcs.length + 1, kind: 'end', which: 'last', rim: last },
  ];
  const found = pairs(places, flat).flatMap(([a, b]): readonly Check[] => {
    const check = (face: Face, reach: Reach, ends: readonly [Vec3, Vec3]): Check => ({
      kind: 'between',
      from: spotOf(a, face),
      to: spotOf(b, face),
      value: distance(...ends),
      reach,
      ends,
    });
    const outer = endsOf(a, b, 'outside', radius);
    if (isClear(line, radius, ...outer)) return [check('outside', 'tape', outer)];
    if (flat) return [check('outside', 'square', outer)];
    const inner = endsOf(a, b, 'inside', radius);
    return isClear(line, radius, ...inner) ? [check('inside', 'tape', inner)] : [];
  });
  return [...found, ...(flat ? overall(line, radius, one.axis) : rises(line, radius, arcs))];
}
