/** `door.alike`: the same door bars on both sides, where somebody sits on both. */
import type { Side } from '../../cage/cage';
import type { Car } from '../car';
import { crossings, joined } from '../legs';
import { reading } from '../readings';
import type { Rule } from '../rule';

const half = (side: string): string =>
  `mirror left { node a = (700, 600, 400); node b = (0, 600, 400) }\ntube one as door-bar { section t38; path a.left, b.left; first open; last open }${side}\nseat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45 }\nseat mate { slots (240, -300, 750); recline 10 deg; slot-spacing 220; back 45 }`;

/** How many bars, and how many of their pairs cross. */
function designOf(car: Car, side: Side): { readonly bars: number; readonly crosses: number } {
  const legs = joined(car.of('door-bar').filter((member) => member.side === side));
  return { bars: legs.length, crosses: crossings(legs).length };
}

const words = ({ bars, crosses }: { readonly bars: number; readonly crosses: number }): string =>
  `${String(bars)} ${bars === 1 ? 'bar' : 'bars'}${crosses === 0 ? '' : crosses === 1 ? ' with a cross' : ` with ${String(crosses)} crosses`}`;

export const doorAlike: Rule = {
  code: 'door.alike',
  unit: '1',
  slack: 0,
  read: (car) => {
    const first = car.of('door-bar')[0];
    if (first === undefined || !car.pair()) return [];
    const [left, right] = [designOf(car, 'left'), designOf(car, 'right')];
    const off = Math.abs(left.bars - right.bars) + Math.abs(left.crosses - right.crosses);
    return [reading(first.name, off, '1', { onLeft: words(left), onRight: words(right) })];
  },
  mend: () => ({ says: 'write them inside mirror', ask: ', {book} wants both sides alike', params: {} }),
  explanation: {
    what: 'The two sides of the car have different door bars.',
    why: 'Whoever sits on the other side is hit as hard.',
    measured:
      'The number of tubes `as door-bar` on each side, and of their crosses (a leg that is split counts once). Asked where two sit in the car: two seats, or `codriver yes`.',
    mend: 'Write the door bars inside `mirror`.',
    stage: 'parts',
    bad: `rules fia-253\n${half('')}`,
    good: `rules fia-253\n${half('\ntube two as door-bar { section t38; path a.right, b.right; first open; last open }')}`,
  },
};
