/** `dash.column`: a dash bar against the steering column. */
import { planeCrossings } from '../../centreline/query';
import { dashExample, heightAt, outlinesOf } from '../dash';
import type { Item } from '../rule';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

const COLUMN = 'panel column as steering-column { outline (500, 330, 560), (1000, 330, 440) }';

export const dashColumn: Rule = {
  code: 'dash.column',
  unit: 'mm',
  slack: 1e-6,
  read: (car): readonly Item[] => {
    const bars = car.of('dash-bar');
    if (bars.length === 0) return [];
    const columns = outlinesOf(car, 'steering-column');
    if (columns.length === 0)
      return missingOfCar(
        car,
        'where the steering column is is not written: panel column as steering-column { outline (500, 330, 560), (950, 330, 420) }',
      );
    return bars.flatMap(({ name, line }) =>
      columns.flatMap((outline) => {
        // Where the bar passes over or under the column.
        const y = outline[0]?.[1] ?? 0;
        const at = planeCrossings(line, [0, 1, 0], y).crossings[0]?.point;
        const column = at === undefined ? null : heightAt(outline, at[0]);
        return at === undefined || column === null
          ? []
          : [reading(name, Math.max(0, column - at[2]), 'mm', { tube: name }, { fact: 'path' })];
      }),
    );
  },
  mend: (item, target) => ({
    says: 'raise it by {by~}',
    ask: ', {book} wants it no lower',
    params: { by: { value: Math.ceil(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'A dash bar lies below the steering column.',
    why: "There it meets the driver's knees and shins.",
    measured:
      'In side view, from the axis of the bar up to the line of the panel `as steering-column`, where the bar passes it.',
    mend: 'Raise the bar.',
    stage: 'hoop',
    bad: `rules fia-253\nvehicle { homologated "2008" }\n${dashExample('420', COLUMN)}`,
    good: `rules fia-253\nvehicle { homologated "2008" }\n${dashExample('600', COLUMN)}`,
  },
};
