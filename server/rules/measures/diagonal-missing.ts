/** `diagonal.missing`: the number of diagonals of the main hoop. */
import { pointAt } from '../../centreline/query';
import { figure } from '../../geometry/tell';
import type { Car, Hoop } from '../car';
import { diagonal } from '../examples';
import { legsOf } from '../hoop';
import { legsOfRole, upDownOf } from '../legs';
import { mirrored, pointWords } from '../points';
import { reading } from '../readings';
import type { Decision, Limit, Mend, Reading, Rule } from '../rule';

/** Some books count the diagonals between the backstays too. */
function decide(limit: Limit, item: Reading, car: Car): Decision {
  const besides = (limit.counts ?? []).flatMap((role) => legsOfRole(car, role)).length;
  const measured = figure(item.measured.value + besides, '1');
  const { from, to } = limit.allowed;
  if (from === null || measured.value >= from) return { kind: 'met' };
  return { kind: 'broken', measured, from, to, low: true };
}

/** A free place for a diagonal: the image of the one that is there, else from an upper corner to the opposite foot. */
function placeFor(car: Car, hoop: Hoop): Mend {
  const [there] = legsOfRole(car, 'diagonal');
  if (there !== undefined) {
    const [up, down] = upDownOf(there);
    const from = pointWords('from', mirrored(up.at));
    const to = pointWords('to', mirrored(down.at));
    return {
      says: `add the image of {there} as diagonal, from near ${from.says} to near ${to.says}, and split one by the other`,
      params: { ...from.params, ...to.params, there: there.name },
    };
  }
  const [first, last] = legsOf(hoop.line, hoop.figures);
  const from = pointWords('from', pointAt(hoop.line, first[1]).point);
  const to = pointWords('to', pointAt(hoop.line, last[1]).point);
  return {
    says: `add a straight tube as diagonal, from an upper corner of {hoop}, near ${from.says}, to the opposite foot at ${to.says}`,
    params: { ...from.params, ...to.params, hoop: hoop.name },
  };
}

export const diagonalMissing: Rule = {
  code: 'diagonal.missing',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    if (chief === null || car.kind() === 'none') return [];
    return [reading(chief.name, legsOfRole(car, 'diagonal').length, '1', {})];
  },
  decide,
  mend: (_item, _target, car) => {
    const hoop = car.mainHoops()[0];
    return hoop === undefined
      ? { says: 'add a straight tube as diagonal, from an upper corner of the hoop to the opposite foot', params: {} }
      : placeFor(car, hoop);
  },
  explanation: {
    what: 'The main hoop has fewer diagonals than the book wants.',
    why: 'Without one the hoop folds sideways into a parallelogram.',
    measured:
      'Tubes `as diagonal`; the second leg of an X counts as one, whether it is one split tube or two that go on into each other. Where a book counts the diagonals between the backstays too, they are counted.',
    mend: 'Add the tube, or write its role.',
    stage: 'hoop',
    bad: 'rules fia-253',
    good: `rules fia-253\n${diagonal()}`,
  },
};
