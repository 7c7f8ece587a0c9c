/** A cope with where it lies on each of its hosts. Millimetres. */
import type { Cope } from './cope';
import { cope } from './cope';
import type { Footprint } from './cope-hosts';
import { footprint } from './cope-hosts';
import type { ChildEnd, HostField, PlaneHost, TubeHost } from './setback';
import { NEAR_MISS } from './setback';
import { hostField } from './setback-field';

const CLOCKS = 72;

export interface CutCope {
  /** A number of its own, for what is computed from it. */
  readonly id: number;
  readonly cope: Cope;
  /** The stations of a tube host that the end covers, as if the host went on beyond its ends; null: none. */
  readonly footprint: (index: number) => Footprint | null;
  /** For each tube host: does this end touch it? An end that stands clear of it, node and all, does not. */
  readonly touches: readonly boolean[];
}

/** Cuts an end to its hosts. */
export function cutTo(id: number, child: ChildEnd, tubes: readonly TubeHost[], planes: readonly PlaneHost[]): CutCope {
  const hosts = [...tubes, ...planes];
  return {
    id,
    cope: cope(child, hosts),
    footprint: keptByIndex((index) => footprint(child, hosts, index)),
    touches: tubes.map((tube) => touches(hostField(child, tube))),
  };
}

/** Works a value out when it is first asked for: few ask where they lie on their hosts. */
function keptByIndex<V>(make: (index: number) => V): (index: number) => V {
  const kept = new Map<number, V>();
  return (index) => {
    const old = kept.get(index);
    if (old !== undefined) return old;
    const value = make(index);
    kept.set(index, value);
    return value;
  };
}

function touches(field: HostField): boolean {
  for (let i = 0; i < CLOCKS; i++) {
    const clock = (2 * Math.PI * i) / CLOCKS;
    const cos = Math.cos(clock);
    const sin = Math.sin(clock);
    if (field.most(cos, sin) >= -NEAR_MISS) return true;
  }
  return false;
}
