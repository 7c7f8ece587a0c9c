/** `strap.slider`: from the bar to the three-bar slide of a wrapped strap. */
import { belts } from '../examples';
import { strapFact } from '../strap-facts';
import type { Rule } from '../rule';

export const strapSlider: Rule = {
  code: 'strap.slider',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    strapFact(
      car,
      'slider',
      'how far the slide of a strap is from the bar is not written: slider 10',
      ({ slider }) => slider,
    ),
  mend: () => ({
    says: 'pull the slide up to the bar',
    ask: ', {book} wants it tight against the bar; it names no figure, over {limit} is told',
    params: {},
  }),
  explanation: {
    what: 'The three-bar slide of a strap is not tight against the bar.',
    why: 'The loop opens when the strap loads, and the webbing slips through the slide.',
    measured: "The fact `slider` of a wrapped strap. The notes say tight and name no figure; 25 mm is this tool's.",
    mend: 'Pull the slide up to the bar.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(240, 300, 740)', 'slider 40; ')}`,
    good: `rules harness-makers\n${belts('(240, 300, 740)', 'slider 10; ')}`,
  },
};
