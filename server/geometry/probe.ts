/** Which of the ends before it really cut an end: those that raise some set-back. Millimetres. */
import { distance, dot } from '../centreline/vector';
import { RAISES } from './cope-hosts';
import { larger } from './cope-numeric';
import type { ChildEnd, Host } from './setback';
import { hostField } from './setback-field';

const CLOCKS = 180;
const TURN: readonly (readonly [number, number])[] = Array.from({ length: CLOCKS }, (_, i) => [
  Math.cos((2 * Math.PI * i) / CLOCKS),
  Math.sin((2 * Math.PI * i) / CLOCKS),
]);

export interface Probe {
  /** For each candidate: does it cut this end? */
  readonly accepted: readonly boolean[];
  /** True where some generator of the outside meets neither the base hosts nor an accepted one. */
  readonly misses: boolean;
}

/** The largest set-backs so far at each clock: of the outer edge, of the inner one, and over the whole wall. */
interface Raised {
  readonly outer: Float64Array;
  readonly inner: Float64Array;
  readonly wall: Float64Array;
}

const unmet = (): Raised => ({
  outer: new Float64Array(CLOCKS).fill(NaN),
  inner: new Float64Array(CLOCKS).fill(NaN),
  wall: new Float64Array(CLOCKS).fill(NaN),
});

const EDGES = ['outer', 'inner', 'wall'] as const;

/**
 * No set-back on the half of a straight end leg from the child's own E is more than this; Infinity where that is not
 * what the host is. At an acute angle θ the highest point of a cylinder under the child is (R + r cos θ) / sin θ from E;
 * past the square the half lies behind E but for R sin θ.
 */
function ceiling(child: ChildEnd, host: Host): number {
  if (host.kind !== 'tube') return Infinity;
  const first = host.from === 0;
  if (!first && host.to !== host.centreline.length) return Infinity;
  const leg = host.centreline.pieces.at(first ? 0 : -1);
  if (leg?.kind !== 'leg') return Infinity;
  if (distance(first ? leg.from : leg.to, child.origin) > 1e-9) return Infinity;
  const cos = dot(child.away, leg.direction) * (first ? 1 : -1);
  if (cos <= 0) return host.radius;
  const sin = Math.sqrt(Math.max(0, 1 - cos * cos));
  const along = (host.radius * cos + child.outerRadius) / sin;
  return along < leg.length ? (host.radius + child.outerRadius * cos) / sin : Infinity;
}

/** The smallest of what stands at any clock; where nothing stands the end is square at E. */
function least(most: Raised): number {
  let found = Infinity;
  for (const edge of EDGES) for (const value of most[edge]) found = Math.min(found, Number.isNaN(value) ? 0 : value);
  return found;
}

/**
 * Takes candidates one after the other, in their order: each is a host where it raises some set-back, of the outer
 * edge, the inner edge or the largest over the wall, above what the hosts before it give. Where those give none, the
 * end is square at E, set-back 0. `forced` candidates are hosts in any case.
 */
export function probe(
  child: ChildEnd,
  base: readonly Host[],
  candidates: readonly { readonly host: Host; readonly forced: boolean }[],
): Probe {
  const most = unmet();
  const met = new Uint8Array(CLOCKS);
  const { outerRadius, innerRadius } = child;
  let floor = -Infinity;
  const take = (host: Host, forced: boolean): boolean => {
    if (!forced && ceiling(child, host) <= floor + RAISES) return false;
    const field = hostField(child, host);
    const own = unmet();
    let raises = forced;
    for (const [i, [cos, sin]] of TURN.entries()) {
      const outer = field.exit(outerRadius, cos, sin);
      const inner = field.exit(innerRadius, cos, sin);
      own.outer[i] = outer;
      own.inner[i] = inner;
      own.wall[i] = field.most(cos, sin, outer, inner);
      for (const edge of EDGES) {
        const before = most[edge][i] as number;
        if ((own[edge][i] as number) > (Number.isNaN(before) ? 0 : before) + RAISES) raises = true;
      }
    }
    if (!raises) return false;
    for (const [i, [cos, sin]] of TURN.entries()) {
      for (const edge of EDGES) most[edge][i] = larger(own[edge][i] as number, most[edge][i] as number);
      if (!Number.isNaN(own.outer[i] as number) || !Number.isNaN(field.approach(outerRadius, cos, sin))) met[i] = 1;
    }
    floor = least(most);
    return true;
  };
  for (const host of base) take(host, true);
  const accepted = candidates.map(({ host, forced }) => take(host, forced));
  return { accepted, misses: met.some((m) => m === 0) };
}
