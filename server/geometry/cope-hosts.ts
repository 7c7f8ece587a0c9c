/** When a body counts as a host of an end, and where on its hosts the end lies. */
import { copeFields, setbackAt } from './cope';
import { larger, turnMaximum } from './cope-numeric';
import type { ChildEnd, Host } from './setback';
import { onGenerator } from './setback-field';

/** A host counts where it raises some set-back by more than this, mm. */
export const RAISES = 0.5;

const STEPS = 240;
/** A host governs where its set-back is the largest to within this, mm. */
const GOVERNS = 1e-6;

/** A stretch of a host's stations, mm; beyond its ends: below 0, above its length. */
export interface Footprint {
  readonly from: number;
  readonly to: number;
}

/**
 * Where on `hosts[index]`, a tube, the end lands: the stations of all points in which its outer and inner edges leave
 * that host, where no other host cuts farther. Null where it lands nowhere, and on a plane. Ask with the host's flats
 * left out to learn how far it has to run on past its node, or whether a footprint runs past its end.
 */
export function footprint(child: ChildEnd, hosts: readonly Host[], index: number): Footprint | null {
  const prepared = copeFields(child, hosts);
  const field = prepared.fields[index];
  if (field === undefined || hosts[index]?.kind !== 'tube') return null;
  let from = NaN;
  let to = NaN;
  for (const rho of [child.outerRadius, child.innerRadius]) {
    const station = (clock: number): number => {
      const cos = Math.cos(clock);
      const sin = Math.sin(clock);
      const s = field.at(rho, cos, sin);
      if (Number.isNaN(s) || setbackAt(prepared, rho, clock) > s + GOVERNS) return NaN;
      return field.station(onGenerator(child, rho, cos, sin, s));
    };
    const up = new Float64Array(STEPS);
    for (let i = 0; i < STEPS; i++) up[i] = station((i * 2 * Math.PI) / STEPS);
    to = larger(turnMaximum(station, up), to);
    const down = up.map((value) => -value);
    from = -larger(
      turnMaximum((clock) => -station(clock), down),
      -from,
    );
  }
  return Number.isNaN(from) || Number.isNaN(to) ? null : { from, to };
}
