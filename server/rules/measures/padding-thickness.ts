/** `padding.thickness`: how thick the padding is where a helmet comes nearest to a tube. */
import type { Padding } from '../../cage/cage';
import { nearestOn } from '../../centreline/query';
import type { Car, Member } from '../car';
import { bareHeads, helmetExample, helmetsOf } from '../helmets';
import { byPace, PACE_GROUPS, withinReach } from '../padding';
import { missing, missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';

const covers = ({ from, to }: Padding, station: number): boolean =>
  from === null || to === null || (station >= from - 1e-6 && station <= to + 1e-6);

/** The thickest padding of a tube at the places where helmets come nearest; null: nobody can tell how far it reaches. */
function thickness(car: Car, { line }: Member, paddings: readonly Padding[]): number | null {
  let least = Infinity;
  for (const { centre } of helmetsOf(car).helmets) {
    const { station } = nearestOn(line, centre);
    const here = paddings.filter((one) => covers(one, station));
    if (here.some((one) => one.unread || one.thickness === null)) return null;
    least = Math.min(least, Math.max(0, ...here.map((one) => one.thickness ?? 0)));
  }
  return least;
}

const NONE = 'no padding is written: padding TUBE { thickness 26; standard sfi 45.1 }';
const UNREAD = 'how thick its padding is, or how far it reaches, cannot be read';

export const paddingThickness: Rule = {
  code: 'padding.thickness',
  unit: 'mm',
  slack: 0.03,
  groups: PACE_GROUPS,
  read: (car): readonly Item[] => {
    const { helmets, bare } = helmetsOf(car);
    const near = helmets.length === 0 ? [] : withinReach(car);
    const all = car.ofKind('padding');
    const items = (group: string): readonly Item[] => {
      if (near.length > 0 && all.length === 0) return missingOfCar(car, NONE, { group });
      return near.map((member) => {
        const own = all.filter(({ tube }) => tube !== null && tube.replace(/\.[ab]$/, '') === member.name);
        const thick = thickness(car, member, own);
        return thick === null
          ? missing(member.name, UNREAD, { group })
          : reading(member.name, thick, 'mm', { tube: member.name }, { group });
      });
    };
    return [...bareHeads(bare, 'any car'), ...(near.length === 0 ? [] : byPace(car, items))];
  },
  mend: (item, target) => ({
    says:
      item.measured.value === 0
        ? 'pad it there: padding {tube} { thickness {thick#}; standard sfi 45.1 }'
        : 'use padding of {thick} there',
    params: { thick: { value: target > 1 ? target : 25.4, unit: 'mm' } },
  }),
  explanation: {
    what: 'A tube within reach of a helmet has thin padding, or none.',
    why: 'In a hit the belts give and the head comes much farther than anybody thinks: bare tube breaks helmets.',
    measured:
      'Tubes of which the surface is within 150 mm of the ball round a helmet (the North American texts name no figure for the reach; this one is of a national rule of 2026): the thickness of the padding at the place that is nearest to it. Knees and elbows are not judged.',
    mend: 'Pad the tube there, and write it.',
    stage: 'hoop',
    bad: `rules scca-gcr\n${helmetExample(260, 0)}\npadding hoop { thickness 20 }`,
    good: `rules scca-gcr\n${helmetExample(260, 0)}\npadding hoop { thickness 25.4 }`,
  },
};
