/** `structure.roof-level`: members of the basic structure meet the hoops at the level of the roof. */
import type { Role } from '../../cage/cage';
import type { Car, Hoop, Landed } from '../car';
import { front } from '../examples';
import { flankOf, lowerEnd } from '../hoop';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

/** What joins a hoop at roof level, and how many of a kind belong to the basic structure: of more, the highest count. */
const JOINING: Readonly<Partial<Record<Role, readonly { readonly role: Role; readonly count: number }[]>>> = {
  'main-rollbar': [
    { role: 'half-lateral', count: 2 },
    { role: 'longitudinal', count: 2 },
  ],
  'front-rollbar': [{ role: 'longitudinal', count: 2 }],
  'lateral-rollbar': [{ role: 'transverse', count: 2 }],
  'half-lateral': [{ role: 'transverse', count: 1 }],
};

/** The screen's top edge lies on the pillar, a little below the bend: the figure that the book has for joints near a corner, mm. */
const ON_PILLAR = 100;

/** How far below its highest point a hoop is still roof: where the lower end of its lowest top corner bend lies. */
function roofOfHoop({ line, figures: { top, topStation }, tube }: Hoop): number | null {
  const sides =
    tube.role === 'half-lateral'
      ? [flankOf(line, top, 0, line.length)]
      : [flankOf(line, top, 0, topStation), flankOf(line, top, topStation, line.length)];
  const beyond = tube.role === 'main-rollbar' ? 0 : ON_PILLAR;
  const ends = sides.flatMap(({ corner }) => (corner === null ? [] : [lowerEnd(line, corner, beyond)]));
  return ends.length === 0 ? null : top - Math.min(...ends);
}

/** A tube across that joins nothing but this hoop is no member of the basic structure. */
const across = (car: Car, { member }: Landed, role: Role): boolean =>
  role !== 'transverse' ||
  member.ends.every(({ hosts }) => hosts.some((host) => JOINING[car.member(host)?.tube.role ?? 'brace'] !== undefined));

export const structureRoofLevel: Rule = {
  code: 'structure.roof-level',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car.hoops().flatMap((hoop) => {
      const allowed = roofOfHoop(hoop);
      if (allowed === null) return [];
      return (JOINING[hoop.tube.role] ?? []).flatMap(({ role, count }) =>
        car
          .landedOn(hoop, role)
          .filter((landed) => across(car, landed, role))
          .sort((a, b) => b.end.at[2] - a.end.at[2])
          .slice(0, count)
          .map(({ member, end }): Reading => {
            const below = Math.max(0, hoop.figures.top - end.at[2]);
            return reading(
              member.name,
              below,
              'mm',
              { tube: member.name, host: hoop.name },
              { fact: 'path', limit: { from: null, to: allowed } },
            );
          }),
      );
    }),
  mend: (item, target) => ({
    says: "raise the joint by {by~}, above the hoop's top corner",
    ask: ', {book} wants it at roof level, here at most {limit}',
    params: { by: { value: Math.ceil(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'A member of the basic structure meets a hoop below the roof.',
    why: 'The roof edge is what comes down on the driver: a tube below it holds nothing up.',
    measured:
      "From the hoop's highest centreline point down to the joint; the book names no figure, so the lower end of the hoop's top corner bend counts, on a windscreen pillar 100 mm beyond it. Half-laterals and longitudinal tubes on the main hoop, longitudinal tubes on the front one, and the highest of the tubes across between laterals.",
    mend: 'Move the end up: `on main-hoop at 20 after crown`.',
    stage: 'hoop',
    bad: `rules fia-253\n${front().replace('on hoop at 20 after crown', 'on hoop at 150 before crown')}`,
    good: `rules fia-253\n${front()}`,
  },
};
