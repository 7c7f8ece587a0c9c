/** `diagonal.bottom`: from the lower end of a diagonal to the foot of the tube that it lands on. */
import { nearestOn } from '../../centreline/query';
import type { Car, Member } from '../car';
import { diagonal } from '../examples';
import { reading } from '../readings';
import type { Item, Rule } from '../rule';

const HOSTS = ['main-rollbar', 'lateral-rollbar', 'backstay'] as const;

function bottomOf(car: Car, member: Member): Item | null {
  const [, down] = car.upDown(member);
  if (down.foot !== null) return null;
  for (const host of down.hosts) {
    const on = car.member(host);
    if (on === null || !HOSTS.some((role) => role === on.tube.role)) continue;
    const station = nearestOn(on.line, down.at).station;
    const feet = on.ends.flatMap(({ foot }, i) =>
      foot === null ? [] : [i === 0 ? station : on.line.length - station],
    );
    if (feet.length === 0) continue;
    return reading(member.name, Math.min(...feet), 'mm', { tube: member.name, host }, { fact: 'path' });
  }
  return null;
}

export const diagonalBottom: Rule = {
  code: 'diagonal.bottom',
  unit: 'mm',
  slack: 1e-6,
  read: (car) => car.of('diagonal').flatMap((member) => bottomOf(car, member) ?? []),
  mend: (item, target) => ({
    says: 'bring it {by~} nearer',
    params: { by: { value: item.measured.value - target, unit: 'mm' } },
  }),
  explanation: {
    what: 'The lower end of a diagonal is too far from the foot.',
    why: 'The leg below the joint is bent instead of the load going into the shell.',
    measured: "Along the bent centreline of the tube that it lands on, from axis to the top of the foot's plate.",
    mend: 'Place its node nearer: `on main-hoop at 80 from foot`.',
    stage: 'hoop',
    bad: `rules fia-253\n${diagonal('at 110 before crown.left', 'at 130 from foot.right')}`,
    good: `rules fia-253\n${diagonal('at 110 before crown.left', 'at 80 from foot.right')}`,
  },
};
