/** `roof.ends`: from the end of a roof bar to the next junction of hoops and members. */
import { nearestOn } from '../../centreline/query';
import type { Car, Member, MemberEnd } from '../car';
import { front } from '../examples';
import { reading } from '../readings';
import { apexOf, roofOf } from '../roof';
import type { Item, Rule } from '../rule';

const FRAME = [
  'main-rollbar',
  'front-rollbar',
  'lateral-rollbar',
  'half-lateral',
  'longitudinal',
  'transverse',
] as const;

/** The nearest of: a member of the frame that lands there, an end of the host on a tube. */
function endReading(car: Car, member: Member, end: MemberEnd): Item | null {
  for (const host of end.hosts) {
    const on = car.member(host);
    if (on === null || !FRAME.some((role) => role === on.tube.role)) continue;
    const station = nearestOn(on.line, end.at).station;
    const others = car.landedOn(on, ...FRAME).map((landed) => landed.station);
    const hostEnds = on.ends.flatMap(({ hosts }, i) =>
      hosts.some((name) => car.member(name) !== null) ? [i === 0 ? 0 : on.line.length] : [],
    );
    const far = [...others, ...hostEnds].map((other) => Math.abs(other - station));
    if (far.length === 0) return null;
    return reading(member.name, Math.min(...far), 'mm', { tube: member.name, end: end.which, host }, { fact: 'path' });
  }
  return null;
}

const roof = (rear: string): string =>
  `mirror left {\n  node v-rear = on hoop at ${rear} after crown\n  node v-front = on header at 46 %\n  tube v as roof-bar { section t38; path v-rear, v-front }\n  vent v -> hoop { at v-rear; dia 5 }\n}`;

export const roofEnds: Rule = {
  code: 'roof.ends',
  unit: 'mm',
  slack: 1e-6,
  read: (car) => {
    // The point of a V lies between the junctions: how far apart its two ends are is asked instead.
    const roofs = roofOf(car);
    const apex: readonly MemberEnd[] = apexOf(roofs) ?? [];
    return roofs.legs.flatMap(({ members, ends }) =>
      members.flatMap((member) =>
        member.ends.flatMap((end) =>
          ends.includes(end) && !apex.includes(end) ? (endReading(car, member, end) ?? []) : [],
        ),
      ),
    );
  },
  mend: (item, target) => ({
    says: 'bring it {by~} nearer',
    params: { by: { value: Math.ceil(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'A roof bar ends too far from the junction of the hoops and members.',
    why: 'The tube that it lands on is bent between the two joints.',
    measured:
      'Along the bent centreline of the tube that it lands on, from axis to axis, to the nearest joint of a hoop or member of the frame. The point of a V is asked by roof.gap.',
    mend: 'Place its node nearer to the junction.',
    stage: 'hoop',
    bad: `rules fia-253\n${front()}\n${roof('160')}`,
    good: `rules fia-253\n${front()}\n${roof('80')}`,
  },
};
