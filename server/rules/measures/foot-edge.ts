/** `foot.edge`: how much plate there is outside the tube, all round. */
import { plateMargin } from '../../geometry/feet';
import { figure } from '../../geometry/tell';
import { each } from '../each';
import { footExample, standingOnFoot, stoodOn } from '../feet';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const footEdge: Rule = {
  code: 'foot.edge',
  unit: 'mm',
  slack: 0.05,
  read: each(stoodOn, (foot, car) => {
    const at = car.nodeAt(foot.node);
    if (at === null) return [];
    const margins = standingOnFoot(car, foot).flatMap((standing) => {
      const margin = plateMargin(foot, at, standing);
      return margin === null ? [] : [{ margin, tube: standing.part.name }];
    });
    const least = margins.sort((a, b) => a.margin - b.margin)[0];
    // A tube that reaches past the plate is told by geometry.
    if (least === undefined || least.margin < 0) return [];
    return [reading(foot.name, least.margin, 'mm', { foot: foot.name, tube: least.tube }, { fact: 'plate' })];
  }),
  mend: (item, target) => ({
    says: 'make the plate {by~} larger on that side, or {double~} in all',
    params: {
      by: figure(target - item.measured.value, 'mm'),
      double: figure(2 * (target - item.measured.value), 'mm'),
    },
  }),
  explanation: {
    what: 'The plate of a foot hardly reaches beyond the tube.',
    why: 'There is no room for the weld, and the edge of the plate burns away.',
    measured:
      "From the print of the tube's outside on the plate, an ellipse where it stands askew, to the nearest edge of the plate.",
    mend: 'Use a larger plate.',
    stage: 'hoop',
    bad: footExample('140 x 62 x 3'),
    good: footExample('140 x 80 x 3'),
  },
};
