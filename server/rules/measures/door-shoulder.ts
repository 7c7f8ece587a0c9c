/** `door.shoulder`: how far the side bar beside the driver lies from midway between shoulder and elbow. */
import { planeCrossings } from '../../centreline/query';
import { add } from '../../centreline/vector';
import { slotsOf } from '../../geometry/shell';
import { front } from '../examples';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

const FACTS =
  "the driver's shoulder and elbow are not both written: shoulder (forward 110, up 35); elbow (forward 250, down 220) in the seat";

const shown = (up: number): string =>
  `${front()}\nmirror left {\n  node door-front = on side where z = ${String(up)}\n  node door-rear = on hoop where z = ${String(up)}\n  tube long as door-bar { section t38; path door-front, door-rear }\n  vent long -> hoop { at door-rear; dia 5 }\n}\nseat driver { slots (240, 300, 560); recline 10 deg; slot-spacing 220; back 45; shoulder (forward 110, up 30); elbow (forward 200, down 190) }`;

export const doorShoulder: Rule = {
  code: 'door.shoulder',
  unit: 'mm',
  slack: 0.05,
  read: (car): readonly Item[] => {
    const side = car.driverSide();
    const bars = car.of('door-bar').filter((bar) => side !== null && bar.side === side);
    if (side === null || bars.length === 0) return [];
    const seats = car.seats().filter(({ base }) => base === 'driver' || car.seats().length === 1);
    return seats.flatMap((seat): readonly Item[] => {
      const slots = slotsOf(seat);
      if (slots === null) return [];
      if (seat.shoulder === null || seat.elbow === null) return [missing(seat.name, FACTS)];
      // The arm beside the bar.
      const slot = slots.left[1] > slots.right[1] === (side === 'left') ? slots.left : slots.right;
      const shoulder = add(slot, seat.shoulder);
      const elbow = add(slot, seat.elbow);
      const x = (shoulder[0] + elbow[0]) / 2;
      const middle = (shoulder[2] + elbow[2]) / 2;
      const heights = bars.flatMap(({ name, line }) =>
        planeCrossings(line, [1, 0, 0], x).crossings.map(({ point }) => ({ name, off: point[2] - middle })),
      );
      const best = heights.sort((a, b) => Math.abs(a.off) - Math.abs(b.off))[0];
      if (best === undefined) return [];
      const params = { tube: best.name, way: best.off < 0 ? 'under' : 'over' };
      return [reading(best.name, Math.abs(best.off), 'mm', params, { fact: 'path' })];
    });
  },
  mend: (item, target) => ({
    says: item.params['way'] === 'over' ? 'lower it there by {by~}' : 'raise it there by {by~}',
    ask: ', {book} wants it midway; it names no tolerance, over {limit} is told',
    params: { by: { value: item.measured.value - target, unit: 'mm' } },
  }),
  explanation: {
    what: 'The side bar passes the driver too high or too low.',
    why: 'A bar at the shoulder breaks it, one at the elbow lets the car beside come in over it.',
    measured:
      "In side view, midway between shoulder and elbow of the driver's outer arm: the height of the door bar on his side that is nearest there, on its centreline, against the middle of the two. The text names no tolerance; 2 in is this tool's.",
    mend: 'Move the bar.',
    stage: 'hoop',
    bad: `rules nhra\n${shown(400)}`,
    good: `rules nhra\n${shown(470)}`,
  },
};
