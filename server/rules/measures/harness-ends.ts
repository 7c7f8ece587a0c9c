/** `harness.ends`: what the ends of the harness bar land on. */
import { each } from '../each';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const harnessEnds: Rule = {
  code: 'harness.ends',
  unit: '1',
  slack: 0,
  read: each(
    (car) => car.of('harness-bar'),
    (member, car) =>
      member.ends.flatMap((end) => {
        const host = end.hosts[0];
        const on = host === undefined ? null : car.member(host);
        const word = end.foot !== null ? 'shell' : on?.tube.role;
        if (host === undefined || word === undefined) return [];
        const params = { tube: member.name, end: end.which, host: `${host} (${word})` };
        return [reading(member.name, 1, '1', params, { fact: 'path', word })];
      }),
  ),
  mend: () => ({ says: 'run it from backstay to backstay, or from side to side of the main hoop', params: {} }),
  explanation: {
    what: 'A harness bar ends on a tube that the book does not name for it.',
    why: 'The straps of two people pull on it at once: what carries it must be a main member.',
    measured: 'The role of the tube that each end is coped to.',
    mend: 'Move its ends to the backstays or to the main hoop.',
    stage: 'hoop',
    bad: 'rules fia-253\nnode end-a = on hoop where z = 700 near (0, 600, 700)\nnode end-b = (0, 0, 700)\nnode top = on hoop nearest (0, 0, 1000)\ntube post as brace { section t38; path end-b, top; first open }\nnode end-c = on post at 5 from end-b\ntube bar as harness-bar { section t38; path end-a, end-c; first onto hoop; last onto post }',
    good: 'rules fia-253\nmirror left { node bar-end = on hoop where z = 700 }\ntube bar as harness-bar { section t38; path bar-end.left, bar-end.right }',
  },
};
