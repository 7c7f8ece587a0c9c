/** `hoop.width`: whether the main hoop is as wide as the driver's shoulders, or reaches the door. */
import { planeCrossings } from '../../centreline/query';
import { figure } from '../../geometry/tell';
import { slotsOf } from '../../geometry/shell';
import type { Car } from '../car';
import { legsOf } from '../hoop';
import { nearestPanel } from '../panels';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

const WIDTH = "how wide the driver's shoulders are is not written: shoulder-width 480 in the seat";
/** Nearer to the door than this the hoop may be narrow: 1 in. */
const AT_DOOR = 25.4;

const example = (width: number): string =>
  `seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45; shoulder (forward 110, up 30); shoulder-width ${String(width)} }`;

/** The leg on the driver's side to what is written of the side of the car there, mm. */
function toDoor(car: Car): number {
  const hoop = car.mainHoops()[0];
  const side = car.driverSide();
  if (hoop === undefined || side === null) return Infinity;
  const gaps = legsOf(hoop.line, hoop.figures).map(
    (leg) =>
      nearestPanel(car, 'side', hoop.line, leg, ({ outline }) =>
        (outline ?? []).every(([, y]) => (side === 'left' ? y > 0 : y < 0)),
      )?.far ?? Infinity,
  );
  return Math.min(...gaps) - (hoop.tube.section?.od ?? 0) / 2;
}

export const hoopWidth: Rule = {
  code: 'hoop.width',
  unit: 'mm',
  slack: 0.05,
  read: (car): readonly Item[] => {
    const hoop = car.mainHoops()[0];
    const section = hoop?.tube.section ?? null;
    if (hoop === undefined || section === null) return [];
    const seats = car.seats().filter(({ base }) => base === 'driver' || car.seats().length === 1);
    return seats.flatMap((seat): readonly Item[] => {
      const slots = slotsOf(seat);
      if (slots === null) return [];
      if (seat.shoulderWidth === null) return [missing(seat.name, WIDTH)];
      const height = slots.left[2] + (seat.shoulder?.[2] ?? 0);
      const { crossings } = planeCrossings(hoop.line, [0, 0, 1], height);
      const ys = crossings.map(({ point }) => point[1]);
      if (ys.length < 2) return [];
      const width = Math.max(...ys) - Math.min(...ys) + section.od;
      const over = toDoor(car) <= AT_DOOR ? Math.max(0, width - seat.shoulderWidth) : width - seat.shoulderWidth;
      const params = { tube: hoop.name, width: figure(width, 'mm'), shoulders: figure(seat.shoulderWidth, 'mm') };
      return [reading(hoop.name, over, 'mm', params, { fact: 'path' })];
    });
  },
  mend: (item, target) => ({
    says: "make it {by~} wider, or bring it within 1 in of the driver's door",
    ask: ', {book} wants it no narrower',
    params: { by: figure(target - item.measured.value, 'mm') },
  }),
  explanation: {
    what: "The main hoop is narrower than the driver's shoulders.",
    why: 'What stands out beside the hoop is crushed when the car lies on its side.',
    measured:
      "In front view, between the outer surfaces of the legs at the height of the shoulder, against `shoulder-width`; a hoop within 1 in of the driver's side (`panel … as side`) may be narrower.",
    mend: 'Make the hoop wider.',
    stage: 'hoop',
    bad: `rules nhra\n${example(1250)}`,
    good: `rules nhra\n${example(500)}`,
  },
};
