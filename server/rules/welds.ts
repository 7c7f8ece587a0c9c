/** Where tubes are welded to tubes, as a shop sees it: which end on which tube, and how much of it the weld covers. */
import type { Anchor } from '../../grammar/finding';
import type { Arc } from '../centreline/centreline';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, angleBetween, distance, dot, sub } from '../centreline/vector';
import type { End, Part } from '../geometry/shape';
import type { Car } from './car';

/** An end that is coped to a tube. */
export interface Weld {
  readonly part: Part;
  readonly end: End;
  readonly host: Part;
  /** On the host's centreline, of its point nearest to E, mm. */
  readonly station: number;
  /** How far the weld reaches along the host from there, at most, mm: for those who only look for what is near. */
  readonly bound: number;
}

export const radiusOf = (part: Part): number => (part.tube.section?.od ?? 0) / 2;

/** Of a weld on a host, which stations it covers. Null: another tube cuts farther all round. */
export function coveredBy({ end, host, station }: Weld): { readonly from: number; readonly to: number } | null {
  const print = end.prints.find((one) => one.host === host.name);
  return print === undefined ? null : { from: station - print.before, to: station + print.after };
}

/** Where the ends of a part are welded to tubes, as far as the cut is known. */
export function weldsOfPart(part: Part, { shape: { parts } }: Car): readonly Weld[] {
  return part.ends.flatMap((end) => {
    const { origin, away } = end;
    if (end.fit !== 'cope' || end.maxCut === null || origin === null || away === null) return [];
    return end.hosts.flatMap((name): readonly Weld[] => {
      const host = parts.get(name);
      if (host === undefined || host.centreline === null || host.tube.section === null) return [];
      const on = nearestOn(host.centreline, origin);
      const turn = angleBetween(away, on.tangent);
      const [sin, cos] = [Math.max(1e-3, Math.sin(turn)), Math.abs(Math.cos(turn))];
      // Cylinders at an angle share nothing farther along than this from where their axes are nearest.
      const bound = (radiusOf(part) + radiusOf(host) * cos) / sin + 1;
      return [{ part, end, host, station: on.station, bound }];
    });
  });
}

export const bendsOf = (part: Part): readonly Arc[] =>
  (part.centreline?.pieces ?? []).filter((piece): piece is Arc => piece.kind === 'arc');

/** From a stretch to a bend along the centreline, mm: below 0, the stretch reaches so far into it. */
export const fromBend = (bend: Arc, from: number, to: number): number =>
  Math.max(bend.start - to, from - (bend.start + bend.length));

/** The straight that is left between an end's cut and the tube's own nearest bend, mm; null without a bend. */
export function straightBehind(part: Part, end: End): { readonly left: number; readonly bend: Arc } | null {
  const bends = bendsOf(part);
  const bend = end.which === 'first' ? bends[0] : bends[bends.length - 1];
  if (bend === undefined || part.centreline === null || end.maxCut === null) return null;
  const straight = end.which === 'first' ? bend.start : part.centreline.length - (bend.start + bend.length);
  return { left: straight - end.maxCut, bend };
}

/** Distance of a point from a stretch between two points. */
function fromSegment(p: Vec3, a: Vec3, b: Vec3): number {
  const along = sub(b, a);
  const size = dot(along, along);
  const share = size > 0 ? Math.min(1, Math.max(0, dot(sub(p, a), along) / size)) : 0;
  return distance(p, addScaled(a, along, share));
}

/** Every so many points of an edge are looked at first. */
const COARSE = 4;

const apart2 = (p: Vec3, q: Vec3): number => (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2;

/**
 * Shortest distance between two closed edges, mm, within a few hundredths; null where one of them is not known. Some
 * points of both are compared, then all about the two that are nearest, then the stretches between those.
 */
export function between(a: readonly Vec3[], b: readonly Vec3[]): number | null {
  if (a.length === 0 || b.length === 0) return null;
  const on = (list: readonly Vec3[], k: number): Vec3 => list[(k + list.length) % list.length] ?? [0, 0, 0];
  let least = Infinity;
  let [i, j] = [0, 0];
  const look = (m: number, n: number): void => {
    const far = apart2(on(a, m), on(b, n));
    if (far < least) [least, i, j] = [far, m, n];
  };
  for (let m = 0; m < a.length; m += COARSE) for (let n = 0; n < b.length; n += COARSE) look(m, n);
  const [p, q] = [i, j];
  for (let m = p - COARSE; m <= p + COARSE; m++) for (let n = q - COARSE; n <= q + COARSE; n++) look(m, n);
  let best = Math.sqrt(least);
  for (const di of [-1, 0, 1]) {
    for (const dj of [-1, 0, 1]) {
      const [s, t] = [on(a, i + di), on(b, j + dj)];
      best = Math.min(best, fromSegment(s, t, on(b, j + dj + 1)), fromSegment(t, s, on(a, i + di + 1)));
    }
  }
  return best;
}

/** Where a finding about an end is told: at its node in the tube's path; the inner ends of a split tube at its `split`. */
export function anchorOf({ tube, piece }: Part, { which }: End): Anchor {
  const inner = (piece === 'a' && which === 'last') || (piece === 'b' && which === 'first');
  return inner
    ? { kind: 'thing', thing: tube.name, fact: 'split' }
    : { kind: 'thing', thing: tube.name, fact: 'path', item: which === 'first' ? 0 : tube.path.length - 1 };
}
