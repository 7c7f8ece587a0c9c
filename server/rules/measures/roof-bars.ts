/** `roof.bars`: the reinforcement of the roof. */
import { front } from '../examples';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const roofBars: Rule = {
  code: 'roof.bars',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    if (chief === null || car.kind() !== 'cage') return [];
    const roof = car
      .of('roof-bar')
      .filter(({ ends: [a, b] }) => Math.abs(a.at[0] - b.at[0]) > Math.abs(a.at[1] - b.at[1]));
    const alone = car.seats().length === 1;
    return [reading(chief.name, roof.length, '1', {}, { group: alone ? 'one seat' : 'two seats' })];
  },
  mend: () => ({ says: 'add tubes as roof-bar: an X, or a V between the hoops', params: {} }),
  explanation: {
    what: 'The roof has no X or V between the hoops.',
    why: 'The roof edges alone fold together when the car comes down on one corner.',
    measured: 'Tubes `as roof-bar` that run more along the car than across it. With one seat one diagonal is enough.',
    mend: 'Add the tubes, or write their role.',
    stage: 'hoop',
    bad: `rules fia-253\nvehicle { homologated "2010" }\n${front()}`,
    good: `rules fia-253\nvehicle { homologated "2010" }\n${front()}\nmirror left {\n  node v-rear = on hoop at 80 after crown\n  node v-front = on header at 46 %\n  tube v as roof-bar { section t38; path v-rear, v-front }\n  vent v -> hoop { at v-rear; dia 5 }\n}`,
  },
};
