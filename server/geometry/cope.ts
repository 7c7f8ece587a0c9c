/** A cope's figures: ordinates, depth, saddle, gap, included angle, offset. Millimetres, radians. */

/** One generator; null where it meets no host. */
export interface CopeOrdinate {
  readonly clock: number;
  readonly cut: number | null;
  readonly outer: number | null;
  readonly inner: number | null;
  /** Shortest distance from the outer edge of the cut to the hosts' surface. */
  readonly gap: number | null;
}

/** Set-backs at any clock, for templates and meshes; null where the generator meets no host. Clock in radians. */
export interface CopeCurve {
  /** At radius ρ. */
  setback(rho: number, clock: number): number | null;
  outer(clock: number): number | null;
  inner(clock: number): number | null;
  /** The largest set-back over the whole wall. */
  cut(clock: number): number | null;
  gap(clock: number): number | null;
}

export interface Cope {
  /** At 0, 10, … 360 degrees: 37 of them. */
  readonly ordinates: readonly CopeOrdinate[];
  readonly curve: CopeCurve;
  /** Over all clocks, not only the listed ones; null with an overhang. */
  readonly minCut: number | null;
  readonly maxCut: number | null;
  readonly minOuter: number | null;
  readonly maxOuter: number | null;
  readonly depth: number | null;
  /** Length of the outer curve in space. */
  readonly saddleLength: number | null;
  readonly maxGap: number | null;
  /** Between the leg and the first tube host's centreline at its station, 0..π/2; null without a tube host. */
  readonly includedAngle: number | null;
  /** Shortest distance between the leg's axis and the first tube host's, near E; null without a tube host. */
  readonly offset: number | null;
  /** How far the worst outer generator misses every host, where that is more than 0.5 mm; else null. */
  readonly overhang: number | null;
  /** True where some generator is still inside a host at the limit: the leg is too short, or runs along in the host. */
  readonly buried: boolean;
}
