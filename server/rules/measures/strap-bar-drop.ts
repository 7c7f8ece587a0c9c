/** `strap.bar-drop`: how far a strap on a harness bar runs down: flatter than a book wants of a bar. */
import { degrees } from '../../../grammar/units';
import { strapReadings } from '../strap-readings';
import type { Reading, Rule } from '../rule';

export const strapBarDrop: Rule = {
  code: 'strap.bar-drop',
  unit: 'deg',
  // The height of a bar is read to a millimetre or a sixteenth: within a degree of the limit it is on it.
  slack: 1,
  // Of the straps on a bar the flattest is told: the bar has one height.
  read: ({ shape }) => {
    const all = strapReadings(shape, 'deg', ({ part, drop }) => {
      const onBar = part !== null && shape.parts.get(part)?.role === 'harness-bar';
      // One that runs up is told by strap.drop.
      return onBar && drop !== null && drop >= 0 ? degrees(drop) : null;
    });
    const flattest = new Map<string, Reading>();
    for (const one of all) {
      const bar = String(one.params['tube']);
      const before = flattest.get(bar);
      if (before === undefined || one.measured.value < before.measured.value) flattest.set(bar, one);
    }
    return [...flattest.values()];
  },
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
