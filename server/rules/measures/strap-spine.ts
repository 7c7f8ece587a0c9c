/** `strap.spine`: between a shoulder strap and the line of the spine, in side view, from square. */
import { degrees } from '../../../grammar/units';
import { seatIn } from '../../geometry/straps';
import { barHeight } from '../bar-height';
import { belts } from '../examples';
import { eachOne } from '../each';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';
import { NO_SHOULDER, shouldered } from '../shoulders';

export const strapSpine: Rule = {
  code: 'strap.spine',
  unit: 'deg',
  slack: 1e-6,
  read: eachOne(shouldered, ({ figures, seat }) => {
    if (figures.dropFromShoulder === null) return missing(seat.name, NO_SHOULDER);
    // The spine leans aft by the recline; square to it the strap drops by as much.
    const off = degrees(figures.dropFromShoulder - seat.recline);
    return reading(figures.name, Math.abs(off), 'deg', { strap: figures.name, way: off > 0 ? 'raise' : 'lower' });
  }),
  mend: (item, target, car) => ({
    ...barHeight(
      car,
      item.subject,
      ({ seat, dropFromShoulder }) => {
        const recline = seat === null ? null : (seatIn(car.cage)(seat)?.recline ?? null);
        return recline === null || dropFromShoulder === null ? null : degrees(dropFromShoulder - recline);
      },
      item.params['way'] === 'raise' ? target : -target,
    ),
    ask: ', {book} wants it square; it names no tolerance, over {limit} is told',
  }),
  explanation: {
    what: 'A shoulder strap does not run square to the spine.',
    why: 'Square to it the strap holds the shoulders back and neither presses them down nor lets them rise: behind a seat that leans, the bar wants to be lower.',
    measured:
      "In side view: the drop of the strap from the shoulder to the bar against the recline of the seat. The text names no tolerance; 10 degrees is this tool's.",
    mend: 'Raise or lower the bar.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(240, 300, 820)')}`,
    good: `rules harness-makers\n${belts('(240, 300, 740)')}`,
  },
};
