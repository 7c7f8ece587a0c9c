/** `strap.tail`: the free end of the webbing behind the slide. */
import { belts } from '../examples';
import { strapFact } from '../strap-facts';
import type { Rule } from '../rule';

export const strapTail: Rule = {
  code: 'strap.tail',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    strapFact(car, 'tail', 'the free end of a strap behind its slide is not written: tail 120', ({ tail }) => tail),
  mend: (item, target) => ({
    says: 'leave {by~} more',
    params: { by: { value: target - item.measured.value, unit: 'mm' } },
  }),
  explanation: {
    what: 'The free end of a strap behind its slide is short.',
    why: 'A strap creeps through its slide under load: with a short end it is out of it.',
    measured: 'The fact `tail` of a wrapped strap.',
    mend: 'Leave more free end.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(240, 300, 740)', 'tail 80; ')}`,
    good: `rules harness-makers\n${belts('(240, 300, 740)', 'tail 120; ')}`,
  },
};
