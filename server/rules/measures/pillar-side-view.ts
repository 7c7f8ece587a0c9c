/** `pillar.side-view`: a pillar bar may bend, but is straight in side view. */
import type { Member } from '../car';
import { bentPillar } from '../pillars';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** The greatest distance of the path's corners from the chord in side view, mm; the bends lie within it. */
function offChord({ line, ends: [a, b] }: Member): number {
  const [dx, dz] = [b.at[0] - a.at[0], b.at[2] - a.at[2]];
  const length = Math.hypot(dx, dz);
  if (length === 0) return 0;
  return Math.max(...line.points.map((p) => Math.abs((p[0] - a.at[0]) * dz - (p[2] - a.at[2]) * dx) / length));
}

export const pillarSideView: Rule = {
  code: 'pillar.side-view',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car
      .of('pillar-bar')
      .map((member) => reading(member.name, offChord(member), 'mm', { tube: member.name }, { fact: 'path' })),
  mend: () => ({
    says: 'put its middle node into the line of its ends, seen from the side',
    ask: ', {book} wants it straight; over {limit} is told',
    params: {},
  }),
  explanation: {
    what: 'A bar that stiffens a windscreen pillar is not straight in side view.',
    why: 'It is there to be pushed along its length in a frontal hit.',
    measured:
      'In side view, from the corners of its path to the line between its ends. The book names no tolerance; up to 2 mm is not told.',
    mend: 'Bend it in front view only.',
    stage: 'parts',
    bad: `rules fia-253\n${bentPillar('(-180, 640, 450)')}`,
    good: `rules fia-253\n${bentPillar('(-150, 640, 450)')}`,
  },
};
