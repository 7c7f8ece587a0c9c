/** `seat.gap`: the shortest distance from the shell's rear rectangle to the nearest tube. */
import type { Anchor, FindingNote } from '../../../grammar/finding';
import type { Reading, Rule } from '../rule';

interface Told {
  readonly at: Anchor;
  readonly notes: readonly FindingNote[];
}

/** A pair is told at the one that is written later, with a note on the other. `order`: where each thing is written. */
function atPair(order: ReadonlyMap<string, number>, seat: string, tube: string): Told {
  // A piece of a split tube is written where its tube is.
  const whole = order.has(tube) ? tube : tube.replace(/\.[ab]$/, '');
  const seatLater = (order.get(seat) ?? 0) > (order.get(whole) ?? 0);
  const [later, other, message] = seatLater
    ? [seat, whole, `${tube} is written here.`]
    : [whole, seat, `The seat ${seat} is written here.`];
  return { at: { kind: 'thing', thing: later }, notes: [{ at: { kind: 'thing', thing: other }, message }] };
}

export const seatGap: Rule = {
  code: 'seat.gap',
  unit: 'mm',
  slack: 1e-6,
  read: ({ cage, shape }) => {
    const readings: Reading[] = [];
    // Most seats are told nothing, so nobody asks where they are written.
    let order: ReadonlyMap<string, number> | null = null;
    const pair = (seat: string, tube: string): Told => {
      order ??= new Map([...cage.things.keys()].map((name, i) => [name, i]));
      return atPair(order, seat, tube);
    };
    for (const seat of shape.seats) {
      const { name, gap, to } = seat;
      if (gap === null || to === null) continue;
      readings.push({
        subject: name,
        get at() {
          return pair(name, to).at;
        },
        get notes() {
          return pair(name, to).notes;
        },
        measured: { value: gap, unit: 'mm' },
        params: {
          seat: name,
          tube: to,
          where:
            gap < 0
              ? '{tube} stands inside seat {seat}, by {inside}'
              : '{tube} is {measured} from the back of seat {seat}',
          inside: { value: -gap, unit: 'mm' },
        },
        fixes: [],
        group: null,
        limit: null,
        figures: seat,
      });
    }
    return readings;
  },
  mend: (reading, target) => ({
    says: reading.measured.value < 0 ? 'move it {by} aft, or the seat forward' : 'give it {by} more',
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
