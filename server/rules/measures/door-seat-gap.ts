/** `door.seat-gap`: from the shell's side at the hip to the nearest door bar. */
import type { Vec3 } from '../../centreline/vector';
import { addScaled } from '../../centreline/vector';
import { nearestOn } from '../../centreline/query';
import { figure } from '../../geometry/tell';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

const HIP = 'where the hip is does not stand in the text: hip (275, 345, 262) in the seat';

const door = (y: string): string =>
  `node a = (700, ${y}, 260)\nnode b = (0, ${y}, 260)\ntube bar as door-bar { section t38; path a, b; first open; last open }\nseat driver { hip (275, 300, 262); recline 10 deg; slot-height 500; slot-spacing 220; back 45; width 480 }`;

export const doorSeatGap: Rule = {
  code: 'door.seat-gap',
  unit: 'mm',
  slack: 0.05,
  read: (car) => {
    const bars = car.of('door-bar').filter(({ tube }) => tube.section !== null);
    return bars.length === 0
      ? []
      : car.seats().flatMap((seat): readonly Item[] => {
          if (seat.width === null) return [];
          const { hip, width, yaw } = seat;
          if (hip === null) return [missing(seat.name, HIP)];
          const across: Vec3 = [-Math.sin(yaw), Math.cos(yaw), 0];
          const sides = [width / 2, -width / 2].map((half) => addScaled(hip, across, half));
          const gaps = bars.flatMap(({ line, name, tube }) =>
            sides.map((side) => ({ name, gap: nearestOn(line, side).distance - (tube.section?.od ?? 0) / 2 })),
          );
          const least = gaps.sort((a, b) => a.gap - b.gap)[0];
          return least === undefined
            ? []
            : [reading(seat.name, least.gap, 'mm', { seat: seat.name, tube: least.name })];
        });
  },
  mend: (item, target) => ({
    says: 'bow the bar {by~} out, toward the skin of the door',
    params: { by: figure(Math.ceil(target - item.measured.value), 'mm') },
  }),
  explanation: {
    what: 'A door bar is close beside a seat.',
    why: 'In a hit from the side the bar comes in by some centimetres: it must not strike the shell, and the hip in it.',
    measured:
      "From the side of the shell at the hip point, half the seat's `width` beside its middle, to the surface of the nearest door bar. Seats without a width are not judged.",
    mend: 'Bow the bar out to the skin of the door.',
    stage: 'parts',
    bad: door('600'),
    good: door('640'),
  },
};
