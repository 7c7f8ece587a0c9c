/** `strap.shoulder-drop`: in height, from the top of the shoulder down to where the strap lies on the bar. */
import { belts } from '../examples';
import { eachOne } from '../each';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';
import { NO_SHOULDER, shouldered } from '../shoulders';

export const strapShoulderDrop: Rule = {
  code: 'strap.shoulder-drop',
  unit: 'mm',
  slack: 0.05,
  read: eachOne(shouldered, ({ figures, seat, shoulder }) => {
    if (shoulder === null) return missing(seat.name, NO_SHOULDER);
    const drop = shoulder[2] - (figures.contact?.[2] ?? 0);
    const params = {
      strap: figures.name,
      tube: figures.tube ?? '',
      way: drop < 0 ? '{rise} above' : '{measured} below',
      rise: { value: Math.abs(drop), unit: 'mm' as const },
    };
    return reading(figures.name, drop, 'mm', params);
  }),
  mend: (item, target) => ({
    says: item.measured.value > target ? 'raise the bar by {by~}' : 'lower the bar by {by~}',
    params: { by: { value: Math.abs(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'The bar lies too far below the shoulder, or above it.',
    why: 'A strap that goes far down behind the seat presses on the spine; one from above does not hold the shoulders down.',
    measured:
      "In height, from the top of the driver's shoulder (or yoke) to where the webbing touches the bar. Close behind the seat a bar can pass this and be too steep by angle.",
    mend: 'Raise or lower the bar.',
    stage: 'hoop',
    bad: `rules nhra\n${belts('(240, 300, 810)')}`,
    good: `rules fia-253\n${belts('(240, 300, 740)')}`,
  },
};
