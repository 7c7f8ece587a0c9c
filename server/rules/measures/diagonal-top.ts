/** `diagonal.top`: from the upper end of a diagonal to the backstay's joint, along the tube that both land on. */
import { nearestOn } from '../../centreline/query';
import type { Car, Member } from '../car';
import { diagonal, stays } from '../examples';
import { reading } from '../readings';
import type { Item, Rule } from '../rule';

/** To the nearer end of a tube across that lies on a lateral hoop: there the corner is; null: neither does. */
function toItsEnd(car: Car, across: Member, station: number): number | null {
  const far = across.ends.flatMap(({ hosts }, i) =>
    hosts.some((host) => car.member(host)?.tube.role === 'lateral-rollbar')
      ? [i === 0 ? station : across.line.length - station]
      : [],
  );
  return far.length === 0 ? null : Math.min(...far);
}

/** On the hoop: to the nearest backstay's joint. On a tube across between lateral hoops: to its end. On a backstay: to that stay's own joint with the hoop. */
function topOf(car: Car, member: Member): Item | null {
  const [up] = car.upDown(member);
  for (const host of up.hosts) {
    const on = car.member(host);
    if (on === null) continue;
    const station = nearestOn(on.line, up.at).station;
    if (on.tube.role === 'main-rollbar' || on.tube.role === 'lateral-rollbar') {
      const far = car.landedOn(on, 'backstay').map((landed) => Math.abs(landed.station - station));
      if (far.length > 0)
        return reading(
          member.name,
          Math.min(...far),
          'mm',
          { tube: member.name, host },
          { fact: 'path', group: 'hoop' },
        );
    }
    if (on.tube.role === 'transverse') {
      const far = toItsEnd(car, on, station);
      if (far !== null)
        return reading(member.name, far, 'mm', { tube: member.name, host }, { fact: 'path', group: 'hoop' });
    }
    if (on.tube.role === 'backstay') {
      const hoopEnd = on.ends[0].at[2] >= on.ends[1].at[2] ? 0 : on.line.length;
      return reading(
        member.name,
        Math.abs(station - hoopEnd),
        'mm',
        { tube: member.name, host },
        { fact: 'path', group: 'backstay' },
      );
    }
  }
  return null;
}

export const diagonalTop: Rule = {
  code: 'diagonal.top',
  unit: 'mm',
  slack: 1e-6,
  groups: ['hoop', 'backstay'],
  read: (car) => car.of('diagonal').flatMap((member) => topOf(car, member) ?? []),
  mend: (item, target) => ({
    says: 'bring it {by~} nearer',
    params: { by: { value: item.measured.value - target, unit: 'mm' } },
  }),
  explanation: {
    what: 'The upper end of a diagonal is too far from the backstay.',
    why: 'Between the two joints the hoop is bent instead of the load going straight from tube to tube.',
    measured: 'Along the bent centreline of the hoop (or of the backstay that it lands on), from axis to axis.',
    mend: 'Place its node nearer: `on main-hoop at 90 before crown`.',
    stage: 'hoop',
    bad: `rules fia-253\n${stays('at 40 before crown')}\n${diagonal('at 180 before crown.left')}`,
    good: `rules fia-253\n${stays('at 40 before crown')}\n${diagonal('at 120 before crown.left')}`,
  },
};
