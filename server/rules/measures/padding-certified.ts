/** `padding.certified`: to which standard the padding within reach of a helmet is made. */
import { helmetExample } from '../helmets';
import { byPace, PACE_GROUPS, paddedTube, paddingWords, withinReach } from '../padding';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

export const paddingCertified: Rule = {
  code: 'padding.certified',
  unit: '1',
  slack: 0,
  groups: PACE_GROUPS,
  read: (car): readonly Item[] => {
    const near = new Set(withinReach(car).map(({ name }) => name));
    const padded = car.ofKind('padding').flatMap((padding) => {
      const member = paddedTube(car, padding);
      return member === null || !near.has(member.name) ? [] : [{ padding, member }];
    });
    if (padded.length === 0) return [];
    return byPace(car, (group) =>
      padded.map(({ padding: { name, standard }, member }): Item => {
        if (standard === null)
          return missing(name, 'the standard of the padding is not written: standard sfi 45.1', { group });
        const params = { tube: member.name, word: paddingWords(standard) };
        return reading(name, 1, '1', params, { fact: 'standard', group, word: standard });
      }),
    );
  },
  mend: () => ({ says: 'use padding with that certificate', params: {} }),
  explanation: {
    what: 'Padding within reach of a helmet is of a standard that the book does not want there.',
    why: 'Soft foam is flat before it has stopped anything: padding for helmets is stiff on purpose.',
    measured:
      'The fact `standard` of the padding of tubes within 150 mm of a helmet. What hangs on how quick the car is goes by `elapsed-time`.',
    mend: 'Use padding with that certificate, and write it.',
    stage: 'hoop',
    bad: `rules nhra\nvehicle { elapsed-time 9.9 }\n${helmetExample(260, 0)}\npadding hoop { thickness 25; standard foam }`,
    good: `rules nhra\nvehicle { elapsed-time 9.9 }\n${helmetExample(260, 0)}\npadding hoop { thickness 25; standard sfi 45.1 }`,
  },
};
