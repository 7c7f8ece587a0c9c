/** `strap.shoulder-angle`: the run below horizontal in side view, from the top of the shoulder (or yoke) to the bar. */
import { degrees } from '../../../grammar/units';
import type { StrapFigures } from '../../geometry/shape';
import { barHeight } from '../bar-height';
import { belts } from '../examples';
import { eachOne } from '../each';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';
import { NO_SHOULDER, shouldered } from '../shoulders';

const fromShoulder = ({ dropFromShoulder }: StrapFigures): number | null =>
  dropFromShoulder === null ? null : degrees(dropFromShoulder);

export const strapShoulderAngle: Rule = {
  code: 'strap.shoulder-angle',
  unit: 'deg',
  slack: 1e-6,
  groups: ['with yoke', 'without yoke'],
  read: eachOne(shouldered, ({ figures, seat }) => {
    const group = seat.yoke === null ? 'without yoke' : 'with yoke';
    const angle = fromShoulder(figures);
    if (angle === null) return missing(seat.name, NO_SHOULDER, { group });
    const params =
      angle < 0
        ? { strap: figures.name, way: 'runs up {rise}', rise: { value: -angle, unit: 'deg' as const } }
        : { strap: figures.name, way: 'drops {measured}' };
    return reading(figures.name, angle, 'deg', params, { group });
  }),
  mend: (item, target, car) => barHeight(car, item.subject, fromShoulder, target),
  explanation: {
    what: 'A strap runs too steeply down from the shoulder to the bar, or runs up.',
    why: 'A steep strap presses on the spine when it loads; one that runs up lets the shoulders rise.',
    measured:
      "In side view, below horizontal, from the top of the driver's shoulder (of the yoke, where one is worn) to where the webbing touches the bar. The slot of the seat is no guide to these books.",
    mend: 'Raise or lower the bar.',
    stage: 'hoop',
    bad: `rules nasa-ccr\n${belts('(140, 300, 790)')}`,
    good: `rules fia-253\n${belts('(240, 300, 740)')}`,
  },
};
