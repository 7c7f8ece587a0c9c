/** The roof's reinforcement as books draw it: which bars lie between the hoops, and whether they make an X or a V. */
import type { Car, Hoop, Member } from './car';
import type { Leg } from './legs';
import { crossingOf, frontRear, joined, pairsOf } from './legs';

/** `X`; V with its point to the front or to the rear; one alone; several that neither cross nor meet. */
export type RoofForm = 'X' | 'V to the front' | 'V to the rear' | 'one bar' | 'side by side' | 'none';

/** A leg of an X in a short, wide roof runs farther across the car than along it; a tube across does not run along it. */
const alongTheCar = ({ ends: [a, b] }: Member): boolean =>
  Math.abs(a.at[0] - b.at[0]) > Math.abs(a.at[1] - b.at[1]) / 4;

/** Legs that run between the hoops, not across the car only. */
export const roofLegs = (car: Car): readonly Leg[] => joined(car.of('roof-bar').filter(alongTheCar));

export interface Roof {
  readonly form: RoofForm;
  /** The two legs that make the form, or the one. */
  readonly legs: readonly Leg[];
}

/** A V's legs are at its point at most this share as far apart as at its other end. */
const NARROW = 0.5;

function formOf(a: Leg, b: Leg): RoofForm | null {
  if (crossingOf(a, b) !== null) return 'X';
  const [front, rear] = [0, 1].map((i) => Math.abs((frontRear(a)[i]?.at[1] ?? 0) - (frontRear(b)[i]?.at[1] ?? 0)));
  if (front === undefined || rear === undefined) return null;
  if (front < NARROW * rear) return 'V to the front';
  return rear < NARROW * front ? 'V to the rear' : null;
}

/** What the roof's bars make together, seen from above: the best of all pairs. */
export const roofOf = (car: Car): Roof => car.keep(best);

function best(car: Car): Roof {
  const legs = roofLegs(car);
  const [first] = legs;
  if (first === undefined) return { form: 'none', legs: [] };
  if (legs.length === 1) return { form: 'one bar', legs };
  const forms = pairsOf(legs).flatMap(([a, b]): readonly Roof[] => {
    const form = formOf(a, b);
    return form === null ? [] : [{ form, legs: [a, b] }];
  });
  return forms.find(({ form }) => form === 'X') ?? forms[0] ?? { form: 'side by side', legs };
}

/** The ends at the point of a V, one of each leg; null: the roof is none. */
export function apexOf({ form, legs: [a, b] }: Roof): readonly [Leg['ends'][0], Leg['ends'][0]] | null {
  if (a === undefined || b === undefined) return null;
  if (form === 'V to the front') return [frontRear(a)[0], frontRear(b)[0]];
  return form === 'V to the rear' ? [frontRear(a)[1], frontRear(b)[1]] : null;
}

/** The hoop at the rear of the roof, if there is one. */
export const rearHoop = (car: Car): Hoop | null => car.mainHoops()[0] ?? null;
