/** `foot.tube-wall`: a bolted plate is no thinner than the wall of the tube that stands on it. */
import { FOOT_GROUPS, footUses } from '../feet';
import { reading } from '../readings';
import type { Rule } from '../rule';

const shown = (plate: string): string =>
  `section heavy { od 45; wall 3 }\nmirror left {\n  node heel = (0, 300, 0)\n  node peak = on hoop nearest (0, 300, 1000)\n  tube post { section heavy; path heel, peak }\n  foot plate { at heel; plate ${plate}; bolts 3 x 10 mm; hole 8 }\n}`;

export const footTubeWall: Rule = {
  code: 'foot.tube-wall',
  unit: 'mm',
  slack: 0.03,
  groups: FOOT_GROUPS,
  read: (car) =>
    footUses(car).flatMap(({ foot, tubes, group }) => {
      const walls = tubes.flatMap(({ section }) => (section === null ? [] : [section.wall]));
      if (foot.plate === null || foot.bolts === null || walls.length === 0) return [];
      const limit = { from: Math.max(...walls), to: null };
      return [reading(foot.name, foot.plate.thick, 'mm', { foot: foot.name }, { fact: 'plate', group, limit })];
    }),
  mend: () => ({ says: 'use thicker plate', ask: ', {book} wants no less', params: {} }),
  explanation: {
    what: 'A bolted plate is thinner than the wall of the tube that stands on it.',
    why: 'The tube goes through the plate before it buckles itself.',
    measured: 'The thickness of the plate against the thickest wall of the tubes that end on it.',
    mend: 'Use thicker plate.',
    stage: 'hoop',
    bad: `rules scca-gcr\n${shown('140 x 100 x 2')}`,
    good: `rules fia-253\n${shown('140 x 100 x 3')}`,
  },
};
