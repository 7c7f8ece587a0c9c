/**
 * The lines in which a tube is seen: both edges of its legs and bends, and the curves in which its ends are cut. An edge is
 * where the surface is looked at along itself: across the tube, square to the look. Millimetres, in the car's frame.
 */
import type { Arc, Leg } from '../centreline/centreline';
import { arcPoint, arcTangent } from '../centreline/piece';
import type { Vec3 } from '../centreline/vector';
import { addScaled, angleBetween, cross, dot, scale } from '../centreline/vector';
import type { Body, BodyEnd } from './body';
import type { View } from './view';
import { edgeNormal } from './view';

/** A point on the tube's surface with the direction in which the surface faces. */
export interface OnSurface {
  readonly at: Vec3;
  readonly facing: Vec3;
}

export interface Curve {
  readonly kind: 'edge' | 'cut';
  readonly points: readonly OnSurface[];
}

/** An edge's direction turns by no more than this from point to point, radians. */
const FINE = (6 * Math.PI) / 180;
const MOST_HALVINGS = 12;
/** A cut end is seen as so many chords. */
const CUT_STEPS = 72;

interface Station {
  readonly at: Vec3;
  readonly tangent: Vec3;
}

const onArc = (arc: Arc, angle: number): Station => ({ at: arcPoint(arc, angle), tangent: arcTangent(arc, angle) });

/** Directions between two, turned about the look: the half circle where a tube turns straight toward the viewer. */
function turned(view: View, at: Vec3, from: Vec3, by: number, radius: number): readonly OnSurface[] {
  const steps = Math.max(1, Math.ceil(Math.abs(by) / FINE));
  const across = cross(view.toward, from);
  return Array.from({ length: steps - 1 }, (_, i) => {
    const angle = (by * (i + 1)) / steps;
    const facing = addScaled(scale(from, Math.cos(angle)), across, Math.sin(angle));
    return { at: addScaled(at, facing, radius), facing };
  });
}

/** One edge, put together from station to station. It breaks where a leg is seen end on. */
class Edge {
  readonly runs: OnSurface[][] = [];
  private run: OnSurface[] = [];
  private last: Vec3 | null = null;

  constructor(
    private readonly view: View,
    private readonly radius: number,
    private readonly sign: 1 | -1,
  ) {}

  normal(tangent: Vec3): Vec3 | null {
    const normal = edgeNormal(this.view, tangent);
    return normal === null ? null : scale(normal, this.sign);
  }

  add({ at, tangent }: Station): void {
    const facing = this.normal(tangent);
    if (facing === null) return;
    if (this.last !== null) {
      const by = Math.atan2(dot(cross(this.last, facing), this.view.toward), dot(this.last, facing));
      if (Math.abs(by) > FINE) this.run.push(...turned(this.view, at, this.last, by, this.radius));
    }
    this.run.push({ at: addScaled(at, facing, this.radius), facing });
    this.last = facing;
  }

  end(): void {
    if (this.run.length > 1) this.runs.push(this.run);
    this.run = [];
    this.last = null;
  }
}

/** Angles on a bend between which the edge turns little. */
function marksOf(view: View, arc: Arc): readonly number[] {
  const normal = (angle: number): Vec3 | null => edgeNormal(view, arcTangent(arc, angle));
  const marks: number[] = [0];
  const between = (from: number, to: number, left: number): void => {
    const [a, b] = [normal(from), normal(to)];
    const turn = a === null || b === null ? Math.PI : angleBetween(a, b);
    if (left > 0 && (to - from > FINE || turn > FINE)) {
      const mid = (from + to) / 2;
      between(from, mid, left - 1);
      between(mid, to, left - 1);
    } else marks.push(to);
  };
  between(0, arc.angle, MOST_HALVINGS);
  return marks;
}

/** Where the edge's generator leaves what cuts this end, as a point of the leg's axis. */
function trimmed(end: BodyEnd, leg: Leg, facing: Vec3, from: Vec3): Vec3 {
  const clock = Math.atan2(dot(facing, end.quarter), dot(facing, end.zero));
  const back = end.setback(clock);
  const start = addScaled(end.origin, end.away, Number.isFinite(back) ? back : 0);
  // Along the leg's own line: the origin may stand beside it by the half millimetre that an end may miss.
  const along = dot([start[0] - from[0], start[1] - from[1], start[2] - from[2]], end.away);
  return addScaled(from, end.away, Math.min(along, leg.length));
}

/** A leg or a bend seen end on is a circle. */
const circle = (view: View, at: Vec3, radius: number): Curve => {
  const from = view.right;
  const first: OnSurface = { at: addScaled(at, from, radius), facing: from };
  return { kind: 'edge', points: [first, ...turned(view, at, from, 2 * Math.PI, radius), first] };
};

/** Both edges of the whole tube. */
export function edgesOf(body: Body, view: View): readonly Curve[] {
  const { pieces, radius, ends } = body;
  const curves: Curve[] = [];
  for (const sign of [1, -1] as const) {
    const edge = new Edge(view, radius, sign);
    for (const [i, piece] of pieces.entries()) {
      if (piece.kind === 'arc') {
        for (const angle of marksOf(view, piece)) edge.add(onArc(piece, angle));
        continue;
      }
      const facing = edge.normal(piece.direction);
      if (facing === null) {
        edge.end();
        // Ends have their cut; between two bends the leg itself is the round that is seen.
        if (sign === 1 && i > 0 && i < pieces.length - 1) curves.push(circle(view, piece.from, radius));
        continue;
      }
      const tangent = piece.direction;
      const from = i === 0 ? trimmed(ends[0], piece, facing, piece.from) : piece.from;
      const to = i === pieces.length - 1 ? trimmed(ends[1], piece, facing, piece.to) : piece.to;
      edge.add({ at: from, tangent });
      edge.add({ at: to, tangent });
    }
    edge.end();
    for (const points of edge.runs) curves.push({ kind: 'edge', points });
  }
  return curves;
}

/** The curve in which the outside of a tube meets what its end is cut to. */
export function cutOf(body: Body, which: 0 | 1): Curve {
  const end = body.ends[which];
  const points = Array.from({ length: CUT_STEPS + 1 }, (_, i): OnSurface => {
    const clock = (2 * Math.PI * (i % CUT_STEPS)) / CUT_STEPS;
    const facing = addScaled(scale(end.zero, Math.cos(clock)), end.quarter, Math.sin(clock));
    const back = end.setback(clock);
    const on = addScaled(end.origin, end.away, Number.isFinite(back) ? back : 0);
    return { at: addScaled(on, facing, body.radius), facing };
  });
  return { kind: 'cut', points };
}

/** All lines of a tube. */
export const curvesOf = (body: Body, view: View): readonly Curve[] => [
  ...edgesOf(body, view),
  cutOf(body, 0),
  cutOf(body, 1),
];
