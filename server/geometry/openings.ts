/** Ends that leave a bore open: told open, run past, or cut square with nothing in front of them. */
import type { EndTold } from '../cage/cage';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, norm, unit } from '../centreline/vector';
import { boreRadius, outerRadius } from './axis';
import { Kept } from './kept';
import type { Neighbours } from './neighbours';
import type { End, Part } from './shape';
import { bodyStretch } from './stretch';

/** How far before the end something may stand and still cover it, mm: the ends of a butt are taken as touching within it. */
const BEFORE = 0.6;
/** Rings, as shares of the bore's radius, and clocks at which the opening is looked at. */
const RINGS = [0.5, 0.98] as const;
const CLOCKS = 12;

/** What an end's bore opens to. */
export type Opening =
  | { readonly kind: 'closed' }
  | { readonly kind: 'air' }
  /** Butted square against another end: one bore goes on in the other. */
  | { readonly kind: 'bore'; readonly part: string };

/** How an end was told to be; the inner end of a split piece is told nothing. */
const toldOf = (part: Part, end: End): EndTold => {
  if (part.piece === 'a' && end.which === 'last') return { kind: 'auto' };
  if (part.piece === 'b' && end.which === 'first') return { kind: 'auto' };
  return end.which === 'first' ? part.tube.first : part.tube.last;
};

/** The middle of the opening, a little before it. */
const middleOf = (end: End): Vec3 | null =>
  end.origin === null || end.away === null ? null : addScaled(end.origin, end.away, (end.minCut ?? 0) - BEFORE);

/** A few points of the opening. */
function opening(part: Part, end: End, middle: Vec3): readonly Vec3[] {
  if (end.away === null) return [];
  const side = norm(cross(end.away, [0, 0, 1])) > 0.1 ? cross(end.away, [0, 0, 1]) : cross(end.away, [1, 0, 0]);
  const u = unit(side);
  const v = cross(end.away, u);
  const points: Vec3[] = [middle];
  for (const ring of RINGS) {
    for (let i = 0; i < CLOCKS; i++) {
      const clock = (2 * Math.PI * i) / CLOCKS;
      const r = ring * boreRadius(part);
      points.push(addScaled(addScaled(middle, u, r * Math.cos(clock)), v, r * Math.sin(clock)));
    }
  }
  return points;
}

/** Distance of a point from the axis of a part where it lies between the part's cuts; null beside or beyond it. */
function fromAxis(part: Part, p: Vec3): number | null {
  const stretch = bodyStretch(part);
  if (part.centreline === null || stretch === null) return null;
  const on = nearestOn(part.centreline, p);
  const beside = on.station >= stretch.from - BEFORE && on.station <= stretch.to + BEFORE;
  return beside && on.distance <= outerRadius(part) + BEFORE ? on.distance : null;
}

/** What square ends open to, kept between runs by the parts that are near. */
export type OpeningCache = Kept<Opening>;

const CLOSED: Opening = { kind: 'closed' };
const OPEN: Opening = { kind: 'air' };

/** What the bore opens to at one end, vents and a foot's hole apart. */
export function openingOf(part: Part, end: End, neighbours: Neighbours, kept: OpeningCache = new Kept()): Opening {
  if (end.fit === 'open' || toldOf(part, end).kind === 'past') return OPEN;
  if (end.fit !== 'square') return CLOSED;
  const middle = middleOf(end);
  if (middle === null) return OPEN;
  const near = neighbours.around(middle, outerRadius(part) + BEFORE).filter((other) => other !== part);
  return kept.get(`${part.name} ${end.which}`, [part, ...near], () => opensTo(part, end, middle, near));
}

function opensTo(part: Part, end: End, middle: Vec3, near: readonly Part[]): Opening {
  const points = opening(part, end, middle);
  if (!points.every((p) => near.some((other) => fromAxis(other, p) !== null))) return { kind: 'air' };
  const butted = near.find((other) => {
    const off = fromAxis(other, middle);
    return (
      off !== null && off < boreRadius(other) && other.ends.some((its) => its.fit === 'square' && meets(its, middle))
    );
  });
  return butted === undefined ? { kind: 'closed' } : { kind: 'bore', part: butted.name };
}

/** True for an end that stands at that place. */
const meets = (end: End, p: Vec3): boolean =>
  end.origin !== null &&
  end.away !== null &&
  norm(cross(addScaled(p, end.origin, -1), end.away)) <= 2 * BEFORE &&
  Math.hypot(...addScaled(p, addScaled(end.origin, end.away, end.minCut ?? 0), -1)) <= 4 * BEFORE;
