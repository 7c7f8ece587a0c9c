/** Anchorages: what is written of them, and the example that the rules about them share. */
import type { Anchor } from '../cage/cage';
import type { Car } from './car';
import { missing, missingOfCar } from './readings';
import type { Item, Reading } from './rule';

/** Told once for the whole car where no anchor says any of it. */
const NONE = 'how the anchors are made is not written: bolt 7/16 in grade 8; fixing bolt; adjuster 60 in the anchor';

/** One item for each of these anchors: what is read of it, or the fact that is missing. */
export function anchorFact(
  car: Car,
  anchors: readonly Anchor[],
  says: string,
  group: (anchor: Anchor) => { readonly group?: string },
  read: (anchor: Anchor) => Reading | null,
): readonly Item[] {
  const bare = car
    .ofKind('anchor')
    .every(({ bolt, fixing, adjuster }) => bolt === null && fixing === null && adjuster === null);
  if (bare) return anchors.slice(0, 1).flatMap((anchor) => missingOfCar(car, NONE, group(anchor)));
  return anchors.map((anchor) => read(anchor) ?? missing(anchor.name, says, group(anchor)));
}

/** A seat with one anchor. */
export const anchorExample = (facts: string, as = 'lap'): string =>
  `seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45 }\nanchor outer as ${as} { seat driver; at (200, 520, 120); ${facts} }`;
