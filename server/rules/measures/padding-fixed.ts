/** `padding.fixed`: whether padding can move on its tube. */
import { paddedRoof, paddedTube } from '../padding';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

export const paddingFixed: Rule = {
  code: 'padding.fixed',
  unit: '1',
  slack: 0,
  read: (car) =>
    car.ofKind('padding').flatMap((padding): readonly Item[] => {
      const member = paddedTube(car, padding);
      if (member === null) return [];
      if (padding.fixed === null)
        return [missing(padding.name, 'whether the padding is fixed is not written: fixed yes')];
      return [reading(padding.name, padding.fixed ? 1 : 0, '1', { tube: member.name }, { fact: 'fixed' })];
    }),
  mend: () => ({ says: 'bond or strap it to the tube', ask: ', {book} wants it fixed', params: {} }),
  explanation: {
    what: 'Padding can move on its tube.',
    why: 'It is never where the head comes.',
    measured: 'The fact `fixed` of the padding.',
    mend: 'Bond it, or strap it, and write `fixed yes`.',
    stage: 'hoop',
    bad: `rules fia-253\n${paddedRoof('  padding v { thickness 25; standard fia 8857; fixed no }\n')}`,
    good: `rules fia-253\n${paddedRoof('  padding v { thickness 25; standard fia 8857; fixed yes }\n')}`,
  },
};
