/** `diagonal.corner`: from the driver's top corner of the hoop to the upper end of the diagonal, along the hoop. */
import { nearestOn, pointAt } from '../../centreline/query';
import type { Car, Hoop, Member } from '../car';
import { diagonal } from '../examples';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

const seat = (y: number): string =>
  `seat driver { slots (240, ${String(y)}, 750); recline 10 deg; slot-spacing 220; back 45 }`;

const SIDE = "the driver's side is not known: name the driver's seat driver, or write only one seat";

/** The corner on the driver's side: the middle of the top bend there. */
function cornerOf(hoop: Hoop, side: 'left' | 'right'): number | null {
  const corners = hoop.figures.crowns.flatMap((arc) => (arc === null ? [] : [arc.start + arc.length / 2]));
  const on = corners.filter((station) => pointAt(hoop.line, station).point[1] > 0 === (side === 'left'));
  return on[0] ?? null;
}

function cornerReading(car: Car, member: Member, hoop: Hoop): Item | null {
  const [up] = car.upDown(member);
  if (!up.hosts.includes(hoop.name)) return null;
  const side = car.driverSide();
  if (side === null) return missing(member.name, SIDE, { fact: 'path' });
  const corner = cornerOf(hoop, side);
  if (corner === null) return null;
  const far = Math.abs(nearestOn(hoop.line, up.at).station - corner);
  return reading(member.name, far, 'mm', { tube: member.name, hoop: hoop.name }, { fact: 'path' });
}

export const diagonalCorner: Rule = {
  code: 'diagonal.corner',
  unit: 'mm',
  slack: 1e-6,
  // Of several diagonals the book asks for one: the one that is nearest.
  read: (car) => {
    const items = car
      .mainHoops()
      .flatMap((hoop) => car.of('diagonal').flatMap((one) => cornerReading(car, one, hoop) ?? []));
    const best = items.reduce<Item | null>((least, item) => {
      if (least === null || !('measured' in item) || !('measured' in least)) return least ?? item;
      return item.measured.value < least.measured.value ? item : least;
    }, null);
    return best === null ? [] : [best];
  },
  mend: () => ({ says: "lead it to the corner behind the driver's head", params: {} }),
  explanation: {
    what: "The diagonal does not begin near the driver's corner of the main hoop.",
    why: 'The corner over the driver is the one that must not fold.',
    measured:
      "Along the hoop's bent centreline, from the middle of the top bend on the driver's side to the diagonal's upper end. The driver's side is that of the seat named driver, or of the only seat.",
    mend: 'Turn the diagonal round, or move its upper end toward that corner.',
    stage: 'hoop',
    bad: `rules nasa-ccr\n${seat(-300)}\n${diagonal()}`,
    good: `rules fia-253\n${seat(300)}\n${diagonal()}`,
  },
};
