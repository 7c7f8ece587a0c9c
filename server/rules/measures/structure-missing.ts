/** `structure.missing`: the members of a basic structure, by the design that the car comes nearest to. */
import type { Role } from '../../cage/cage';
import type { Params } from '../../../grammar/finding';
import { pointAt } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import type { Car, Hoop } from '../car';
import { front } from '../examples';
import { flankOf, legsOf } from '../hoop';
import { pointWords } from '../points';
import { reading } from '../readings';
import type { Rule } from '../rule';

interface Design {
  readonly name: string;
  readonly members: readonly { readonly role: Role; readonly count: number }[];
}

/** The three basic structures of Appendix J, Article 253-8.3.1 (design 3 seen in a rally guide, 1 and 2 from memory). */
const DESIGNS: readonly Design[] = [
  {
    name: 'main and front rollbar',
    members: [
      { role: 'main-rollbar', count: 1 },
      { role: 'front-rollbar', count: 1 },
      { role: 'longitudinal', count: 2 },
    ],
  },
  {
    name: 'two lateral rollbars',
    members: [
      { role: 'lateral-rollbar', count: 2 },
      { role: 'transverse', count: 2 },
    ],
  },
  {
    name: 'main rollbar and two half-laterals',
    members: [
      { role: 'main-rollbar', count: 1 },
      { role: 'half-lateral', count: 2 },
      { role: 'transverse', count: 1 },
    ],
  },
];

const lacksOf = (car: Car, design: Design): readonly { readonly role: Role; readonly count: number }[] =>
  design.members.flatMap(({ role, count }) => {
    const short = count - car.tubesOf(role).length;
    return short > 0 ? [{ role, count: short }] : [];
  });

const sum = (lacks: readonly { readonly count: number }[]): number => lacks.reduce((all, { count }) => all + count, 0);

/** The design that lacks least. */
const nearest = (car: Car): { readonly design: Design; readonly lacks: ReturnType<typeof lacksOf> } | null => {
  const all = DESIGNS.map((design) => ({ design, lacks: lacksOf(car, design) }));
  return all.reduce<(typeof all)[number] | null>(
    (best, one) => (best === null || sum(one.lacks) < sum(best.lacks) ? one : best),
    null,
  );
};

/** The top corner of the hoop on the side of its leg that stands farthest forward, or of both legs: where a roof member joins. */
function cornersOf(hoop: Hoop): readonly Vec3[] {
  const { line, figures, tube } = hoop;
  if (tube.role !== 'half-lateral')
    return legsOf(line, figures).map((leg, i) => pointAt(line, leg[i === 0 ? 1 : 0]).point);
  const { corner } = flankOf(line, figures.top, 0, line.length);
  return corner === null ? [] : [pointAt(line, corner.start + corner.length / 2).point];
}

/** Where a missing member would run, as far as the tubes that are there tell; null: they do not. */
function placeFor(car: Car, role: Role): { readonly says: string; readonly params: Params } | null {
  const ways: Readonly<Partial<Record<Role, readonly [string, readonly Role[]]>>> = {
    transverse: ['transverse: across the top of the screen', ['half-lateral', 'lateral-rollbar']],
    longitudinal: ['longitudinal: along each side of the roof', ['main-rollbar', 'front-rollbar']],
    'half-lateral': ['half-lateral: on each side along the roof and down the pillar', ['main-rollbar']],
    'front-rollbar': ['front-rollbar: along the pillars and the top of the screen, tied', ['main-rollbar']],
  };
  const way = ways[role];
  if (way === undefined) return null;
  const [words, roles] = way;
  const ends = car
    .hoops()
    .filter(({ tube }) => roles.includes(tube.role))
    .flatMap(cornersOf);
  const [first, second] = ends;
  if (first === undefined || second === undefined) return null;
  const [from, to] = [
    pointWords(`${role.replace('-', '')}From`, first),
    pointWords(`${role.replace('-', '')}To`, second),
  ];
  const joins =
    role === 'transverse' ? `from near ${from.says} to near ${to.says}` : `from near ${from.says} and ${to.says}`;
  return { says: `${words}, ${joins}`, params: { ...from.params, ...to.params } };
}

export const structureMissing: Rule = {
  code: 'structure.missing',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    const found = nearest(car);
    if (chief === null || found === null || car.kind() !== 'cage') return [];
    // That there is no main hoop has a finding of its own.
    const missing = found.lacks.filter(({ role }) => role !== 'main-rollbar');
    const lacks = missing.map(({ role, count }) => `${String(count)} ${role}`).join(' and ');
    return [reading(chief.name, sum(missing), '1', { lacks, design: found.design.name })];
  },
  mend: (_item, _target, car) => {
    const places = (nearest(car)?.lacks ?? []).flatMap(({ role }) => placeFor(car, role) ?? []);
    return {
      says: ['add what is missing, or give a tube that is there its role', ...places.map(({ says }) => says)].join(
        '; ',
      ),
      ask: ' of the design with {design} that {book} draws',
      params: Object.assign({}, ...places.map(({ params }) => params)) as Params,
    };
  },
  explanation: {
    what: 'The cage is none of the basic structures that the book draws: members of it are missing.',
    why: 'Only a closed frame keeps the roof, the screen pillars and the hoop from folding into each other.',
    measured: 'Tubes counted by their roles against the three basic designs; the one that lacks least is told.',
    mend: 'Add the member, or write its role: `as transverse` for the tube across the top of the screen.',
    stage: 'hoop',
    bad: `rules fia-253\n${front().replace('as transverse', 'as brace')}`,
    good: `rules fia-253\n${front()}`,
  },
};
