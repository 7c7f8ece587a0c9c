/** The main dimensions of a car's tubes: over everything that is made, and of its hoops. */
import { onPiece } from '../../centreline/piece';
import type { Vec3 } from '../../centreline/vector';
import type { Part } from '../../geometry/shape';
import { sayLength } from '../quantity';
import type { PacketInput } from './paper';

type Axis = 0 | 1 | 2;

/**
 * How far a tube's outside reaches along an axis of the car, mm: over its legs as capsules and its bends as rings of points.
 * A leg's square end reaches less than a ball would where it runs along the axis: there its end is what counts.
 */
function reach(part: Part, axis: Axis): readonly number[] {
  const od = part.tube.section?.od ?? null;
  if (part.centreline === null || od === null) return [];
  const radius = od / 2;
  const around = (at: Vec3, tangent: Vec3): readonly number[] => {
    const by = radius * Math.sqrt(Math.max(0, 1 - tangent[axis] * tangent[axis]));
    return [at[axis] - by, at[axis] + by];
  };
  return part.centreline.pieces.flatMap((piece): readonly number[] => {
    if (piece.kind === 'leg') return [...around(piece.from, piece.direction), ...around(piece.to, piece.direction)];
    const steps = 64;
    return Array.from({ length: steps + 1 }, (_, i) => {
      const { point, tangent } = onPiece(piece, (piece.length * i) / steps);
      return around(point, tangent);
    }).flat();
  });
}

function over(parts: readonly Part[], axis: Axis): number | null {
  let [low, high] = [Infinity, -Infinity];
  for (const part of parts)
    for (const value of reach(part, axis)) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  return high > low ? high - low : null;
}

/** Name and figure in both systems, as they are printed. */
export function mainDimensions({ shape, units }: PacketInput): readonly (readonly [string, string])[] {
  const made = [...shape.parts.values()].filter(({ tube }) => !tube.existing);
  const say = (parts: readonly Part[], axis: Axis): string => sayLength(over(parts, axis), units);
  const all: readonly (readonly [string, string])[] = [
    ['Length over all tubes', say(made, 0)],
    ['Width over all tubes', say(made, 1)],
    ['Height over all tubes', say(made, 2)],
  ];
  const hoops = made
    .filter(({ role }) => role === 'main-rollbar' || role === 'front-rollbar')
    .map((part): readonly [string, string] => [
      part.name,
      `${say([part], 1)} wide and ${say([part], 2)} high, outside`,
    ]);
  const total = made.reduce<number | null>(
    (sum, { cutLength }) => (sum === null || cutLength === null ? null : sum + cutLength),
    0,
  );
  return [
    ...all,
    ...hoops,
    ['Parts', String(made.length)],
    ['All cut lengths together, without kerf', sayLength(total, units)],
  ];
}
