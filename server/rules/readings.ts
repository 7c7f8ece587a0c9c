/** Short ways to make the items that a rule reads. */
import type { Anchor, MeasureUnit, Params } from '../../grammar/finding';
import type { Car } from './car';
import type { Missing, Reading } from './rule';

interface More {
  /** The fact at whose value the finding is told; without it at the name. */
  readonly fact?: string;
  readonly at?: Anchor;
  readonly group?: string;
  readonly limit?: Reading['limit'];
  readonly notes?: Reading['notes'];
  readonly word?: string;
}

const anchor = (subject: string, more: More): Anchor =>
  more.at ?? { kind: 'thing', thing: subject, ...(more.fact === undefined ? {} : { fact: more.fact }) };

/** The figure of one thing, in the JSON's units. */
export const reading = (
  subject: string,
  value: number,
  unit: MeasureUnit,
  params: Params,
  more: More = {},
): Reading => ({
  subject,
  at: anchor(subject, more),
  group: more.group ?? null,
  measured: { value, unit },
  ...(more.word === undefined ? {} : { word: more.word }),
  params,
  notes: more.notes ?? [],
  fixes: [],
  limit: more.limit ?? null,
});

/** The same for a fact of the whole car, told at its main hoop; empty where no tube stands in the car. */
export const missingOfCar = (car: Car, fact: string, more: More = {}): readonly Missing[] => {
  const chief = car.chief();
  return chief === null ? [] : [{ ...missing(chief.name, fact, more), ofCar: true }];
};

/** A figure that hangs on a fact that is not written. `fact` says what is missing, and how to write it. */
export const missing = (subject: string, fact: string, more: More = {}): Missing => ({
  subject,
  at: anchor(subject, more),
  group: more.group ?? null,
  fact,
});
