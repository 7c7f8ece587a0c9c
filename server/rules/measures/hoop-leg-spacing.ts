/** `hoop.leg-spacing`: the clear width between the legs of the main hoop. */
import { pointAt } from '../../centreline/query';
import type { Car, Hoop } from '../car';
import { TWO_BENDS } from '../hoop-examples';
import { legsOf } from '../hoop';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** How far a leg reaches inward in front view at its ends and bends, mm, counted toward `side` (1: left). */
function inner(hoop: Hoop, [from, to]: readonly [number, number], side: 1 | -1): number {
  const radius = (hoop.tube.section?.od ?? 0) / 2;
  const stations = [from, to, ...hoop.line.pieces.map((piece) => piece.start)].filter((s) => s >= from && s <= to);
  return Math.min(
    ...stations.map((station) => {
      const { point, tangent } = pointAt(hoop.line, station);
      // A leg that leans in front view is wider on the level.
      const level = radius / Math.max(0.2, Math.hypot(tangent[0], tangent[2]));
      return side * point[1] - level;
    }),
  );
}

const clear = (hoop: Hoop): number => {
  const [first, last] = legsOf(hoop.line, hoop.figures);
  const left: 1 | -1 = hoop.ends[0].at[1] >= hoop.ends[1].at[1] ? 1 : -1;
  return inner(hoop, first, left) + inner(hoop, last, left === 1 ? -1 : 1);
};

export const hoopLegSpacing: Rule = {
  code: 'hoop.leg-spacing',
  unit: 'mm',
  slack: 1e-6,
  read: (car: Car) =>
    car
      .mainHoops()
      .filter(({ tube }) => tube.section !== null)
      .map((hoop) => reading(hoop.name, clear(hoop), 'mm', { tube: hoop.name }, { fact: 'path' })),
  mend: (item, target) => ({
    says: 'set them {by~} farther apart',
    params: { by: { value: target - item.measured.value, unit: 'mm' } },
  }),
  explanation: {
    what: 'The two legs of the main hoop stand too close together.',
    why: 'A narrow hoop falls over sideways, and leaves the shoulders outside it.',
    measured:
      'In front view, on the level, between the inner surfaces of the legs, where they are closest below the top corners.',
    mend: 'Set the feet, or the top corners, farther apart.',
    stage: 'parts',
    bad: `rules scca-solo\n${TWO_BENDS('(0, 200, 1000)', '(0, 200, 0)')}`,
    good: `rules scca-solo\n${TWO_BENDS('(0, 230, 1000)', '(0, 230, 0)')}`,
  },
};
