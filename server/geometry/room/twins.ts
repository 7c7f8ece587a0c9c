/** Bars that are each other's image in the car's centre plane: what holds of the one holds of the other. Millimetres. */
import type { Vec3 } from '../../centreline/vector';
import { mirrorY } from '../../centreline/vector';
import type { Part } from '../shape';
import type { Stretch3 } from './tubes';

/** Figures that differ by less are the same. */
const SAME = 1e-6;
/** Coordinates are compared in steps of this. */
const STEP = 1e-4;

const isNear = (a: number | null, b: number | null): boolean =>
  a === null || b === null ? a === b : Math.abs(a - b) <= SAME;

const areNear = (p: Vec3, q: Vec3): boolean => p.every((x, i) => isNear(x, q[i] as number));

export const mirrorImages = (all: readonly Stretch3[]): readonly Stretch3[] =>
  all.map((one) => ({ ...one, a: mirrorY(one.a), b: mirrorY(one.b) }));

/** What stands where, whatever its name and whichever way it is travelled. */
const footprints = (all: readonly Stretch3[]): string => {
  const at = (p: Vec3): string => p.map((x) => String(Math.round(x / STEP) + 0)).join(' ');
  return all
    .map(({ a, b, radius }) => [...[at(a), at(b)].sort(), String(radius)].join('|'))
    .sort()
    .join('\n');
};

/** True where `b` is the image of `a`, from first end to last, its cuts and its hosts with it. */
export function mirrorTwins(a: Part, hostsOfA: readonly Stretch3[], b: Part, hostsOfB: readonly Stretch3[]): boolean {
  const [one, two] = [a.centreline?.points, b.centreline?.points];
  if (one === undefined || two === undefined || one.length !== two.length) return false;
  if (a.tube.side === b.tube.side || hostsOfA.length !== hostsOfB.length) return false;
  if (a.tube.section?.od !== b.tube.section?.od || a.tube.section?.wall !== b.tube.section?.wall) return false;
  if (!one.every((p, i) => areNear(mirrorY(p), two[i] as Vec3))) return false;
  if (a.bends.some(({ radius }, i) => radius !== b.bends[i]?.radius)) return false;
  const sameEnds = a.ends.every(({ minCut, maxCut, origin, saddleLength }, i) => {
    const other = b.ends[i === 0 ? 0 : 1];
    if (origin === null || other.origin === null) return false;
    return (
      areNear(mirrorY(origin), other.origin) &&
      isNear(minCut, other.minCut) &&
      isNear(maxCut, other.maxCut) &&
      isNear(saddleLength, other.saddleLength)
    );
  });
  return sameEnds && footprints(mirrorImages(hostsOfA)) === footprints(hostsOfB);
}
