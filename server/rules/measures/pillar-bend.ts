/** `pillar.bend`: how far a pillar bar turns. */
import { degrees } from '../../../grammar/units';
import { bentPillar } from '../pillars';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const pillarBend: Rule = {
  code: 'pillar.bend',
  unit: 'deg',
  slack: 1e-6,
  read: (car) =>
    car.of('pillar-bar').map((member) => {
      const turned = member.line.pieces.reduce((sum, piece) => sum + (piece.kind === 'arc' ? piece.angle : 0), 0);
      return reading(member.name, degrees(turned), 'deg', { tube: member.name }, { fact: 'path' });
    }),
  mend: () => ({ says: 'let it run straighter', params: {} }),
  explanation: {
    what: 'A bar that stiffens a windscreen pillar is bent too far.',
    why: 'A bent tube gives way at its bend.',
    measured: 'The angles of all its bends together, in space.',
    mend: 'Move its middle node nearer to the line between its ends.',
    stage: 'parts',
    bad: `rules fia-253\n${bentPillar('(-150, 730, 450)')}`,
    good: `rules fia-253\n${bentPillar('(-150, 660, 450)')}`,
  },
};
