/** `extension.reach`: how near a front extension comes to the mounting of the front suspension. */
import { distance } from '../../centreline/vector';
import type { Vec3 } from '../../centreline/vector';
import { front } from '../examples';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

const image = ([x, y, z]: Vec3): Vec3 => [x, -y, z];

const extended = (x: string): string =>
  `${front()}\nmirror left {\n  node root = on side where z = 560\n  node tower = (${x}, 455, 640)\n  tube extension as front-extension { section t38; path root, tower }\n  foot tower-plate { at tower; plate 120 x 100 x 3; lies square; bolts 3 x M8; hole 8 }\n}`;

export const extensionReach: Rule = {
  code: 'extension.reach',
  unit: 'mm',
  slack: 1e-6,
  read: (car) => {
    const mounting = car.cage.vehicle?.frontSuspension ?? null;
    const free = car.of('front-extension').flatMap((member) => {
      const [a, b] = member.ends;
      const end = a.at[0] > b.at[0] ? a : b;
      // One that ends on another tube stiffens that one.
      return end.hosts.some((host) => car.member(host) !== null) ? [] : [{ member, end }];
    });
    if (free.length === 0) return [];
    if (mounting === null)
      return missingOfCar(
        car,
        'where the front suspension is mounted is not written: vehicle { front-suspension (1760, 455, 640) }',
      );
    return free.map(({ member, end }) => {
      const far = Math.min(distance(end.at, mounting), distance(end.at, image(mounting)));
      return reading(member.name, far, 'mm', { tube: member.name }, { fact: 'path' });
    });
  },
  mend: () => ({
    says: 'lead it to the mounting',
    ask: ', {book} wants it to reach that and names no figure; over {limit} is told',
    params: {},
  }),
  explanation: {
    what: 'A front extension does not reach the top mounting of the front suspension.',
    why: 'It is there to tie the strut tower to the cage.',
    measured:
      "From the front end of the tube to the mounting that the vehicle's fact places, on either side. The book names no figure; up to 60 mm, half a foot's plate, is not told.",
    mend: 'Lead it to the mounting.',
    stage: 'hoop',
    bad: `rules fia-253\nvehicle { front-suspension (1760, 455, 640) }\n${extended('1660')}`,
    good: `rules fia-253\nvehicle { front-suspension (1760, 455, 640) }\n${extended('1740')}`,
  },
};
