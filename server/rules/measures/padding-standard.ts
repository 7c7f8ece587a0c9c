/** `padding.standard`: to which standard padding is made. */
import { paddedRoof, paddedTube, paddingGroup, paddingWords } from '../padding';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

export const paddingStandard: Rule = {
  code: 'padding.standard',
  unit: '1',
  slack: 0,
  read: (car) =>
    car.ofKind('padding').flatMap((padding): readonly Item[] => {
      const member = paddedTube(car, padding);
      if (member === null) return [];
      const group = paddingGroup(car, member);
      const { standard } = padding;
      if (standard === null)
        return [missing(padding.name, 'the standard of the padding is not written: standard fia 8857', { group })];
      const params = { tube: member.name, word: paddingWords(standard) };
      return [reading(padding.name, 1, '1', params, { fact: 'standard', group, word: standard })];
    }),
  mend: () => ({ says: 'use padding with that certificate', params: {} }),
  explanation: {
    what: 'Padding is of a standard that the book does not accept there.',
    why: 'Soft foam is gone in the first blow; what is made for helmets takes the second one too.',
    measured: 'The fact `standard` of the padding, by where its tube is.',
    mend: 'Use padding with that certificate, and write it.',
    stage: 'hoop',
    bad: `rules fia-253\n${paddedRoof('  padding v { thickness 25; standard foam; fixed yes }\n')}`,
    good: `rules fia-253\n${paddedRoof('  padding v { thickness 25; standard fia 8857; fixed yes }\n')}`,
  },
};
