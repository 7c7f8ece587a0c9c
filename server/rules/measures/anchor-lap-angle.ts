/** `anchor.lap-angle`: how steep a lap strap runs from its anchorage to the hip, in side view. */
import { degrees } from '../../../grammar/units';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

const HIP =
  'where the hip is does not stand in the text: hip (275, 345, 262) and slot-height in the seat, in place of slots';

export const lapExample = (x: number, z: number, more = ''): string =>
  `seat driver { hip (400, 300, 260); slot-height 520; recline 10 deg; slot-spacing 220; back 45 }\nmirror left { anchor lap as lap { seat driver; at (${String(x)}, 520, ${String(z)})${more} } }`;

export const anchorLapAngle: Rule = {
  code: 'anchor.lap-angle',
  unit: 'deg',
  slack: 1e-6,
  read: (car) =>
    car.ofKind('anchor').flatMap((anchor): readonly Item[] => {
      const seat = car.seats().find(({ name }) => name === anchor.seat);
      if (anchor.as !== 'lap' || anchor.at === null || seat === undefined) return [];
      if (seat.hip === null) return [missing(seat.name, HIP)];
      const angle = degrees(Math.atan2(seat.hip[2] - anchor.at[2], seat.hip[0] - anchor.at[0]));
      return [reading(anchor.name, angle, 'deg', { anchor: anchor.name }, { fact: 'at' })];
    }),
  mend: (item, target) => ({
    says: item.measured.value < target ? 'move it forward, or lower' : 'move it aft, or higher',
    params: {},
  }),
  explanation: {
    what: 'A lap strap runs too flat, or too steep.',
    why: 'A flat strap rides up over the hip bones and cuts into the belly: the driver slides out under it. A very steep one lets him come forward first.',
    measured:
      'In side view, from the level, along the line from the anchorage to the hip point of the seat: 90 is straight up. Makers differ; each limit says whose notes it stands in: those of the harness that is in the car decide.',
    mend: "Move the anchorage, by the notes of the harness's own maker; a book of your own can name them: `limit anchor.lap-angle from 60 deg to 80 deg`.",
    stage: 'hoop',
    bad: `rules harness-makers\n${lapExample(100, 100)}`,
    good: `rules fia-253\n${lapExample(300, 86)}`,
  },
};
