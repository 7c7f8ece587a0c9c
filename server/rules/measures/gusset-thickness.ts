/** `gusset.thickness`: the sheet or wall of a gusset. */
import { gussetExample, gussetUses } from '../gussets';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

export const gussetThickness: Rule = {
  code: 'gusset.thickness',
  unit: 'mm',
  slack: 0.006,
  read: (car) =>
    gussetUses(car).map(({ gusset }) =>
      gusset.thickness === null
        ? missing(gusset.name, 'its thickness is not written: thickness 1.5')
        : reading(gusset.name, gusset.thickness, 'mm', { gusset: gusset.name }, { fact: 'thickness' }),
    ),
  mend: () => ({ says: 'use thicker sheet', params: {} }),
  explanation: {
    what: 'The sheet of a gusset is thinner than the book wants.',
    why: 'Thin sheet buckles at its free edge before it holds the corner.',
    measured: 'The thickness as it is written: of the sheet, or of the wall of a tube.',
    mend: 'Use thicker sheet.',
    stage: 'hoop',
    bad: `rules fia-253\n${gussetExample('legs 120 x 120; kind sheet; thickness 0.8')}`,
    good: `rules fia-253\n${gussetExample('legs 120 x 120; kind sheet; thickness 1.5')}`,
  },
};
