/** A host seen from one child's end: a plane, or the stretches of a bent tube near E taken together. */
import { pointAt } from '../centreline/query';
import { arcPoint, arcTangent } from '../centreline/piece';
import type { Vec3 } from '../centreline/vector';
import { addScaled, angleBetween, distance, dot, norm, scale, sub } from '../centreline/vector';
import { larger, peak, sampledMaximum } from './cope-numeric';
import type { ChildEnd, Host, HostField, PlaneHost, TubeHost } from './setback';
import { NEAR_MISS } from './setback';
import { ArcBody } from './setback-arc';
import type { Flat, Span } from './setback-leg';
import { LegBody } from './setback-leg';

type Body = LegBody | ArcBody;

/** Prepares a host for many generators of one end. */
export const hostField = (child: ChildEnd, host: Host): HostField =>
  host.kind === 'plane' ? planeField(child, host) : tubeField(child, host);

/** A point of a generator. */
export const onGenerator = (child: ChildEnd, rho: number, cos: number, sin: number, s: number): Vec3 => {
  const { origin: e, zero: z, quarter: q, away: u } = child;
  const c = rho * cos;
  const k = rho * sin;
  return [
    e[0] + c * z[0] + k * q[0] + s * u[0],
    e[1] + c * z[1] + k * q[1] + s * u[1],
    e[2] + c * z[2] + k * q[2] + s * u[2],
  ];
};

function planeField(child: ChildEnd, host: PlaneHost): HostField {
  const size = norm(host.normal);
  const sense = dot(host.normal, child.away) < 0 ? -1 : 1;
  const n = scale(host.normal, size > 0 ? sense / size : 0);
  const speed = dot(n, child.away);
  const base = dot(n, sub(host.point, child.origin));
  const zero = dot(n, child.zero);
  const quarter = dot(n, child.quarter);
  // Along a plane there is no way out of it.
  const at = (rho: number, cos: number, sin: number): number =>
    speed > 1e-9 ? (base - rho * (zero * cos + quarter * sin)) / speed : NaN;
  return {
    exit: at,
    approach: () => NaN,
    at,
    most: (cos, sin) => Math.max(at(child.outerRadius, cos, sin), at(child.innerRadius, cos, sin)),
    miss: (rho, cos, sin) => (speed > 1e-9 ? 0 : rho * (zero * cos + quarter * sin) - base),
    clearance: (p) => dot(n, sub(p, host.point)),
    station: () => NaN,
    offset: () => NaN,
  };
}

/**
 * How far from E along the host a footprint may lie: 4 R, and more where leg and host meet at a shallow angle: the toe
 * of a straight one reaches (R cos α + r) / sin α, and more by what E lies beside the axis. A child as long as its limit
 * allows reaches no farther than that.
 */
export function reachOf(child: ChildEnd, host: TubeHost): number {
  const on = pointAt(host.centreline, host.station);
  const alpha = angleBetween(on.tangent, child.away);
  const beside = distance(on.point, child.origin);
  const straight = ((host.radius + beside) * Math.abs(Math.cos(alpha)) + child.outerRadius) / Math.sin(alpha) + 1;
  const longest = 2 * (child.limit + host.radius + child.outerRadius + beside);
  return Math.max(4 * host.radius, Math.min(straight > 0 ? straight : Infinity, longest));
}

/** The stretches of the host near E, its end legs going on where nothing cuts them. */
function bodiesOf(child: ChildEnd, host: TubeHost, reach: number): Body[] {
  const { centreline, radius } = host;
  const pieces = centreline.pieces;
  const nearLow = host.station - reach;
  const nearHigh = host.station + reach;
  const low = Math.max(nearLow, host.from ?? -Infinity);
  const high = Math.min(nearHigh, host.to ?? Infinity);
  const bodies: Body[] = [];
  const spanOf = (start: number, from: number, to: number): Span | null => {
    const a = Math.max(from, low);
    const b = Math.min(to, high);
    return a <= b
      ? {
          low: a - start,
          high: b - start,
          flatLow: a === host.from && a > nearLow,
          flatHigh: b === host.to && b < nearHigh,
        }
      : null;
  };
  const addLeg = (from: Vec3, direction: Vec3, start: number, a: number, b: number): void => {
    const span = spanOf(start, a, b);
    if (span !== null) bodies.push(new LegBody(child, from, direction, radius, span, start));
  };
  const first = pieces[0];
  if (first?.kind === 'arc') addLeg(arcPoint(first, 0), first.tangent, 0, -Infinity, 0);
  for (let i = 0; i < pieces.length; i++) {
    const piece = pieces[i];
    if (piece === undefined) continue;
    const end = piece.start + piece.length;
    if (piece.kind === 'leg') {
      const from = i === 0 ? -Infinity : piece.start;
      addLeg(piece.from, piece.direction, piece.start, from, i === pieces.length - 1 ? Infinity : end);
    } else {
      const span = spanOf(piece.start, piece.start, end);
      if (span !== null) bodies.push(new ArcBody(child, piece, radius, span));
    }
  }
  const last = pieces[pieces.length - 1];
  if (last?.kind === 'arc') {
    const end = last.start + last.length;
    addLeg(arcPoint(last, last.angle), arcTangent(last, last.angle), end, end, Infinity);
  }
  return bodies;
}

/** Samples of a generator before its nearest point to a bent host is refined. */
const MISS_SAMPLES = 64;

function tubeField(child: ChildEnd, host: TubeHost): HostField {
  const reach = reachOf(child, host);
  const bodies = bodiesOf(child, host, reach);
  const flats = bodies.flatMap((body) => body.flats());
  const only = bodies.length === 1 && bodies[0] instanceof LegBody ? bodies[0] : null;

  const clearance = (p: Vec3): number => {
    let least = Infinity;
    for (const body of bodies) least = Math.min(least, body.clearance(p));
    return least;
  };

  const rim = (rho: number, cos: number, sin: number): number => {
    const on = onGenerator(child, rho, cos, sin, 0);
    let best = NaN;
    for (const flat of flats) {
      const s = rimApproach(on, child.away, flat, host.radius);
      if (s < child.limit) best = larger(s, best);
    }
    return best;
  };

  const exit = (rho: number, cos: number, sin: number): number => {
    let best = NaN;
    for (const body of bodies) best = larger(body.exit(rho, cos, sin), best);
    return best;
  };

  const approach = (rho: number, cos: number, sin: number): number => {
    let best = NaN;
    for (const body of bodies) best = larger(body.approach(rho, cos, sin), best);
    return !Number.isNaN(best) || flats.length === 0 ? best : rim(rho, cos, sin);
  };

  const at = (rho: number, cos: number, sin: number): number => {
    const left = exit(rho, cos, sin);
    return Number.isNaN(left) ? approach(rho, cos, sin) : left;
  };

  const most = (cos: number, sin: number, atOuter?: number, atInner?: number): number => {
    const { innerRadius: q, outerRadius: r } = child;
    const outer = atOuter ?? exit(r, cos, sin);
    const inner = atInner ?? exit(q, cos, sin);
    if (only !== null) return only.most(q, r, cos, sin, larger(outer, inner));
    const at = (rho: number): number => exit(rho, cos, sin);
    return flats.length === 0 ? mostOfSmooth(at, q, r, inner, outer) : mostOfKinked(at, q, r);
  };

  const miss = (rho: number, cos: number, sin: number): number => {
    const low = -reach - 2 * host.radius;
    const high = Math.min(child.limit, reach + 2 * host.radius);
    const near = (s: number): number => -clearance(onGenerator(child, rho, cos, sin, s));
    return -sampledMaximum(near, low, high, MISS_SAMPLES, 1e-9);
  };

  const nearestAxis = (p: Vec3): { readonly distance: number; readonly station: number } => {
    let found = { distance: Infinity, station: NaN };
    for (const body of bodies) {
      const axis = body.axis(p, true);
      if (axis.distance < found.distance) found = { distance: axis.distance, station: body.start + axis.along };
    }
    return found;
  };

  const offset = (): number => {
    if (only !== null) return only.axesApart();
    const near = (s: number): number => -nearestAxis(addScaled(child.origin, child.away, s)).distance;
    // E itself is looked at too: on the host's axis, where the distance has a kink, it gives 0, not what rounding leaves.
    return -larger(near(0), sampledMaximum(near, -reach, reach, MISS_SAMPLES, 1e-9)) + 0;
  };

  return {
    exit,
    approach,
    at,
    most,
    miss,
    clearance,
    station: (p) => nearestAxis(p).station,
    offset,
  };
}

/**
 * Where a line (a point of it and its unit direction) comes nearest to the disc of a flat from outside, if that is
 * {@link NEAR_MISS} or less away; else NaN. The distance to a disc is convex along a line: its slope is bisected.
 */
function rimApproach(on: Vec3, along: Vec3, flat: Flat, radius: number): number {
  const rel = sub(on, flat.centre);
  const middle = -dot(rel, along);
  const nearest = addScaled(rel, along, middle);
  if (dot(nearest, nearest) > (radius + NEAR_MISS) ** 2) return NaN;
  const speed = dot(along, flat.outward);
  const beyondAt = dot(rel, flat.outward);
  const beyond = (s: number): number => Math.max(0, beyondAt + s * speed);
  const radial = (s: number): Vec3 => addScaled(addScaled(rel, along, s), flat.outward, -(beyondAt + s * speed));
  const slope = (s: number): number => {
    const out = radial(s);
    const size = norm(out);
    return beyond(s) * speed + (size > radius ? ((size - radius) * dot(out, along)) / size : 0);
  };
  let low = middle - radius - 1;
  let high = middle + radius + 1;
  for (let i = 0; i < 60 && high - low > 1e-12; i++) {
    const half = (low + high) / 2;
    if (slope(half) < 0) low = half;
    else high = half;
  }
  const s = (low + high) / 2;
  const miss = Math.hypot(beyond(s), Math.max(0, norm(radial(s)) - radius));
  return beyondAt + s * speed >= 0 && miss <= NEAR_MISS ? s : NaN;
}

/** How far inside an edge of the wall is looked whether the set-back still rises, as a share of the wall. */
const NUDGE = 1e-4;

/**
 * The largest set-back over the wall on a tube without flats, bends included: its surface has no kink, so over so short
 * a way the set-back has one crest, or none and is largest at an edge. `inner` and `outer` are its values there.
 */
function mostOfSmooth(at: (rho: number) => number, q: number, r: number, inner: number, outer: number): number {
  const nudge = (r - q) * NUDGE;
  if (!(inner <= outer) && !(outer <= inner)) return mostOfKinked(at, q, r);
  const rises = outer >= inner ? at(r - nudge) > outer : at(q + nudge) > inner;
  const edge = Math.max(inner, outer);
  return rises ? larger(peak(at, q, r, WALL_TOLERANCE).value, edge) : edge;
}

/** Even steps across the wall in which its highest generator is looked for; how near it is found, mm. */
const WALL_STEPS = 8;
const WALL_TOLERANCE = 1e-6;

/** The largest set-back over the wall where it may have kinks or holes. */
const mostOfKinked = (at: (rho: number) => number, q: number, r: number): number =>
  larger(at(r), sampledMaximum(at, q, r, WALL_STEPS, WALL_TOLERANCE));
