/** `helmet.reach`: how far the main hoop is from the rear or the side of a helmet, seen from above. */
import { helmetExample, helmetsOf, bareHeads, nearestInPlan } from '../helmets';
import { reading } from '../readings';
import type { Item, Rule } from '../rule';

export const helmetReach: Rule = {
  code: 'helmet.reach',
  unit: 'mm',
  slack: 0.05,
  read: (car): readonly Item[] => {
    const hoops = car.mainHoops().filter(({ tube }) => tube.section !== null);
    if (hoops.length === 0) return [];
    const { helmets, bare } = helmetsOf(car);
    return [
      ...bareHeads(bare),
      ...helmets.flatMap(({ seat, centre, radius }) => {
        const gaps = hoops.flatMap(({ line, tube, name }) => {
          const axis = nearestInPlan(line, centre, centre[2] - radius);
          return axis === null ? [] : [{ name, gap: Math.max(0, axis - radius - (tube.section?.od ?? 0) / 2) }];
        });
        const nearest = gaps.sort((a, b) => a.gap - b.gap)[0];
        // A hoop that ends below the helmet has a finding of its own height.
        return nearest === undefined
          ? []
          : [reading(seat.name, nearest.gap, 'mm', { seat: seat.name, hoop: nearest.name }, { fact: 'helmet' })];
      }),
    ];
  },
  mend: (item, target) => ({
    says: 'move the hoop {by~} nearer, or the seat back',
    params: { by: { value: item.measured.value - target, unit: 'mm' } },
  }),
  explanation: {
    what: 'The main hoop is far from the head that it shall protect.',
    why: 'The ground reaches in under a bar that is far behind the head.',
    measured:
      "From above, from the ball round the helmet to the nearest outer surface of the main hoop, of what lies no lower than the helmet's lower edge. This is a greatest distance; a least one, for a head that must not strike the tube, is another rule.",
    mend: 'Move the hoop nearer, or the seat back.',
    stage: 'hoop',
    bad: `rules nhra\n${helmetExample(220, 160)}`,
    good: `rules nhra\n${helmetExample(220, 60)}`,
  },
};
