/** `vent.bend`: a hole to the open air on the outside of a bend. */
import { figure } from '../../geometry/tell';
import { clockFrame, vectorAt } from '../../geometry/clock';
import { pointAt } from '../../centreline/query';
import { dot, sub } from '../../centreline/vector';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';
import { airHoles } from '../holes';

/** Where the direction of the hole leans this little to either side it is neither outside nor inside. */
const BESIDE = 1e-6;

const bent = (clock: string, from: string): string =>
  `node a = (0, 0, 0)\nnode b = (0, 0, 600)\nnode c = (600, 0, 600)\ntube t { section t38; die d38; path a, b, c; first open; last open }\nvent t -> air { at a; from ${from}; clock ${clock}; dia 4 }`;

export const ventBend: Rule = {
  code: 'vent.bend',
  unit: 'mm',
  slack: 0.5,
  read: (car) =>
    airHoles(car).flatMap(({ hole, member, station, clock, dia }): readonly Reading[] => {
      const { line, tube } = member;
      const bends = line.pieces.flatMap((piece) => (piece.kind === 'arc' ? [piece] : []));
      if (bends.length === 0) return [];
      const on = pointAt(line, station);
      const way = vectorAt(clockFrame(on.tangent), clock);
      const into = bends
        .map((bend) => ({
          bend,
          deep: Math.min(station - bend.start, bend.start + bend.length - station) + dia / 2,
        }))
        // On the inside the wall is pressed together: it is thicker there, and no crack opens.
        .filter(({ bend, deep }) => deep <= 0 || dot(way, sub(on.point, bend.centre)) > BESIDE)
        .sort((a, b) => b.deep - a.deep)[0];
      if (into === undefined) return [];
      const params = { tube: member.name, node: tube.path[into.bend.corner] ?? null };
      return [reading(hole, into.deep, 'mm', params, { fact: 'from' })];
    }),
  mend: (item) => ({
    says: 'drill it on the straight, or inside the joint: it may move {by~} along',
    params: { by: figure(Math.ceil(Math.max(0, item.measured.value)), 'mm') },
  }),
  explanation: {
    what: 'A vent is drilled into the outside of a bend.',
    why: 'The wall is at its thinnest and under tension there: a crack starts at the hole.',
    measured:
      "How far the edge of the hole lies inside the bend, along the bent centreline from the bend's tangent; the outside is where the hole's clock, on the tube's own TOP or FRONT at that place, points away from the middle of the bend.",
    mend: 'Drill on the straight, near the joint; best of all inside the joint, into the tube that it lands on.',
    stage: 'parts',
    bad: bent('0 deg', '560'),
    good: bent('180 deg', '300'),
  },
};
