/** Anchorages: what is written of them, and the example that the rules about them share. */
import type { Anchor } from '../cage/cage';
import type { Car } from './car';
import { missing, missingOfCar } from './readings';
import type { Item, Reading } from './rule';

/** One item for each of these anchors: what is read of it, or the fact that is missing. */
export function anchorFact(
  car: Car,
  anchors: readonly Anchor[],
  says: string,
  group: (anchor: Anchor) => { readonly group?: string },
  read: (anchor: Anchor) => Reading | null,
): readonly Item[] {
  const items = anchors.map((anchor) => ({ anchor, item: read(anchor) }));
  const [first] = anchors;
  // Where none of them tells it, it is asked for once for the whole car.
  if (first !== undefined && items.every(({ item }) => item === null)) return missingOfCar(car, says, group(first));
  return items.map(({ anchor, item }) => item ?? missing(anchor.name, says, group(anchor)));
}

/** A seat with one anchor. */
export const anchorExample = (facts: string, as = 'lap'): string =>
  `seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45 }\nanchor outer as ${as} { seat driver; at (200, 520, 120); ${facts} }`;
