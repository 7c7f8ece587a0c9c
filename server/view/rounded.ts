/** Numbers of the picture: finer than an eye sees, and short enough to travel. */
import type { Vec3 } from '../centreline/vector';
import type { Point3 } from './model';

/** A ten-thousandth of a millimetre. */
const PARTS = 1e4;

export const rounded = (value: number): number => {
  const near = Math.round(value * PARTS) / PARTS;
  return near === 0 ? 0 : near;
};

export const roundedPoint = ([x, y, z]: Vec3): Point3 => [rounded(x), rounded(y), rounded(z)];
