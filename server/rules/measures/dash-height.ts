/** `dash.height`: the lower edge of a dash bar against the top of the dashboard. */
import { pointAt } from '../../centreline/query';
import { dashExample, outlinesOf } from '../dash';
import type { Item } from '../rule';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

const PANEL = 'panel dash-top as dashboard { outline (780, 500, 700), (780, -500, 700) }';

export const dashHeight: Rule = {
  code: 'dash.height',
  unit: 'mm',
  slack: 1e-6,
  read: (car): readonly Item[] => {
    const bars = car.of('dash-bar');
    if (bars.length === 0) return [];
    const tops = outlinesOf(car, 'dashboard').flatMap((outline) => outline.map(([, , z]) => z));
    if (tops.length === 0)
      return missingOfCar(
        car,
        'where the top of the dashboard is is not written: panel dash-top as dashboard { outline … }',
      );
    return bars.flatMap(({ name, line, tube }) => {
      if (tube.section === null) return [];
      const axis = Math.min(
        ...line.pieces.flatMap(({ start, length }) => [start, start + length].map((s) => pointAt(line, s).point[2])),
      );
      const above = axis - tube.section.od / 2 - Math.max(...tops);
      return [reading(name, above, 'mm', { tube: name }, { fact: 'path' })];
    });
  },
  mend: (item, target) => ({
    says: 'lower it by {by~}',
    ask: ', {book} wants it no higher than the top of the dashboard',
    params: { by: { value: Math.ceil(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'A dash bar lies above the dashboard.',
    why: 'It is in the way of hands and of heads that come forward.',
    measured: 'From the highest point of the panel `as dashboard` up to the lower edge of the tube, at its lowest.',
    mend: 'Lower the bar.',
    stage: 'hoop',
    bad: `rules fia-253\n${dashExample('740', PANEL)}`,
    good: `rules fia-253\n${dashExample('710', PANEL)}`,
  },
};
