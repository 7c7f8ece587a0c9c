/** Questions to one bent centreline: the point at a station, the nearest point, plane crossings, a bend's span. */
import type { Arc, Centreline, OnCentreline, Piece } from './centreline';
import { alongPiece, onPiece } from './piece';
import type { Vec3 } from './vector';
import { distance, dot, scale } from './vector';

export { nearestBetween } from './between';
export type { Nearest } from './between';

/** Heights within this of a plane lie in it, mm: what rounding leaves of coordinates of a car's size. */
const IN_PLANE = 1e-9;

/** What is said of a centreline without pieces, which {@link buildPath} never makes. */
const nowhere = (c: Centreline): OnCentreline => ({ point: c.points[0] ?? [0, 0, 0], tangent: [1, 0, 0], station: 0 });

/** The point at `station` mm from the first point, along the bends; clamped to the ends. */
export function pointAt(c: Centreline, station: number): OnCentreline {
  const pieces = c.pieces;
  const at = station > 0 ? Math.min(station, c.length) : 0;
  let found = pieces[0];
  if (found === undefined) return nowhere(c);
  for (let i = 1; i < pieces.length; i++) {
    const piece = pieces[i] as Piece;
    if (piece.start > at) break;
    found = piece;
  }
  return onPiece(found, Math.min(at - found.start, found.length));
}

/** The point of the centreline nearest to `p`, and the distance, mm. The first of several equally near ones. Exact. */
export function nearestOn(c: Centreline, p: Vec3): OnCentreline & { readonly distance: number } {
  let best: OnCentreline | null = null;
  let least = Infinity;
  for (const piece of c.pieces) {
    const on = onPiece(piece, alongPiece(piece, p));
    const far = distance(on.point, p);
    if (far < least) {
      least = far;
      best = on;
    }
  }
  const on = best ?? nowhere(c);
  return { point: on.point, tangent: on.tangent, station: on.station, distance: distance(on.point, p) };
}

/** Crossings of a centreline with a plane, in the order of travel. */
export interface PlaneCrossings {
  readonly crossings: readonly OnCentreline[];
  /** True where a leg, or a whole bend, lies in the plane: its points are not among the crossings. */
  readonly liesIn: boolean;
}

/**
 * Where the centreline meets the plane of all p with normal · p = offset (`normal` is made a unit vector, and `offset`,
 * mm, goes with it). Exact on legs and arcs. A touch counts once, and so does a crossing where two pieces meet; an end
 * that stands in the plane counts. A normal of no length: none.
 */
export function planeCrossings(c: Centreline, normal: Vec3, offset: number): PlaneCrossings {
  const size = Math.hypot(normal[0], normal[1], normal[2]);
  if (!(size > 0 && size < Infinity && Number.isFinite(offset))) return { crossings: [], liesIn: false };
  const n = scale(normal, 1 / size);
  const off = offset / size;
  const snapped = (height: number): number => (Math.abs(height) <= IN_PLANE ? 0 : height);
  const crossings: OnCentreline[] = [];
  let liesIn = false;
  /** True while the last point looked at lies in the plane and is told already, or is part of what lies in it. */
  let told = false;
  const tell = (on: OnCentreline): void => {
    if (!told) crossings.push(on);
    told = true;
  };

  for (const piece of c.pieces) {
    // The height over the plane is monotone between these marks (mm along the piece).
    const marks = piece.kind === 'leg' ? [0, piece.length] : arcMarks(piece, n);
    let before = snapped(dot(onPiece(piece, 0).point, n) - off);
    const flat = marks.every((along) => snapped(dot(onPiece(piece, along).point, n) - off) === 0);
    if (flat) {
      if (told && crossings.length > 0) dropTouch(crossings, piece.start);
      liesIn = true;
      told = true;
      continue;
    }
    if (before === 0) tell(onPiece(piece, 0));
    for (let i = 1; i < marks.length; i++) {
      const from = marks[i - 1] as number;
      const to = marks[i] as number;
      const after = snapped(dot(onPiece(piece, to).point, n) - off);
      if (before * after < 0) {
        tell(
          onPiece(piece, piece.kind === 'leg' ? (to * before) / (before - after) : solveArc(piece, n, off, from, to)),
        );
      }
      if (after === 0) tell(onPiece(piece, to));
      else told = false;
      before = after;
    }
  }
  return { crossings, liesIn };
}

/** A touch that turns out to be where a piece in the plane begins is no crossing of its own. */
function dropTouch(crossings: OnCentreline[], station: number): void {
  const last = crossings[crossings.length - 1];
  if (last !== undefined && Math.abs(last.station - station) <= 1e-6) crossings.pop();
}

/** Begin, turning points of the height over a plane with normal `n`, and end of an arc, mm along it. */
function arcMarks(arc: Arc, n: Vec3): readonly number[] {
  const marks = [0];
  const turning = Math.atan2(dot(arc.tangent, n), dot(arc.fromCentre, n));
  const inner = [turning, turning + Math.PI, turning + 2 * Math.PI].filter((a) => a > 0 && a < arc.angle);
  for (const angle of inner) marks.push(angle * arc.radius);
  marks.push(arc.length);
  return marks;
}

/** The one crossing of an arc's monotone stretch: height = radius · amplitude · cos(angle - turning) + centre height. */
function solveArc(arc: Arc, n: Vec3, offset: number, from: number, to: number): number {
  const a = dot(arc.fromCentre, n);
  const b = dot(arc.tangent, n);
  const turning = Math.atan2(b, a);
  const ratio = (offset - dot(arc.centre, n)) / (arc.radius * Math.hypot(a, b));
  const half = Math.acos(Math.max(-1, Math.min(1, ratio)));
  let best = (from + to) / 2;
  let outside = Infinity;
  for (const sign of [-1, 1]) {
    for (let turns = 0; turns <= 1; turns++) {
      const along = (turning + sign * half + turns * 2 * Math.PI) * arc.radius;
      const miss = along < from ? from - along : along > to ? along - to : 0;
      if (miss < outside) {
        outside = miss;
        best = Math.min(Math.max(along, from), to);
      }
    }
  }
  return best;
}

/** Stations where the bend at path point `corner` begins, is half done and ends, mm; null where nothing is bent there. */
export function bendSpan(
  c: Centreline,
  corner: number,
): { readonly start: number; readonly mid: number; readonly end: number } | null {
  for (const piece of c.pieces) {
    if (piece.kind === 'arc' && piece.corner === corner) {
      return { start: piece.start, mid: piece.start + piece.length / 2, end: piece.start + piece.length };
    }
  }
  return null;
}
