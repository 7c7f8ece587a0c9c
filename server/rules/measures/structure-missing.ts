/** `structure.missing`: the members of a basic structure, by the design that the car comes nearest to. */
import type { Role } from '../../cage/cage';
import type { Car } from '../car';
import { front } from '../examples';
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

export const structureMissing: Rule = {
  code: 'structure.missing',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    const found = nearest(car);
    if (chief === null || found === null || car.kind() !== 'cage') return [];
    const lacks = found.lacks.map(({ role, count }) => `${String(count)} ${role}`).join(' and ');
    return [reading(chief.name, sum(found.lacks), '1', { lacks, design: found.design.name })];
  },
  mend: () => ({
    says: 'add what is missing, or give a tube that is there its role',
    ask: ' of the design with {design} that {book} draws',
    params: {},
  }),
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
