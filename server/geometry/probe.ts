/** Which of the ends before it really cut an end: those that raise some set-back. Millimetres. */
import { RAISES } from './cope-hosts';
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

/**
 * Takes candidates one after the other, in their order: each is a host where it raises the largest set-back over the
 * wall above what the hosts before it give. Where those give none, the end is square at E, set-back 0. `forced`
 * candidates are hosts in any case.
 */
export function probe(
  child: ChildEnd,
  base: readonly Host[],
  candidates: readonly { readonly host: Host; readonly forced: boolean }[],
): Probe {
  const most = new Float64Array(CLOCKS).fill(NaN);
  const met = new Uint8Array(CLOCKS);
  const take = (host: Host, forced: boolean): boolean => {
    const field = hostField(child, host);
    const own = new Float64Array(CLOCKS);
    let raises = forced;
    for (const [i, [cos, sin]] of TURN.entries()) {
      const value = field.most(cos, sin);
      own[i] = value;
      const before = most[i] as number;
      if (value > (Number.isNaN(before) ? 0 : before) + RAISES) raises = true;
    }
    if (!raises) return false;
    for (const [i, [cos, sin]] of TURN.entries()) {
      const value = own[i] as number;
      const before = most[i] as number;
      if (Number.isNaN(before) || value > before) most[i] = value;
      if (!Number.isNaN(field.at(child.outerRadius, cos, sin))) met[i] = 1;
    }
    return true;
  };
  for (const host of base) take(host, true);
  const accepted = candidates.map(({ host, forced }) => take(host, forced));
  return { accepted, misses: met.some((m) => m === 0) };
}
