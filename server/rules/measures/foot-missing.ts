/** `foot.missing`: every leg of a hoop and every backstay stands on a foot of its own. */
import type { Car, Member, MemberEnd } from '../car';
import { each } from '../each';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** The ends that have to stand on the shell: of hoops both, of half-laterals and backstays the lower one. */
function standing(car: Car, member: Member): readonly MemberEnd[] {
  const { role } = member.tube;
  if (role === 'main-rollbar' || role === 'front-rollbar' || role === 'lateral-rollbar') return member.ends;
  return [car.upDown(member)[1]];
}

const nodeOf = ({ tube: { path } }: Member, end: 'first' | 'last'): string =>
  (end === 'first' ? path[0] : path[path.length - 1]) ?? 'NODE';

export const footMissing: Rule = {
  code: 'foot.missing',
  unit: '1',
  slack: 0,
  read: each(
    (car) => car.of('main-rollbar', 'front-rollbar', 'lateral-rollbar', 'half-lateral', 'backstay'),
    (member, car) =>
      member.tube.existing
        ? []
        : standing(car, member).map((end) =>
            reading(
              member.name,
              end.foot === null ? 0 : 1,
              '1',
              { tube: member.name, end: end.which, node: nodeOf(member, end.which) },
              { fact: end.which, at: { kind: 'thing', thing: member.name, fact: 'path' } },
            ),
          ),
  ),
  mend: () => ({
    says: 'set it on one: foot NAME { at {node}; plate … }',
    ask: ', {book} wants a mounting for each leg and each backstay',
    params: {},
  }),
  explanation: {
    what: 'A leg of a hoop or a backstay does not end on a foot.',
    why: 'A tube that ends on thin sheet goes through it like a punch.',
    measured: 'Both ends of hoops, the lower end of half-laterals and backstays.',
    mend: 'Write a `foot` at the node.',
    stage: 'hoop',
    bad: 'rules fia-253\nmirror left {\n  node top = on hoop at 60 before crown\n  node low = (-700, 500, 300)\n  tube stay as backstay { section t38; path top, low; last open }\n}',
    good: 'rules fia-253\nmirror left {\n  node top = on hoop at 60 before crown\n  node low = (-700, 500, 300)\n  tube stay as backstay { section t38; path top, low }\n  foot pad { at low; plate 100 x 80 x 3; lies square; bolts 2 x M8; hole 8 }\n}',
  },
};
