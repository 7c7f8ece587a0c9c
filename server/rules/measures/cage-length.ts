/** `cage.length`: what of the cage reaches beyond the suspensions. */
import type { Car } from '../car';
import { front, stays } from '../examples';
import type { Item } from '../rule';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

/** The farthest point of each tube beyond either mounting; tubes within count together, at the main hoop. */
function beyond(car: Car, front: number, rear: number): readonly Item[] {
  const found = car.members().flatMap((member) => {
    const xs = member.line.pieces.flatMap((piece) => (piece.kind === 'leg' ? [piece.from[0], piece.to[0]] : []));
    const ahead = Math.max(...xs) - front;
    const behind = rear - Math.min(...xs);
    const [far, which] = ahead >= behind ? [ahead, 'front'] : [behind, 'rear'];
    return far > 0 ? [reading(member.name, far, 'mm', { tube: member.name, which }, { fact: 'path' })] : [];
  });
  const chief = car.chief();
  if (found.length > 0 || chief === null) return found;
  return [reading(chief.name, 0, 'mm', { tube: chief.name, which: 'front' })];
}

export const cageLength: Rule = {
  code: 'cage.length',
  unit: 'mm',
  slack: 1,
  read: (car): readonly Item[] => {
    const front = car.cage.vehicle?.frontSuspension ?? null;
    const rear = car.cage.vehicle?.rearSuspension ?? null;
    if (front === null || rear === null)
      return missingOfCar(
        car,
        'where the suspension is mounted is not written: vehicle { front-suspension (1760, 455, 640); rear-suspension (-900, 480, 560) }',
      );
    return beyond(car, front[0], rear[0]);
  },
  mend: (item, target) => ({
    says: 'end it {by~} short of that',
    ask: ', {book} wants the cage between the mountings that carry the car',
    params: { by: { value: Math.ceil(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'A tube of the cage reaches farther forward or aft than the mountings of the suspension.',
    why: 'What stands out takes the crash instead of the nose and the tail.',
    measured:
      "Lengthwise, from the centreline of the tube to the top mounting of the front or rear suspension that the vehicle's facts place. One tube of 30 x 1.5 to the mounting of an anti-roll bar beyond is allowed.",
    mend: 'Shorten it.',
    stage: 'hoop',
    bad: `rules fia-253\nvehicle { front-suspension (1700, 455, 640); rear-suspension (-650, 480, 560) }\n${front()}\n${stays()}`,
    good: `rules fia-253\nvehicle { front-suspension (1700, 455, 640); rear-suspension (-720, 480, 560) }\n${front()}\n${stays()}`,
  },
};
