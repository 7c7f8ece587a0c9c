/** `tube.pieces`: of how many pieces a member is made. */
import type { Car, Member } from '../car';
import { listOf } from '../car';
import { eachOne } from '../each';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** Main hoops that meet each other, by their names, both ways. */
const met = (car: Car): ReadonlyMap<string, readonly Member[]> => {
  const map = new Map<string, Member[]>();
  const note = (name: string, other: Member): void => {
    const list = map.get(name);
    if (list === undefined) map.set(name, [other]);
    else if (!list.includes(other)) list.push(other);
  };
  for (const member of car.of('main-rollbar')) {
    for (const host of member.ends.flatMap(({ hosts }) => hosts)) {
      const other = car.member(host);
      if (other === null || other === member || other.tube.role !== 'main-rollbar') continue;
      note(member.name, other);
      note(other.name, member);
    }
  }
  return map;
};

const metBy = listOf(met);

/** Main hoops made of several tubes that meet each other: all of them are one hoop in pieces. */
const piecesOf = (car: Car, member: Member): number => {
  const others = member.tube.role === 'main-rollbar' ? metBy(car, member.name) : [];
  return member.pieces + others.reduce((sum, other) => sum + other.pieces, 0);
};

export const tubePieces: Rule = {
  code: 'tube.pieces',
  unit: '1',
  slack: 0,
  groups: ['main hoop', 'hoop', 'member', 'leg of a cross'],
  read: eachOne(
    (car) => car.members(),
    (member, car) => {
      const value = piecesOf(car, member);
      const crosses = ['diagonal', 'backstay-diagonal', 'door-bar', 'roof-bar'].includes(member.tube.role);
      const hoop = ['main-rollbar', 'front-rollbar', 'lateral-rollbar'].includes(member.tube.role);
      const main = member.tube.role === 'main-rollbar';
      const group = main ? 'main hoop' : hoop ? 'hoop' : crosses ? 'leg of a cross' : 'member';
      return reading(member.name, value, '1', { tube: member.name }, { group });
    },
  ),
  mend: () => ({ says: 'bend it from one length of tube', ask: ', {book} wants one', params: {} }),
  explanation: {
    what: 'A hoop or member is made of several pieces.',
    why: 'A butt joint in the middle of a member is its weakest place.',
    measured:
      'Tubes that are split, and main hoops that are made of tubes meeting each other. The second leg of a cross is split by the first: that is how a cross is made.',
    mend: 'Make it of one length; split the other tube of the joint.',
    stage: 'parts',
    bad: 'rules fia-253\nmirror left {\n  node foot = (0, 600, 0)\n  node crown = (0, 550, 1000)\n  node crest = (0, 0, 1000)\n  foot shoe { at foot; plate 140 x 100 x 3; bolts 3 x M8; hole 8 }\n  tube half as main-rollbar { section t45; die d45; path foot, crown, crest; last onto half.right }\n}',
    good: 'rules fia-253\nmirror left {\n  node foot = (0, 600, 0)\n  node crown = (0, 550, 1000)\n  foot shoe { at foot; plate 140 x 100 x 3; bolts 3 x M8; hole 8 }\n}\ntube whole as main-rollbar { section t45; die d45; path foot.left, crown.left, crown.right, foot.right }',
  },
};
