/** `door.bars`: door bars on each side that books ask about. */
import type { Car } from '../car';
import { front } from '../examples';
import { reading } from '../readings';
import type { Item, Rule } from '../rule';

/** Tubes `as door-bar` by side. Where only one seat stands in the car, its side is the driver's. */
function bySide(car: Car): readonly Item[] {
  const chief = car.chief();
  if (chief === null || car.kind() !== 'cage') return [];
  const driver = car.driverSide();
  const alone = car.seats().length === 1;
  return (['left', 'right'] as const).map((side) => {
    const count = car.of('door-bar').filter((member) => member.side === side).length;
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
  mend: () => ({ says: 'add a tube as door-bar across the door opening', params: {} }),
  explanation: {
    what: 'There are fewer door bars on a side than the book wants.',
    why: 'A door alone keeps nothing out that comes from the side.',
    measured:
      "Tubes `as door-bar`, by the side that the middle of each lies on. The driver's side is that of the seat named driver, or of the only seat.",
    mend: 'Add the tube, or write its role.',
    stage: 'hoop',
    bad: `rules fia-253\n${front()}`,
    good: `rules fia-253\n${front()}\n${door(true)}`,
  },
};
