/** Feet as the books tell them apart: by what stands on them. */
import type { Foot, Tube } from '../cage/cage';
import type { OnFeet, Stand } from '../geometry/feet';
import { onFeet, standsOn } from '../geometry/feet';
import type { Part } from '../geometry/shape';
import type { Car } from './car';
import { listOf } from './car';

export interface FootUse {
  readonly foot: Foot;
  readonly group: (typeof FOOT_GROUPS)[number];
  /** The tubes that end on it. */
  readonly tubes: readonly Tube[];
}

/** The groups in which feet are told apart. */
export const FOOT_GROUPS = ['hoop foot', 'backstay foot', 'other foot'] as const;

const HOOPS = ['main-rollbar', 'front-rollbar', 'lateral-rollbar', 'half-lateral'] as const;

const standsOfPart = (part: Part, { cage, shape }: Car): readonly Stand[] => standsOn(part, cage, shape.parts);

const standings = (car: Car): OnFeet => onFeet(car.parts().map((part) => car.ask(standsOfPart, part)));

/** Which ends stand on a foot. */
export const standingOnFoot = listOf(standings);

/** The feet on which an end stands. */
export const stoodOn = (car: Car): readonly Foot[] => car.keep(stoodOnOf);
const stoodOnOf = (car: Car): readonly Foot[] => [...car.keep(standings).keys()];

export const footUses = (car: Car): readonly FootUse[] => car.keep(usesOf);

function usesOf(car: Car): readonly FootUse[] {
  const on = new Map<string, Tube[]>();
  for (const { tube, ends } of car.members()) {
    for (const { foot } of ends) if (foot !== null) on.set(foot.name, [...(on.get(foot.name) ?? []), tube]);
  }
  return car.feet().map((foot) => {
    const tubes = on.get(foot.name) ?? [];
    const has = (role: string): boolean => tubes.some((tube) => tube.role === role);
    const group: FootUse['group'] = HOOPS.some(has) ? 'hoop foot' : has('backstay') ? 'backstay foot' : 'other foot';
    return { foot, group, tubes };
  });
}

/** Where a plate is neither told to be bolted nor known to be welded, and the limit hangs on it. */
export const BOLTS = 'its bolts are not written: bolts 3 x M8';

/** The example's hoop with a foot of this plate and these bolts. */
export const footExample = (plate: string, bolts = '; bolts 3 x M8'): string =>
  `mirror left {
  node heel = (0, 300, 0)
  node peak = on hoop nearest (0, 300, 1000)
  tube post as front-rollbar { section t45; path heel, peak }
  foot plate { at heel; plate ${plate}${bolts}; hole 8 }
}`;
