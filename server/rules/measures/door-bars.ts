/** `door.bars`: door bars on each side that books ask about. */
import { planeCrossings } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import type { Car, Member } from '../car';
import { front } from '../examples';
import { joined } from '../legs';
import { pointWords } from '../points';
import { reading } from '../readings';
import type { Item, Mend, Rule } from '../rule';

/** Tubes `as door-bar` by side. Where only one seat stands in the car, its side is the driver's. */
function bySide(car: Car): readonly Item[] {
  const chief = car.chief();
  if (chief === null || car.kind() !== 'cage') return [];
  const driver = car.driverSide();
  const alone = car.alone();
  return (['left', 'right'] as const).map((side) => {
    const count = joined(car.of('door-bar').filter((member) => member.side === side)).length;
    const group =
      driver === null
        ? 'a side'
        : side === driver
          ? "the driver's side"
          : alone
            ? 'an empty side'
            : "the passenger's side";
    return reading(chief.name, count, '1', { side }, { group });
  });
}

/** The other leg of an X with the bar that is there; else level, from the front leg to the main hoop at a third of its height. */
function placeFor(car: Car, sign: number): Mend {
  const there = car.of('door-bar').find(({ ends: [a, b] }) => (a.at[1] + b.at[1]) * sign > 0);
  if (there !== undefined) {
    const [a, b] = there.ends;
    const from = pointWords('from', [a.at[0], a.at[1], b.at[2]]);
    const to = pointWords('to', [b.at[0], b.at[1], a.at[2]]);
    const level = Math.abs(a.at[2] - b.at[2]) < LEVEL;
    return level
      ? { says: 'add a second tube as door-bar beside {there}', params: { there: there.name } }
      : {
          says: `add a second tube as door-bar, across {there} from near ${from.says} to near ${to.says}, or beside it`,
          params: { ...from.params, ...to.params, there: there.name },
        };
  }
  const hoop = car.mainHoops()[0];
  const front = car
    .hoops()
    .find((one) => one !== hoop && one.tube.role !== 'main-rollbar' && one.ends.some(({ at }) => at[1] * sign > 0));
  if (hoop === undefined || front === undefined)
    return { says: 'add a tube as door-bar across the door opening', params: {} };
  const height = hoop.ends[0].at[2] + (hoop.figures.top - hoop.ends[0].at[2]) / 3;
  const on = (member: Member, z: number): Vec3 | null =>
    planeCrossings(member.line, [0, 0, 1], z).crossings.find(({ point }) => point[1] * sign > 0)?.point ?? null;
  const [a, b] = [on(front, height), on(hoop, height)];
  if (a === null || b === null) return { says: 'add a tube as door-bar across the door opening', params: {} };
  const from = pointWords('from', a);
  const to = pointWords('to', b);
  return {
    says: `add a tube as door-bar across the door opening, such as from {front} near ${from.says} to {hoop} near ${to.says}`,
    params: { ...from.params, ...to.params, front: front.name, hoop: hoop.name },
  };
}

/** Bars whose ends differ less than this in height do not make an X with their image, mm. */
const LEVEL = 60;

const door = (short: boolean): string =>
  `mirror left {
  node door-front = on side where z = 520
  node door-rear = on hoop where z = 300
  tube long as door-bar { section t38; path door-front, door-rear }
  vent long -> hoop { at door-rear; dia 5 }
${short ? '  node low-front = on side where z = 250\n  node low-rear = on hoop where z = 180\n  tube low as door-bar { section t38; path low-front, low-rear }\n  vent low -> hoop { at low-rear; dia 5 }\n' : ''}}`;

export const doorBars: Rule = {
  code: 'door.bars',
  unit: '1',
  slack: 0,
  read: bySide,
  mend: (item, _target, car) => placeFor(car, item.params['side'] === 'left' ? 1 : -1),
  explanation: {
    what: 'There are fewer door bars on a side than the book wants.',
    why: 'A door alone keeps nothing out that comes from the side.',
    measured:
      "Tubes `as door-bar`, by the side that the middle of each lies on; a leg that is split by another counts once. The driver's side is that of the seat named driver, or of the only seat.",
    mend: 'Add the tube, or write its role.',
    stage: 'hoop',
    bad: `rules fia-253\n${front()}`,
    good: `rules fia-253\n${front()}\n${door(true)}`,
  },
};
