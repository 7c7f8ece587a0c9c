/** How much steel a part has, by integrals over its cuts, and how far a surface of chords may be from it. */
import type { End, Part } from '../../server/geometry/shape';
import type { Fineness } from '../../server/mesh/pipe';

/** Radii, mm. */
export const radiiOf = (part: Part): readonly [number, number] => {
  const { od, wall } = part.tube.section ?? { od: NaN, wall: NaN };
  return [od / 2 - wall, od / 2];
};

const CLOCKS = 360;

/** The integral of an end's set-back over the wall's cross-section, mm³: Simpson's rule across the wall, the mean round it. */
export function cutAway(part: Part, end: End): number {
  const [inner, outer] = radiiOf(part);
  const { curve } = end;
  if (curve === null) return (end.minCut ?? 0) * Math.PI * (outer * outer - inner * inner);
  let sum = 0;
  for (let i = 0; i < CLOCKS; i++) {
    const clock = (2 * Math.PI * (i + 0.5)) / CLOCKS;
    const at = (rho: number): number => (curve.setback(rho, clock) ?? NaN) * rho;
    sum += (at(inner) + 4 * at((inner + outer) / 2) + at(outer)) * ((outer - inner) / 6);
  }
  return (sum * 2 * Math.PI) / CLOCKS;
}

/**
 * The volume of a tube that is bent and cut: the area of its section times the way of its centre (Pappus of Alexandria,
 * Collection VII), less what its ends are cut back.
 */
export function steelOf(part: Part): number {
  const [inner, outer] = radiiOf(part);
  const length = part.centreline?.length ?? NaN;
  return Math.PI * (outer * outer - inner * inner) * length - cutAway(part, part.ends[0]) - cutAway(part, part.ends[1]);
}

/**
 * The most that chords within the fineness can make of it: each surface times how far it may stay inside of the true one,
 * and the ends, which run straight across the wall.
 */
export function chordError(part: Part, fineness: Fineness): number {
  const [inner, outer] = radiiOf(part);
  const length = part.centreline?.length ?? NaN;
  const bent = (part.centreline?.pieces ?? []).reduce(
    (sum, { kind, length: own }) => sum + (kind === 'arc' ? own : 0),
    0,
  );
  const round = 2 * Math.PI * outer;
  const ends = 2 * Math.PI * (outer * outer - inner * inner) * (0.05 * (outer - inner) + fineness.edge);
  return round * (length * fineness.across + bent * fineness.along) + ends;
}
