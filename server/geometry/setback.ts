/**
 * What a set-back is measured on: the child's end and its hosts, as plain data. Millimetres, radians.
 *
 * A generator is the line E + ρ·d(φ) + s·u on the child's leg: E the end point, u the leg's direction away from the
 * joint, d(φ) = zero·cos φ + quarter·sin φ across it, ρ between the inner and the outer radius. Its set-back is the s
 * where it last leaves a host, near E, on the child's side.
 */
import type { Centreline } from '../centreline/centreline';
import type { Vec3 } from '../centreline/vector';

/** A generator that misses a host by this or less takes the closest approach, mm. */
export const NEAR_MISS = 0.5;

/** The end that is cut. */
export interface ChildEnd {
  /** E: set-backs are measured from here. */
  readonly origin: Vec3;
  /** u: unit direction of the end leg, away from the joint. */
  readonly away: Vec3;
  /** Unit vectors across the leg at clock 0 and at clock 90 degrees ({@link clockFrame}). */
  readonly zero: Vec3;
  readonly quarter: Vec3;
  readonly outerRadius: number;
  readonly innerRadius: number;
  /** Exits at or beyond this set-back do not count: half the leg, from node to node (or to the corner). */
  readonly limit: number;
}

/**
 * A tube that an end is cut to: the solid (not the bore) of the whole bent tube. Its end legs go on straight beyond its
 * ends unless `from` or `to` cut them: whether a footprint runs past the end is asked of it afterwards.
 */
export interface TubeHost {
  readonly kind: 'tube';
  readonly centreline: Centreline;
  /** Outer radius. */
  readonly radius: number;
  /** Where on the centreline E lies, or is nearest to. */
  readonly station: number;
  /**
   * Flats square across the axis where the solid begins and ends; null: none. A host that is itself an end is its half:
   * `from: 0` at its first end, `to: length` at its last; one that runs past its node by p: `from: -p`, `to: length + p`.
   */
  readonly from: number | null;
  readonly to: number | null;
}

/** A plane that an end is cut by (a foot's plate, a square cut): everything beyond it, seen from the child, is solid. */
export interface PlaneHost {
  readonly kind: 'plane';
  readonly point: Vec3;
  /** Either sense. */
  readonly normal: Vec3;
}

export type Host = TubeHost | PlaneHost;

/**
 * One host seen from one child's end, prepared for many generators. A clock is handed in as its cosine and sine.
 * NaN says that the generator does not leave this host; nothing throws.
 */
export interface HostField {
  /** Where the generator at radius `rho` last leaves the host. */
  exit(rho: number, cos: number, sin: number): number;
  /** Of a generator that misses the host by {@link NEAR_MISS} or less: where it comes nearest. */
  approach(rho: number, cos: number, sin: number): number;
  /** Set-back against this host alone: the exit; without one, the approach. */
  at(rho: number, cos: number, sin: number): number;
  /**
   * The largest exit over the wall, from the child's inner radius to its outer; the exits at those two may be handed in
   * where they are known.
   */
  most(cos: number, sin: number, atOuter?: number, atInner?: number): number;
  /** By how much the generator misses the host, mm; zero or less where it does not. */
  miss(rho: number, cos: number, sin: number): number;
  /** Distance of a point to the solid near E, mm; negative inside. */
  clearance(p: Vec3): number;
  /** Station of the host nearest to a point near E (beyond its ends: below 0, above its length); NaN on a plane. */
  station(p: Vec3): number;
  /** Shortest distance between the leg's axis, which goes on behind E, and the host's near E, mm; NaN on a plane. */
  offset(): number;
}
