/** `anchor.plate-area`: the plate of an anchorage in the shell. */
import { anchorExample } from '../anchors';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const anchorPlateArea: Rule = {
  code: 'anchor.plate-area',
  unit: 'mm2',
  slack: 0.5,
  read: (car) =>
    car
      .ofKind('anchor')
      // On the cage, and where the maker of the car put it, no plate is asked for.
      .filter(({ series, tube }) => series !== true && tube === null)
      .map(({ name, plate }) =>
        plate === null
          ? missing(name, 'its plate is not written: plate 80 x 60 x 3')
          : reading(name, plate.long * plate.wide, 'mm2', { anchor: name }, { fact: 'plate' }),
      ),
  mend: () => ({ says: 'use a larger plate', params: {} }),
  explanation: {
    what: 'The plate of a new anchorage is smaller than the book wants.',
    why: 'A bolt with a small or thin plate comes through the floor.',
    measured:
      'Length times width of the fact `plate`, of anchors on the shell that the maker of the car did not put there.',
    mend: 'Use another plate.',
    stage: 'hoop',
    bad: `rules fia-253\n${anchorExample('load 15 kN; plate 79 x 50 x 3')}`,
    good: `rules fia-253\n${anchorExample('load 15 kN; plate 80 x 60 x 3')}`,
  },
};
