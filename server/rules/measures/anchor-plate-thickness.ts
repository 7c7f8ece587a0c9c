/** `anchor.plate-thickness`: the plate of an anchorage in the shell. */
import { anchorExample } from '../anchors';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const anchorPlateThickness: Rule = {
  code: 'anchor.plate-thickness',
  unit: 'mm',
  slack: 0.03,
  read: (car) =>
    car
      .ofKind('anchor')
      // On the cage, and where the maker of the car put it, no plate is asked for.
      .filter(({ series, tube }) => series !== true && tube === null)
      .map(({ name, plate }) =>
        plate === null
          ? missing(name, 'its plate is not written: plate 80 x 60 x 3')
          : reading(name, plate.thick, 'mm', { anchor: name }, { fact: 'plate' }),
      ),
  mend: () => ({ says: 'use thicker plate', params: {} }),
  explanation: {
    what: 'The plate of a new anchorage is thinner than the book wants.',
    why: 'A bolt with a small or thin plate comes through the floor.',
    measured: 'The thickness of the fact `plate`, of anchors on the shell that the maker of the car did not put there.',
    mend: 'Use another plate.',
    stage: 'hoop',
    bad: `rules fia-253\n${anchorExample('load 15 kN; plate 80 x 60 x 2.5')}`,
    good: `rules fia-253\n${anchorExample('load 15 kN; plate 80 x 60 x 3')}`,
  },
};
