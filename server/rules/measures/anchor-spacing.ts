/** `anchor.spacing`: how far the two lap anchors, or the two crotch anchors, of a seat are apart. */
import { distance } from '../../centreline/vector';
import { reading } from '../readings';
import type { Item, Rule } from '../rule';

const shown = (y: number): string =>
  `seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45 }\nanchor one as lap { seat driver; at (200, ${String(300 + y / 2)}, 120) }\nanchor two as lap { seat driver; at (200, ${String(300 - y / 2)}, 120) }`;

export const anchorSpacing: Rule = {
  code: 'anchor.spacing',
  unit: 'mm',
  slack: 0.05,
  groups: ['lap', 'crotch'],
  read: (car) =>
    car.seats().flatMap(({ name }): readonly Item[] =>
      (['lap', 'crotch'] as const).flatMap((as) => {
        const of = car.ofKind('anchor').filter((anchor) => anchor.as === as && anchor.seat === name);
        const [a, b] = of;
        if (of.length !== 2 || a === undefined || b === undefined || a.at === null || b.at === null) return [];
        const apart = distance(a.at, b.at);
        return [reading(a.name, apart, 'mm', { seat: name, as }, { fact: 'at', group: as })];
      }),
    ),
  mend: (item, target) => ({
    says: item.measured.value < target ? 'set them {by~} farther apart' : 'set them {by~} closer together',
    params: { by: { value: Math.abs(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'Two anchorages of a seat are too close to each other, or too far apart.',
    why: 'Straps that come from far out slip off the hip; straps from close in press on it, and on the seat.',
    measured:
      'Between the places of the two anchors `as lap`, or `as crotch`, of a seat. A single crotch strap is not judged.',
    mend: 'Move the anchorages.',
    stage: 'hoop',
    bad: `rules harness-makers\n${shown(660)}`,
    good: `rules harness-makers\n${shown(500)}`,
  },
};
