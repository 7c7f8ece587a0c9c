/** `strap.shoulder-reach`: from the shoulder (or yoke) to the bar, in plan view. */
import { belts } from '../examples';
import { eachOne } from '../each';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';
import type { Shouldered } from '../shoulders';
import { NO_SHOULDER, shouldered } from '../shoulders';

/** In plan view, fore and aft, from the shoulder to where the webbing touches the bar, mm; null: no shoulder. */
export const reachOf = ({ figures, shoulder }: Shouldered): number | null =>
  shoulder === null || figures.contact === null ? null : Math.abs(shoulder[0] - figures.contact[0]);

export const strapShoulderReach: Rule = {
  code: 'strap.shoulder-reach',
  unit: 'mm',
  slack: 0.05,
  read: eachOne(shouldered, (one) => {
    const reach = reachOf(one);
    const { name, tube } = one.figures;
    return reach === null
      ? missing(one.seat.name, NO_SHOULDER)
      : reading(name, reach, 'mm', { strap: name, tube: tube ?? '' });
  }),
  mend: () => ({ says: 'move the bar nearer if the hardware leaves room', params: {} }),
  explanation: {
    what: 'The bar lies far behind the shoulder.',
    why: 'Webbing stretches in proportion to its length: the driver moves farther before it holds.',
    measured:
      "In side view, fore and aft, from the top of the driver's shoulder (or yoke) to where the webbing touches the bar.",
    mend: 'Move the bar nearer, as far as the hardware allows.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(240, 300, 740)')}`,
    good: `rules harness-makers\n${belts('(90, 300, 735)', '', '', 'shoulder (forward 90, up 20)')}`,
  },
};
