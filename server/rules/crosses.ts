/** The crossings and junctions of a cage at which books want gussets. */
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { distance } from '../centreline/vector';
import type { Car } from './car';
import { gussetUses } from './gussets';
import type { Crossing, Leg } from './legs';
import { crossings, joined, legsOfRole } from './legs';
import { roofOf } from './roof';

export interface Cross {
  /** `diagonals`, `roof`, `doors`, or `door and pillar`. */
  readonly group: string;
  /** The tubes that meet there; the first runs through. */
  readonly first: string;
  readonly second: string;
  readonly at: Vec3;
  /** Names of all tubes that meet there: either half of a leg. */
  readonly tubes: ReadonlySet<string>;
  /** Null where no leg splits another. */
  readonly crossing: Crossing | null;
}

const namesOf = (...legs: readonly Leg[]): ReadonlySet<string> =>
  new Set(legs.flatMap(({ members }) => members.map(({ name }) => name)));

const ofCrossings = (group: string, found: readonly Crossing[]): readonly Cross[] =>
  found.map((crossing) => ({
    group,
    first: crossing.through.name,
    second: crossing.split.name,
    at: crossing.at,
    tubes: namesOf(crossing.through, crossing.split),
    crossing,
  }));

/** Ends of door bars on pillar bars. */
const onPillars = (car: Car): readonly Cross[] =>
  car.of('pillar-bar').flatMap((pillar) =>
    car.landedOn(pillar, 'door-bar').map(({ member, end }) => ({
      group: 'door and pillar',
      first: pillar.name,
      second: member.name,
      at: nearestOn(pillar.line, end.at).point,
      tubes: new Set([pillar.name, member.name]),
      crossing: null,
    })),
  );

export const crossesOf = (car: Car): readonly Cross[] => car.keep(allOf);

function allOf(car: Car): readonly Cross[] {
  const sides = (['left', 'right'] as const).map((side) =>
    joined(car.of('door-bar').filter((member) => member.side === side)),
  );
  const roof = roofOf(car);
  return [
    ...ofCrossings('diagonals', crossings(legsOfRole(car, 'diagonal'))),
    ...(roof.form === 'X' ? ofCrossings('roof', crossings(roof.legs)) : []),
    ...sides.flatMap((legs) => ofCrossings('doors', crossings(legs))),
    ...onPillars(car),
  ];
}

/** A gusset whose apex is this near to the crossing stands at it, mm. */
const AT = 80;

/** How many gussets stand at a crossing, between tubes that meet there. */
export const gussetsAt = (car: Car, { at, tubes }: Cross): number =>
  gussetUses(car).filter(
    (use) =>
      use.at !== null &&
      distance(use.at, at) <= AT &&
      use.tubes.length === 2 &&
      use.tubes.every(({ name }) => tubes.has(name)),
  ).length;

/** An X in the hoop, one leg split by the other; `more` stands in the block of neither. */
export const crossExample = (more = ''): string =>
  `mirror left {
  node x-high = on hoop at 110 before crown
  node x-low = on hoop at 70 from foot
  vent short.a -> hoop { at x-high.right; dia 5 }
}
tube long as diagonal { section t38; path x-high.left, x-low.right }
tube short as diagonal { section t38; path x-high.right, x-low.left; split by long }
node heart = where long meets short${more}`;
