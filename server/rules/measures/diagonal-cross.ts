/** `diagonal.cross`: two diagonals of the main hoop make an X: one runs through, the other is split by it. */
import { diagonal, front } from '../examples';
import { crossings, legsOfRole } from '../legs';
import { reading } from '../readings';
import type { Rule } from '../rule';

const xCar = (split: string): string =>
  `rules fia-253\nvehicle { homologated "2005" }\n${front()}\n${diagonal()}\nnode y-top = on hoop at 110 before crown.right\nnode y-low = on hoop at 70 from foot.left\ntube second as diagonal { section t38; path y-top, y-low${split} }`;

export const diagonalCross: Rule = {
  code: 'diagonal.cross',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    const legs = legsOfRole(car, 'diagonal');
    const [first, second] = legs;
    // One alone is told as missing its other.
    if (chief === null || first === undefined || second === undefined) return [];
    const tubes = legs.slice(0, 2).map(({ name }) => name);
    return [
      reading(
        first.name,
        crossings(legs).length,
        '1',
        { tubes, first: first.name, second: second.name },
        { fact: 'path' },
      ),
    ];
  },
  mend: () => ({
    says: 'lead each from an upper corner to the opposite foot and split one where they cross: split by {first}',
    ask: ', {book} wants an X',
    params: {},
  }),
  explanation: {
    what: 'The two diagonals of the main hoop are no X: neither is split by the other.',
    why: 'An X holds the hoop whichever side the load comes from, and each leg keeps the other from buckling.',
    measured: 'Pairs of tubes `as diagonal` of which one is split by the other, or is two that end on it and go on.',
    mend: 'Lead each from an upper corner to the opposite foot; write `split by` in the second.',
    stage: 'hoop',
    bad: xCar(''),
    good: xCar('; split by cross'),
  },
};
