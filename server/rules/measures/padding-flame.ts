/** `padding.flame`: whether padding is flame-retardant. */
import { paddedRoof, paddedTube, paddingGroup, PADDING_GROUPS } from '../padding';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

export const paddingFlame: Rule = {
  code: 'padding.flame',
  unit: '1',
  slack: 0,
  groups: PADDING_GROUPS,
  read: (car) =>
    car.ofKind('padding').flatMap((padding): readonly Item[] => {
      const member = paddedTube(car, padding);
      const { standard, flameRetardant } = padding;
      // What has a certificate was put to the flame for it.
      if (member === null || (standard !== null && standard !== 'foam')) return [];
      const group = paddingGroup(car, member);
      if (flameRetardant === null)
        return [
          missing(padding.name, 'whether the padding is flame-retardant is not written: flame-retardant yes', {
            group,
          }),
        ];
      return [
        reading(padding.name, flameRetardant ? 1 : 0, '1', { tube: member.name }, { fact: 'flame-retardant', group }),
      ];
    }),
  mend: () => ({ says: 'use padding that is', ask: ', {book} wants it to be', params: {} }),
  explanation: {
    what: 'Padding is not flame-retardant.',
    why: 'Pipe lagging burns, and drips.',
    measured: 'The fact `flame-retardant` of padding without a certificate.',
    mend: 'Use padding that is made for cages.',
    stage: 'hoop',
    bad: `rules fia-253\n${paddedRoof('  padding side { thickness 25; standard foam; flame-retardant no; fixed yes }\n')}`,
    good: `rules fia-253\n${paddedRoof('  padding side { thickness 25; standard foam; flame-retardant yes; fixed yes }\n')}`,
  },
};
