/** `helmet.behind`: how far the main hoop stands behind a helmet, in side view. */
import { planeCrossings } from '../../centreline/query';
import { bareHeads, helmetExample, helmetsOf } from '../helmets';
import { missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';

const OPEN = 'open car';
const BODY = 'whether the car is open is not written: vehicle { body open }';

export const helmetBehind: Rule = {
  code: 'helmet.behind',
  unit: 'mm',
  slack: 0.05,
  groups: [OPEN, 'closed car'],
  read: (car): readonly Item[] => {
    const hoop = car.mainHoops()[0];
    const section = hoop?.tube.section ?? null;
    if (hoop === undefined || section === null) return [];
    const body = car.cage.vehicle?.body ?? null;
    const group = body === 'closed' ? 'closed car' : OPEN;
    const { helmets, bare } = helmetsOf(car);
    if (body === null && helmets.length + bare.length > 0) return missingOfCar(car, BODY, { group: OPEN });
    return [
      ...bareHeads(bare, group),
      ...helmets.map(({ seat, centre, radius }) => {
        // At the height of the helmet's middle; a hoop that is lower, at its top.
        const { crossings } = planeCrossings(hoop.line, [0, 0, 1], Math.min(centre[2], hoop.figures.top - 1e-3));
        const x = Math.max(...crossings.map(({ point }) => point[0]));
        const gap = centre[0] - radius - (x + section.od / 2);
        return reading(seat.name, gap, 'mm', { seat: seat.name, hoop: hoop.name }, { fact: 'helmet', group });
      }),
    ].filter((item) => !('measured' in item) || Number.isFinite(item.measured.value));
  },
  mend: (item, target) => ({
    says: 'move the hoop {by~} forward, or the seat back',
    params: { by: { value: item.measured.value - target, unit: 'mm' } },
  }),
  explanation: {
    what: 'The main hoop stands far behind the head.',
    why: 'The ground reaches in under a bar that is far behind the head.',
    measured:
      "In side view, on the level, from the rear of the ball round the helmet to the front of the hoop's tube at the height of the helmet's middle.",
    mend: 'Move the hoop forward, or the seat back.',
    stage: 'hoop',
    bad: `rules scca-solo\nvehicle { body open }\n${helmetExample(220, 160)}`,
    good: `rules scca-solo\nvehicle { body open }\n${helmetExample(220, 60)}`,
  },
};
