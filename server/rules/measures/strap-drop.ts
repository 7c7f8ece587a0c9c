/** `strap.drop`: the run's angle below horizontal in side view, from where the webbing leaves the seat. */
import { degrees } from '../../../grammar/units';
import type { StrapFigures } from '../../geometry/shape';
import { barHeight } from '../bar-height';
import type { Rule } from '../rule';
import { strapReadings } from '../strap-readings';

const dropOf = (figures: StrapFigures): number | null => (figures.drop === null ? null : degrees(figures.drop));

export const strapDrop: Rule = {
  code: 'strap.drop',
  unit: 'deg',
  slack: 1e-6,
  read: strapReadings('deg', dropOf, (figures) => {
    const drop = dropOf(figures) ?? 0;
    return {
      params: drop < 0 ? { way: 'runs up {rise}', rise: { value: -drop, unit: 'deg' } } : { way: 'drops {measured}' },
    };
  }),
  mend: (reading, target, car) => {
    const drop = reading.measured.value;
    const mend = barHeight(car, reading.subject, dropOf, target);
    return drop < 0 && target === 0 ? { ...mend, ask: ', {book} wants it level or down' } : mend;
  },
  explanation: {
    what: 'A shoulder strap runs too steeply down from the seat to the bar, or runs up.',
    why: 'In a frontal hit a steep strap loads the spine lengthwise; one that runs up lets the shoulders rise.',
    measured:
      "In side view, below horizontal, along the straight run from the slot's edge to where the webbing first touches the bar. Some books measure from the shoulder instead: that figure stands beside it.",
    mend: 'Raise or lower the bar; a bar farther aft makes the strap flatter too. Reclining the seat moves the slot.',
    stage: 'harness',
    bad: 'seat low { slots (240, -300, 778); recline 20 deg; slot-spacing 220; back 45 }\nstrap steep { seat low; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
    good: 'seat low { slots (240, -300, 755); recline 20 deg; slot-spacing 220; back 45 }\nstrap flat { seat low; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
  },
};
