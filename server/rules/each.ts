/** Readings that are taken thing by thing, so that those of things that stay as they are can be kept. */
import type { Car } from './car';
import type { Item, Read } from './rule';

/**
 * Reads `one` of each of `things`, in their order. `one` may ask the car for anything; it stands in a module, so that it
 * can know nothing of a car but what it asks.
 */
export function each<T>(things: (car: Car) => readonly T[], one: (thing: T, car: Car) => readonly Item[]): Read {
  const read = (car: Car): readonly Item[] => car.forEach(things(car), one).flat();
  return Object.assign(read, { byThing: { things, one: one as (thing: unknown, car: Car) => readonly Item[] } });
}

/** The same where each of them has one item. */
export const eachOne = <T>(things: (car: Car) => readonly T[], one: (thing: T, car: Car) => Item): Read =>
  each(things, (thing, car) => [one(thing, car)]);
