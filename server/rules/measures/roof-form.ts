/** `roof.form`: whether the roof's bars make an X or a V, or lie side by side. */
import type { Car } from '../car';
import { front } from '../examples';
import { frontRear } from '../legs';
import { missing, reading } from '../readings';
import { roofOf } from '../roof';
import type { Item, Rule } from '../rule';

const SIDE = "the driver's side is not known: name the driver's seat driver, or write only one seat";

/** Of one bar alone: whether its front end lies on the driver's side. */
function oneBar(car: Car, name: string): Item {
  const leg = roofOf(car).legs[0];
  const driver = car.driverSide();
  const group = 'one seat';
  const at = { fact: 'path', group };
  if (driver === null || leg === undefined) return missing(name, SIDE, at);
  const y = frontRear(leg)[0].at[1];
  const word =
    y > 0 === (driver === 'left')
      ? "one diagonal to the driver's front corner"
      : 'one diagonal to the other front corner';
  return reading(name, 1, '1', { tubes: [name], form: word }, { ...at, word });
}

const two = (v: string): string =>
  `rules fia-253\nvehicle { homologated "2010" }\n${front()}\nmirror left {\n  node v-rear = on hoop at 80 after crown\n  node v-front = on header at ${v}\n  tube v as roof-bar { section t38; path v-rear, v-front }\n  vent v -> hoop { at v-rear; dia 5 }\n}`;

export const roofForm: Rule = {
  code: 'roof.form',
  unit: '1',
  slack: 0,
  read: (car): readonly Item[] => {
    if (car.kind() !== 'cage') return [];
    const { form, legs } = roofOf(car);
    const [first] = legs;
    if (first === undefined) return [];
    if (form === 'one bar') return car.alone() ? [oneBar(car, first.name)] : [];
    const tubes = legs.slice(0, 2).map(({ name }) => name);
    return [reading(first.name, 1, '1', { tubes, form }, { fact: 'path', group: 'two bars', word: form })];
  },
  mend: () => ({
    says: 'let them cross, one split by the other, or meet at one end',
    params: {},
  }),
  explanation: {
    what: 'The bars in the roof make none of the forms that the book draws: they neither cross nor meet.',
    why: 'Bars side by side fold over together; triangles do not.',
    measured:
      'In plan view. X: one leg is split by the other. V: at one end the two are less than half as far apart as at the other. With one seat one diagonal counts, with its front end on the side of the driver.',
    mend: 'Lead the bars so that they cross or meet.',
    stage: 'hoop',
    bad: two('6 %'),
    good: two('46 %'),
  },
};
