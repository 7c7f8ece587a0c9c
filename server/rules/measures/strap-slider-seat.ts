/** `strap.slider-seat`: the room between the three-bar slide and the back of the seat. */
import { belts } from '../examples';
import { strapFact } from '../strap-facts';
import type { Rule } from '../rule';

export const strapSliderSeat: Rule = {
  code: 'strap.slider-seat',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    strapFact(
      car,
      'slider',
      'how far the slide of a strap is from the bar is not written: slider 10',
      ({ slider }, { freeRun }) => (slider === null || freeRun === null ? null : freeRun - slider),
    ),
  mend: () => ({
    says: 'pull it back to the bar, or move the bar aft',
    ask: ', {book} wants it behind the seat',
    params: {},
  }),
  explanation: {
    what: 'The three-bar slide of a strap reaches into the slot of the seat.',
    why: 'In the slot it hangs on the shell: the strap cannot be pulled tight, and the shell cuts it.',
    measured: 'The free run of the strap between the shell and the bar, less the fact `slider`.',
    mend: 'Pull the slide back to the bar, or move the bar aft.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(140, 300, 720)', 'slider 90; ')}`,
    good: `rules harness-makers\n${belts('(240, 300, 740)', 'slider 10; ')}`,
  },
};
