/** `seat.gap`: the shortest distance from the shell's rear rectangle to the nearest tube. */
import type { Anchor, FindingNote } from '../../../grammar/finding';
import type { SeatFigures } from '../../geometry/shape';
import type { Car } from '../car';
import { each } from '../each';
import { figure } from '../../geometry/tell';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

interface Told {
  readonly at: Anchor;
  readonly notes: readonly FindingNote[];
}

/** The names of all things, in the order in which they are written. */
const namesOf = (car: Car): readonly string[] => [...car.cage.things.keys()];
const orderOf = (car: Car): ReadonlyMap<string, number> => new Map(car.keep(namesOf).map((name, i) => [name, i]));

/** Where a thing is written, among all of them. */
const placeOf = (name: string, car: Car): number => car.keep(orderOf).get(name) ?? 0;

/** A pair is told at the one that is written later, with a note on the other. */
function atPair(car: Car, seat: string, tube: string): Told {
  // A piece of a split tube is written where its tube is.
  const whole = car.cage.things.has(tube) ? tube : tube.replace(/\.[ab]$/, '');
  const seatLater = placeOf(seat, car) > placeOf(whole, car);
  const [later, other, message] = seatLater
    ? [seat, whole, `${tube} is written here.`]
    : [whole, seat, `The seat ${seat} is written here.`];
  return { at: { kind: 'thing', thing: later }, notes: [{ at: { kind: 'thing', thing: other }, message }] };
}

function readingOf({ name, gap, to }: SeatFigures, car: Car): readonly Reading[] {
  if (gap === null || to === null) return [];
  const where =
    gap < 0 ? '{tube} stands inside seat {seat}, by {inside}' : '{tube} is {measured} from the back of seat {seat}';
  const params = { seat: name, tube: to, where, inside: figure(-gap, 'mm') };
  return [reading(name, gap, 'mm', params, atPair(car, name, to))];
}

export const seatGap: Rule = {
  code: 'seat.gap',
  unit: 'mm',
  slack: 1e-6,
  read: each(({ shape }) => shape.seats, readingOf),
  mend: (reading, target) => ({
    says: reading.measured.value < 0 ? 'move it {by~} aft, or the seat forward' : 'give it {by~} more',
    params: { by: { value: target - reading.measured.value, unit: 'mm' } },
  }),
  explanation: {
    what: 'A tube is close behind the back of a seat.',
    why: 'A slide or adjuster has to pass, and the shell moves back in a hit: it must not strike the tube.',
    measured:
      "The shortest distance from the shell's rear rectangle, 60 mm beyond the slots' lower rear edges on each side and along the back, to the nearest tube. A tube whose axis passes straight before that rectangle stands inside the seat: by so much as its surface is in front of the rear face.",
    mend: 'Move the tube aft or the seat forward.',
    stage: 'harness',
    bad: 'seat near { slots (90, -300, 750); recline 10 deg; slot-spacing 220; back 45 }',
    good: 'seat free { slots (240, -300, 750); recline 10 deg; slot-spacing 220; back 45 }',
  },
};
