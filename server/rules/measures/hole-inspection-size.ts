/** `hole.inspection-size`: the diameter of holes for inspection. */
import { reading } from '../readings';
import type { Rule } from '../rule';
import { inspectionHoles } from './hole-inspection';

export const holeInspectionSize: Rule = {
  code: 'hole.inspection-size',
  unit: 'mm',
  // Drills in tenths of a millimetre stand for those in sixty-fourths of an inch.
  slack: 0.03,
  read: (car) =>
    inspectionHoles(car).flatMap(({ hole, member }) =>
      hole.dia === null ? [] : [reading(hole.name, hole.dia, 'mm', { tube: member.name }, { fact: 'dia' })],
    ),
  mend: (item, target) => ({
    says: item.measured.value < target ? 'drill it larger' : 'drill it smaller, or close it and drill another',
    params: {},
  }),
  explanation: {
    what: 'A hole for inspection is smaller, or larger, than the book allows.',
    why: 'Through a small hole no gauge reaches the wall; a large one weakens the tube.',
    measured: 'The diameter as it is written.',
    mend: 'Drill it to the size that the book names; the drill must not reach the far wall.',
    stage: 'hoop',
    bad: 'rules scca-gcr\nhole hoop for inspection { from 500; dia 4 }',
    good: 'rules scca-gcr\nhole hoop for inspection { from 500; dia 5 }',
  },
};
