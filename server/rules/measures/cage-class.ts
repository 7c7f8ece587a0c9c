/** `cage.class`: whether the car is quick enough to need a roll bar, or a cage. */
import { missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';
import { front } from '../examples';

const TIME = "the car's time over the quarter mile is not written: vehicle { elapsed-time 11.49 }";
const RANK = { none: 0, bar: 1, cage: 2 } as const;
const WORDS = { none: 'neither bar nor cage', bar: 'a roll bar', cage: 'a cage' } as const;

/** A bar at 11.49 s and quicker (an open car 13.49); a cage at 10.99. */
const BAR = 11.49;
const OPEN_BAR = 13.49;
const CAGE = 10.99;
/** With an unaltered floor a bar may stay down to this. */
const KEPT = 10;

export const cageClass: Rule = {
  code: 'cage.class',
  unit: '1',
  slack: 0,
  groups: ['10.00 to 10.99 s', 'any time'],
  read: (car): readonly Item[] => {
    const chief = car.chief();
    if (chief === null) return [];
    const time = car.cage.vehicle?.elapsedTime ?? null;
    const kind = car.kind();
    if (time === null) return kind === 'cage' ? [] : missingOfCar(car, TIME, { group: 'any time' });
    const open = car.cage.vehicle?.body === 'open';
    const needed = time <= CAGE ? 2 : time <= (open ? OPEN_BAR : BAR) ? 1 : 0;
    const params = { has: WORDS[kind], needs: needed === 2 ? 'a cage' : 'a roll bar', time: time.toFixed(2) };
    const group = time <= CAGE && time >= KEPT ? '10.00 to 10.99 s' : 'any time';
    return [reading(chief.name, RANK[kind], '1', params, { group, limit: { from: needed, to: null } })];
  },
  mend: (item) => ({
    says: `build ${item.params['needs'] === 'a cage' ? 'a cage' : 'a roll bar'}`,
    ask: ', {book} wants {needs} there',
    params: {},
  }),
  explanation: {
    what: 'The car is too quick for what it has.',
    why: 'What a bar holds in a slow car it does not hold in a quick one.',
    measured:
      'The fact `elapsed-time` of the vehicle (quarter mile) against what the tubes make: a bar at 11.49 s and quicker (an open car 13.49), a cage at 10.99. By 10.00 s a closed car whose floor is as it was made may keep its bar. Speed (a cage at 135 mph) and the certificate that is wanted at 9.99 are not judged.',
    mend: 'Build what the time asks for.',
    stage: 'hoop',
    bad: 'rules nhra\nvehicle { elapsed-time 9.5 }',
    good: `rules nhra\nvehicle { elapsed-time 9.5 }\n${front()}`,
  },
};
