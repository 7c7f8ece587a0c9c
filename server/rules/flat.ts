/** The plane that lies nearest to a set of points, each with its weight. */
import type { Vec3 } from '../centreline/vector';
import { add, dot, scale, sub, unit } from '../centreline/vector';

export interface FittedPlane {
  /** Unit. */
  readonly normal: Vec3;
  readonly at: Vec3;
}

const ROUNDS = 50;

type Row = [number, number, number];

/**
 * The plane with the least sum of squared distances: through the points' mean, across the eigenvector of their
 * covariance with the least eigenvalue (Jacobi's method for symmetric matrices; Golub and Van Loan, Matrix Computations).
 * Null for fewer than three points.
 */
export function planeThrough(
  points: readonly Vec3[],
  weights: readonly number[] = points.map(() => 1),
): FittedPlane | null {
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  if (points.length < 3 || !(whole > 0)) return null;
  const at = scale(
    points.reduce((sum, point, i) => add(sum, scale(point, weights[i] ?? 0)), [0, 0, 0] as Vec3),
    1 / whole,
  );
  const a: [Row, Row, Row] = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  const v: [Row, Row, Row] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const axes = [0, 1, 2] as const;
  points.forEach((point, n) => {
    const d = sub(point, at);
    for (const i of axes) for (const j of axes) a[i][j] += (weights[n] ?? 0) * d[i] * d[j];
  });
  const pairs = [
    [0, 1],
    [0, 2],
    [1, 2],
  ] as const;
  for (let round = 0; round < ROUNDS; round++) {
    const off = Math.abs(a[0][1]) + Math.abs(a[0][2]) + Math.abs(a[1][2]);
    if (!(off > 1e-12 * (Math.abs(a[0][0]) + Math.abs(a[1][1]) + Math.abs(a[2][2])))) break;
    for (const [p, q] of pairs) {
      if (a[p][q] === 0) continue;
      const theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
      const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.hypot(theta, 1));
      const c = 1 / Math.hypot(t, 1);
      const s = t * c;
      for (const k of axes) {
        const [x, y] = [a[k][p], a[k][q]];
        a[k][p] = c * x - s * y;
        a[k][q] = s * x + c * y;
      }
      for (const k of axes) {
        const [x, y] = [a[p][k], a[q][k]];
        a[p][k] = c * x - s * y;
        a[q][k] = s * x + c * y;
        const [m, n] = [v[k][p], v[k][q]];
        v[k][p] = c * m - s * n;
        v[k][q] = s * m + c * n;
      }
    }
  }
  const least = a[0][0] <= a[1][1] && a[0][0] <= a[2][2] ? 0 : a[1][1] <= a[2][2] ? 1 : 2;
  return { normal: unit([v[0][least], v[1][least], v[2][least]]), at };
}

/** How far a point lies off the plane, mm, with its sign. */
export const offPlane = (plane: FittedPlane, point: Vec3): number => dot(sub(point, plane.at), plane.normal);
