/** `strap.crossing`: straps that run far back are crossed. */
import { belts } from '../examples';
import { reading } from '../readings';
import type { Rule } from '../rule';
import { shouldered } from '../shoulders';

export const strapCrossing: Rule = {
  code: 'strap.crossing',
  unit: 'mm',
  slack: 1e-6,
  // A strap that is crossed is in order however far back it runs.
  read: (car) =>
    shouldered(car)
      .filter(({ figures }) => !figures.crossed)
      .map(({ figures, seat }) => {
        const behind = (figures.slot?.[0] ?? 0) - (seat.back ?? 0) - (figures.contact?.[0] ?? 0);
        return reading(figures.name, behind, 'mm', { strap: figures.name });
      }),
  mend: () => ({
    says: 'cross them, or bring the bar nearer',
    ask: ', {book} wants them crossed beyond {limit}',
    params: {},
  }),
  explanation: {
    what: 'A strap runs far back to the bar and is not crossed with the other one.',
    why: 'Over a long way straight straps wander outward and slip off the shoulders.',
    measured: "Fore and aft, from the back of the seat's shell to where the webbing touches the bar.",
    mend: 'Cross the two straps behind the seat, or move the bar nearer.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(540, 300, 740)')}`,
    good: `rules harness-makers\n${belts('(540, 300, 740)', 'at y = 240; ', 'at y = 360; ')}`,
  },
};
