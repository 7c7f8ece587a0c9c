/** `roof.bars`: the reinforcement of the roof. */
import type { Car } from '../car';
import { pointAt } from '../../centreline/query';
import { front } from '../examples';
import { legsOf } from '../hoop';
import { pointWords } from '../points';
import { reading } from '../readings';
import { rearHoop, roofLegs } from '../roof';
import type { Mend, Rule } from '../rule';

const PLAIN: Mend = { says: 'add tubes as roof-bar: an X, or a V between the hoops', params: {} };

/** From the hoop's upper corner on one side to the front corner of the roof on the other. */
function across(car: Car): Mend {
  const hoop = rearHoop(car);
  const header = [...car.of('transverse')].sort((a, b) => b.ends[0].at[0] - a.ends[0].at[0]);
  const ends = header.find(({ ends: [a] }) => hoop !== null && a.at[2] > hoop.figures.top * 0.8)?.ends;
  if (hoop === null || ends === undefined) return PLAIN;
  const [leg] = legsOf(hoop.line, hoop.figures);
  const corner = pointAt(hoop.line, leg[1]).point;
  const opposite = ends.find(({ at }) => at[1] * corner[1] < 0) ?? ends[0];
  const from = pointWords('from', corner);
  const to = pointWords('to', opposite.at);
  return {
    says: `add tubes as roof-bar: a V, or an X with one leg from near ${from.says} to near ${to.says} and its image`,
    params: { ...from.params, ...to.params },
  };
}

export const roofBars: Rule = {
  code: 'roof.bars',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    if (chief === null || car.kind() !== 'cage') return [];
    return [reading(chief.name, roofLegs(car).length, '1', {}, { group: car.alone() ? 'one seat' : 'two seats' })];
  },
  mend: (_item, _target, car) => across(car),
  explanation: {
    what: 'The roof has no X or V between the hoops.',
    why: 'The roof edges alone fold together when the car comes down on one corner.',
    measured:
      'Tubes `as roof-bar` that run along the car, not across it only; a leg that is split counts once. With one seat (or `codriver no`) one diagonal is enough.',
    mend: 'Add the tubes, or write their role.',
    stage: 'hoop',
    bad: `rules fia-253\nvehicle { homologated "2010" }\n${front()}`,
    good: `rules fia-253\nvehicle { homologated "2010" }\n${front()}\nmirror left {\n  node v-rear = on hoop at 80 after crown\n  node v-front = on header at 46 %\n  tube v as roof-bar { section t38; path v-rear, v-front }\n  vent v -> hoop { at v-rear; dia 5 }\n}`,
  },
};
