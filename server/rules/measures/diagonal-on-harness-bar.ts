/** `diagonal.on-harness-bar`: a diagonal that ends on the harness bar. */
import { reading } from '../readings';
import type { Rule } from '../rule';

const AROUND =
  'mirror left { node bar-end = on hoop where z = 700 }\ntube bar as harness-bar { section t38; path bar-end.left, bar-end.right }';

export const diagonalOnHarnessBar: Rule = {
  code: 'diagonal.on-harness-bar',
  unit: '1',
  slack: 0,
  read: (car) =>
    car.of('diagonal').map((member) => {
      // An end that is cut to the bar as well as to the hoop, at one joint, still lands on the hoop.
      const ends = member.ends.map(({ hosts, foot }) => ({
        foot,
        roles: hosts.map((name) => ({ name, role: car.member(name)?.tube.role })),
      }));
      const bar = ends
        .filter(({ foot, roles }) => foot === null && roles.every(({ role }) => role === 'harness-bar'))
        .flatMap(({ roles }) => roles)[0];
      const params = { tube: member.name, host: bar?.name ?? '' };
      return reading(member.name, bar === undefined ? 0 : 1, '1', params, { fact: 'path' });
    }),
  mend: () => ({
    says: 'let it run on to the foot or the hoop, and split the harness bar by it',
    ask: ', {book} wants one load path from corner to foot',
    params: {},
  }),
  explanation: {
    what: 'A diagonal ends on the harness bar.',
    why: 'A bar across bends where the diagonal pushes on it: the load never reaches the floor.',
    measured: 'The tubes that each end of the diagonal lands on.',
    mend: 'Run the diagonal through, and let the harness bar be the one that is split.',
    stage: 'hoop',
    bad: `rules nasa-ccr\n${AROUND}\nnode low = on bar at 60 %\nnode high = on hoop at 110 before crown.left\ntube cross as diagonal { section t38; path high, low }`,
    good: `rules fia-253\nnode low = on hoop at 70 from foot.right\nnode high = on hoop at 110 before crown.left\ntube cross as diagonal { section t38; path high, low }`,
  },
};
