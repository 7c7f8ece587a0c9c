/** `backstay.rearward`: a backstay runs to the rear. */
import { stays } from '../examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const backstayRearward: Rule = {
  code: 'backstay.rearward',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car.of('backstay').map((member) => {
      const [up, down] = car.upDown(member);
      return reading(member.name, up.at[0] - down.at[0], 'mm', { tube: member.name }, { fact: 'path' });
    }),
  mend: () => ({
    says: 'run it rearward, or give it another role',
    ask: ', {book} wants it to run rearward',
    params: {},
  }),
  explanation: {
    what: 'A backstay runs forward from the hoop, not to the rear.',
    why: 'A stay in front of the hoop is in the way of the driver, and of whoever has to get out.',
    measured: 'In side view, from its upper end to its lower one; less than nothing: it runs forward.',
    mend: 'Put its foot behind the hoop, or write another role.',
    stage: 'hoop',
    bad: `rules fia-253\n${stays('at 60 before crown', '(700, 500, 300)')}`,
    good: `rules fia-253\n${stays()}`,
  },
};
