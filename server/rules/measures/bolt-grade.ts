/** `bolt.grade`: the strength class of bolts, by the tensile strength that its standard gives it. */
import type { Bolts } from '../../cage/cage';
import { figure } from '../../geometry/tell';
import type { Car } from '../car';
import { FOOT_GROUPS, footExample, footUses } from '../feet';
import { missing, missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';

interface Bolted {
  readonly thing: string;
  readonly fact: string;
  readonly bolts: Bolts;
  readonly group: string;
}

/** All bolts of which a grade can be written. */
function boltsOf(car: Car): readonly Bolted[] {
  const all: readonly (Omit<Bolted, 'bolts'> & { readonly bolts: Bolts | null })[] = [
    ...footUses(car).map(({ foot, group }) => ({ thing: foot.name, fact: 'bolts', bolts: foot.bolts, group })),
    ...car
      .ofKind('fitting')
      .map(({ name, bolt }) => ({ thing: name, fact: 'bolt', bolts: bolt, group: 'removable joint' })),
    ...car.ofKind('seat-mount').map(({ name, bolts }) => ({ thing: name, fact: 'bolts', bolts, group: 'seat mount' })),
    ...car.ofKind('strap').map(({ name, bolt }) => ({ thing: name, fact: 'bolt', bolts: bolt, group: 'strap' })),
    ...car.ofKind('anchor').map(({ name, bolt }) => ({ thing: name, fact: 'bolt', bolts: bolt, group: 'anchor' })),
  ];
  return all.flatMap((one) => (one.bolts === null ? [] : [{ ...one, bolts: one.bolts }]));
}

export const boltGrade: Rule = {
  code: 'bolt.grade',
  unit: 'MPa',
  slack: 1,
  groups: FOOT_GROUPS,
  read: (car) => {
    const all = boltsOf(car);
    const noneTold = all.every(({ bolts }) => bolts.grade === null);
    return all.flatMap(({ thing, fact, bolts, group }): readonly Item[] => {
      const { grade } = bolts;
      const at = { fact, group };
      if (grade === null)
        return noneTold
          ? missingOfCar(car, 'no grade of any bolt is written: bolts 3 x M8 8.8', { group })
          : [missing(thing, `the grade of its bolts is not written: ${fact} … M8 8.8`, at)];
      const params = { thing, grade: `${grade.standard === 'sae' ? 'SAE ' : ''}${String(grade.value)}` };
      return [reading(thing, grade.tensile, 'MPa', { ...params, strength: figure(grade.tensile, 'MPa') }, at)];
    });
  },
  mend: (_item, target) => ({
    says: target > 830 ? 'use bolts of SAE grade 8 or of 10.9' : 'use bolts of grade 8.8, of SAE grade 5, or better',
    params: {},
  }),
  explanation: {
    what: 'Bolts are of a lower grade than the book wants.',
    why: 'A soft bolt stretches, and the joint under it comes loose.',
    measured:
      'The grade as it is written, by its nominal tensile strength: 800 MPa for 8.8 (ISO 898-1); SAE grades (J429) are compared by theirs. Whether the nuts are self-locking is not judged.',
    mend: 'Use bolts of the grade that the book names, and write it.',
    stage: 'hoop',
    bad: `rules fia-253\n${footExample('140 x 100 x 3', '; bolts 3 x M8 5.8')}`,
    good: `rules fia-253\n${footExample('140 x 100 x 3', '; bolts 3 x M8 8.8')}`,
  },
};
