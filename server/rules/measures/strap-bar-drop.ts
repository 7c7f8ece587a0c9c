/** `strap.bar-drop`: how far a strap on a harness bar runs down: flatter than a book wants of a bar. */
import { degrees } from '../../../grammar/units';
import type { StrapFigures } from '../../geometry/shape';
import type { Car } from '../car';
import { eachOne } from '../each';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** Of the straps on a harness bar the flattest is told: the bar has one height. */
function flattest({ shape }: Car): readonly StrapFigures[] {
  const onBars = new Map<string, StrapFigures>();
  for (const figures of shape.straps) {
    const { part, tube, drop } = figures;
    // One that runs up is told by strap.drop.
    if (part === null || drop === null || !(drop >= 0) || shape.parts.get(part)?.role !== 'harness-bar') continue;
    const bar = tube ?? '';
    const before = onBars.get(bar)?.drop ?? null;
    if (before === null || drop < before) onBars.set(bar, figures);
  }
  return [...onBars.values()];
}

export const strapBarDrop: Rule = {
  code: 'strap.bar-drop',
  unit: 'deg',
  // The height of a bar is read to a millimetre or a sixteenth: within a degree of the limit it is on it.
  slack: 1,
  read: eachOne(
    (car) => car.keep(flattest),
    (figures) =>
      reading(figures.name, degrees(figures.drop ?? 0), 'deg', { strap: figures.name, tube: figures.tube ?? '' }),
  ),
  mend: () => ({
    says: 'at about {limit} it meets both; ask which the scrutineer goes by',
    ask: ': of a bar {book} wants {limit} or more, of every strap it recommends no more than that',
    params: {},
  }),
  explanation: {
    what: 'A strap on a harness bar runs flatter than the book wants of a bar, though every strap is recommended to run no steeper.',
    why: 'A bar a little lower than the shoulder keeps the strap from sliding off it. Taken by the letter the two sentences of the article meet at one angle only, so this is told and no more.',
    measured:
      'As strap.drop: in side view, along the straight run from the seat to the bar; only on tubes `as harness-bar`, of the flattest strap on each. Within a degree of the limit nothing is told.',
    mend: 'Lower the bar until the strap drops about as much as the limit; or leave it, and ask the scrutineer.',
    stage: 'harness',
    bad: 'rules fia-253\nseat low { slots (240, -300, 742); recline 20 deg; slot-spacing 220; back 45 }\nstrap flat { seat low; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
    good: 'rules fia-253\nseat low { slots (240, -300, 764); recline 20 deg; slot-spacing 220; back 45 }\nstrap flat { seat low; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
  },
};
