/** `backstay-diagonal.form`: the form of the backstays' diagonals, where the roof is a V that meets at the rear. */
import { front, stays } from '../examples';
import type { Car } from '../car';
import { crossings, legsOfRole } from '../legs';
import { roofOf } from '../roof';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** A V's legs are at its point at most this share as far apart as at its other end. */
const NARROW = 0.5;

function formOf(car: Car): string {
  const legs = legsOfRole(car, 'backstay-diagonal');
  const [a, b] = legs;
  if (a === undefined) return 'none';
  if (b === undefined) return 'one';
  if (crossings(legs).length > 0) return 'X';
  const wide = ([p, q]: readonly [number, number]): number => Math.abs(p - q);
  const up = ({ ends: [p, q] }: typeof a): readonly [number, number] =>
    p.at[2] >= q.at[2] ? [p.at[1], q.at[1]] : [q.at[1], p.at[1]];
  const [high, low] = [wide([up(a)[0], up(b)[0]]), wide([up(a)[1], up(b)[1]])];
  return high < NARROW * low || low < NARROW * high ? 'V' : 'side by side';
}

const rearward = (more: string): string =>
  `${front()}\n${stays()}\nmirror left {\n  node v-rear = on hoop nearest (0, 40, 1000)\n  node v-front = on header at 4 %\n  tube v as roof-bar { section t38; path v-rear, v-front }\n  vent v -> hoop { at v-rear; dia 5 }\n${more}}`;

const V = `  node w-top = on hoop nearest (0, 40, 1000)
  node w-low = on stay at 60 from stay-foot
  tube w as backstay-diagonal { section t38; path w-top, w-low }
`;

export const backstayDiagonalForm: Rule = {
  code: 'backstay-diagonal.form',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    const roof = roofOf(car);
    if (chief === null || roof.form !== 'V to the rear') return [];
    const form = formOf(car);
    return [reading(chief.name, 1, '1', { form }, { group: 'roof V to the rear', word: form })];
  },
  mend: () => ({ says: "lead two from the middle of the main hoop's top to the feet of the backstays", params: {} }),
  explanation: {
    what: 'The bars of the roof meet at the rear hoop, and behind it the backstays have no V that takes up their load.',
    why: "The point of the V pushes at the middle of the hoop's top, where nothing else holds it.",
    measured:
      'The form of the tubes `as backstay-diagonal`: V, where two stand one on each side and are at one end less than half as far apart as at the other; X, one, or none. The drawing was not seen.',
    mend: 'Add the V, or turn the V of the roof round.',
    stage: 'hoop',
    bad: `rules fia-253\nvehicle { homologated "2014" }\n${rearward('')}`,
    good: `rules fia-253\nvehicle { homologated "2014" }\n${rearward(V)}`,
  },
};
