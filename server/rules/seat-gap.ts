/** `seat.gap`: the shortest distance from the shell's rear rectangle to the nearest tube. */
import type { Anchor, FindingNote } from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import type { Reading, Rule } from './rule';

/** A pair is told at the one that is written later, with a note on the other. */
const atPair = (
  cage: Cage,
  seat: string,
  tube: string,
): { readonly at: Anchor; readonly notes: readonly FindingNote[] } => {
  const order = [...cage.things.keys()];
  // A piece of a split tube is written where its tube is.
  const whole = cage.things.has(tube) ? tube : tube.replace(/\.[ab]$/, '');
  const seatLater = order.indexOf(seat) > order.indexOf(whole);
  const [later, other] = seatLater ? [seat, whole] : [whole, seat];
  return {
    at: { kind: 'thing', thing: later },
    notes: [{ at: { kind: 'thing', thing: other }, message: `${other} is the other of the two` }],
  };
};

export const seatGap: Rule = {
  code: 'seat.gap',
  unit: 'mm',
  slack: 1e-6,
  read: (cage, shape) => {
    const readings: Reading[] = [];
    for (const seat of shape.seats) {
      if (seat.gap === null || seat.to === null) continue;
      readings.push({
        subject: seat.name,
        ...atPair(cage, seat.name, seat.to),
        measured: { value: seat.gap, unit: 'mm' },
        params: { seat: seat.name, tube: seat.to },
        fixes: [],
        limit: null,
      });
    }
    return readings;
  },
  mend: (reading, target) => ({
    says: 'give it {by} more',
    params: { by: { value: target - reading.measured.value, unit: 'mm' } },
  }),
};
