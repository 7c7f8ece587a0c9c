/** `helmet.clearance`: how far the top of the main hoop stands above the top of a helmet. */
import { figure } from '../../geometry/tell';
import { bareHeads, helmetExample, helmetsOf, hoopTop } from '../helmets';
import { missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';

const GROUPS = ['any car', 'open car', 'open car with a harness'] as const;
const BODY = 'whether the car is open is not written: vehicle { body open }';

export const helmetClearance: Rule = {
  code: 'helmet.clearance',
  unit: 'mm',
  slack: 0.05,
  groups: GROUPS,
  read: (car): readonly Item[] => {
    const top = hoopTop(car);
    if (top === null) return [];
    const body = car.cage.vehicle?.body ?? null;
    const { helmets, bare } = helmetsOf(car);
    if (helmets.length + bare.length === 0) return [];
    const strapped = new Set(car.shape.straps.map(({ seat }) => seat));
    const groupsOf = (seat: string): readonly string[] => [
      'any car',
      ...(body === 'open' ? ['open car'] : []),
      ...(body === 'open' && strapped.has(seat) ? ['open car with a harness'] : []),
    ];
    return [
      ...bare.flatMap((seat) => groupsOf(seat.name).flatMap((group) => bareHeads([seat], group))),
      ...helmets.flatMap(({ seat, centre, radius }) => {
        const above = top.z - (centre[2] + radius);
        const params = {
          hoop: top.name,
          seat: seat.name,
          way: above < 0 ? '{below} below' : '{measured} above',
          below: figure(-above, 'mm'),
        };
        return groupsOf(seat.name).map((group) => reading(seat.name, above, 'mm', params, { fact: 'helmet', group }));
      }),
      ...(body === null ? GROUPS.slice(1).flatMap((group) => missingOfCar(car, BODY, { group })) : []),
    ];
  },
  mend: (item, target) => ({
    says: 'raise the hoop by {by~}, or lower the seat',
    params: { by: figure(target - item.measured.value, 'mm') },
  }),
  explanation: {
    what: 'The main hoop does not stand high enough above the helmet.',
    why: 'When the car lies on its hoop the tube bends down, and the ground comes up between the tubes: the head is next.',
    measured:
      "In height, from the top of the ball round the helmet (the fact `helmet` of the seat, with the driver belted in) to the highest point of the hoop's outer surface.",
    mend: 'Raise the hoop, or lower the seat.',
    stage: 'hoop',
    bad: `rules nhra\n${helmetExample(260)}`,
    good: `rules nhra\n${helmetExample(220)}`,
  },
};
