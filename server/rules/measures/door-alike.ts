/** `door.alike`: the same door bars on both sides, where somebody sits on both. */
import { reading } from '../readings';
import type { Rule } from '../rule';

const half = (side: string): string =>
  `mirror left { node a = (700, 600, 400); node b = (0, 600, 400) }\ntube one as door-bar { section t38; path a.left, b.left; first open; last open }${side}\nseat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45 }\nseat mate { slots (240, -300, 750); recline 10 deg; slot-spacing 220; back 45 }`;

export const doorAlike: Rule = {
  code: 'door.alike',
  unit: '1',
  slack: 0,
  read: (car) => {
    const bars = car.of('door-bar');
    const first = bars[0];
    if (first === undefined || car.seats().length < 2) return [];
    const left = bars.filter(({ side }) => side === 'left').length;
    const right = bars.filter(({ side }) => side === 'right').length;
    return [reading(first.name, Math.abs(left - right), '1', {})];
  },
  mend: () => ({ says: 'write them inside mirror', ask: ', {book} wants both sides alike', params: {} }),
  explanation: {
    what: 'The two sides of the car have different door bars.',
    why: 'Whoever sits on the other side is hit as hard.',
    measured: 'The number of tubes `as door-bar` on each side, in a car with two seats.',
    mend: 'Write the door bars inside `mirror`.',
    stage: 'parts',
    bad: `rules fia-253\n${half('')}`,
    good: `rules fia-253\n${half('\ntube two as door-bar { section t38; path a.right, b.right; first open; last open }')}`,
  },
};
