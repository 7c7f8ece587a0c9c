/** `hole.inspection`: holes through which an inspector reads the wall of a tube. */
import type { Car, Member } from '../car';
import { reading } from '../readings';
import type { Rule } from '../rule';
import { steelOf } from '../steel';

const GROUPS = ['main hoop', 'main hoop of alloy', 'front hoop'] as const;

export const inspectionHoles = (car: Car) =>
  car.ofKind('hole').flatMap((hole) => {
    const member = hole.tube === null ? null : car.member(hole.tube.replace(/\.[ab]$/, ''));
    return hole.purpose !== 'inspection' || member === null ? [] : [{ hole, member }];
  });

const groupOf = ({ tube }: Member): (typeof GROUPS)[number] => {
  if (tube.role !== 'main-rollbar') return 'front hoop';
  const alloy = tube.section !== null && steelOf(tube.section.material) === '4130';
  return alloy ? 'main hoop of alloy' : 'main hoop';
};

export const holeInspection: Rule = {
  code: 'hole.inspection',
  unit: '1',
  slack: 0,
  groups: GROUPS,
  read: (car) => {
    const holes = inspectionHoles(car);
    const count = (members: readonly Member[]): number =>
      holes.filter(({ member }) => members.some(({ name }) => name === member.name)).length;
    const mains = car.of('main-rollbar').map((member) => {
      return reading(member.name, count([member]), '1', { tube: member.name }, { group: groupOf(member) });
    });
    // Of the tubes in front one hole is enough.
    const fronts = car.of('front-rollbar', 'lateral-rollbar', 'half-lateral');
    const first = fronts[0];
    return first === undefined
      ? mains
      : [...mains, reading(first.name, count(fronts), '1', { tube: first.name }, { group: groupOf(first) })];
  },
  mend: () => ({
    says: 'hole {tube} for inspection { from 600; dia 5 }, where no weld and no bend is near',
    ask: ', {book} wants one',
    params: {},
  }),
  explanation: {
    what: 'A hoop has no hole for inspection.',
    why: 'Without it nobody can read the wall that the tube really has: it is drilled by a scrutineer where it suits him, or the car does not start.',
    measured:
      'The statements `hole TUBE for inspection`. Where in the tube "not critical" is, the texts leave to the inspector.',
    mend: 'Drill it before the padding is on, and write it.',
    stage: 'hoop',
    bad: 'rules scca-gcr',
    good: 'rules scca-gcr\nhole hoop for inspection { from 500; dia 5 }',
  },
};
