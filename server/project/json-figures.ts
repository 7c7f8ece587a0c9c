/** Figures as they stand in JSON: rounded to 1e-6, degrees, null where there is none. */
import { degrees } from '../../grammar/units';
import type { Vec3 } from '../centreline/vector';

export type Figure = number | null;
export type Point = readonly [number, number, number];

/** Rounded to 1e-6, never -0; what is no finite number is null. */
export function rounded(value: number | null | undefined): Figure {
  if (value === null || value === undefined || !Number.isFinite(value)) return null;
  const scaled = Math.round(value * 1e6) / 1e6;
  // Beyond 2^53 / 1e6 a double has no digits left behind 1e-6: it stays as it is.
  return (Number.isFinite(scaled) ? scaled : value) + 0;
}

/** Degrees. */
export const angle = (radians: number | null): Figure => rounded(radians === null ? null : degrees(radians));

/** Null where a coordinate is no finite number. */
export const point = (at: Vec3 | null): Point | null => {
  if (at === null || !at.every(Number.isFinite)) return null;
  return [rounded(at[0]) ?? 0, rounded(at[1]) ?? 0, rounded(at[2]) ?? 0];
};
