/** Ends that a saw makes: square, or by a foot's plate. One plane through the whole tube. Millimetres, radians. */
import type { Angle, Length } from '../../grammar/units';
import { mm, rad } from '../../grammar/units';
import type { Vec3 } from '../centreline/vector';
import { angleBetween, dot, scale, sub } from '../centreline/vector';
import type { ClockFrame } from './clock';
import { clockOf } from './clock';
import type { CopeCurve } from './cope';
import type { Ordinate } from './shape';

/** A plane this nearly along the leg never cuts the tube off. */
const ALONG = 1e-6;
/** Less than this off square has no long point, radians. */
const SQUARE = 1e-9;

export interface SawnEnd {
  readonly ordinates: readonly Ordinate[];
  readonly minCut: Length;
  readonly minOuter: Length;
  readonly maxCut: Length;
  readonly depth: Length;
  /** Length of the outer edge in space: a circle, or an ellipse. */
  readonly saddleLength: Length;
  /** Angle off square. */
  readonly sawAngle: Angle;
  /** Clock of the long point; null where the cut is square. */
  readonly sawClock: Angle | null;
  readonly curve: CopeCurve;
}

/** The listed clocks: 0, 10, … 360 degrees. */
const LISTED_CLOCKS: readonly number[] = Array.from({ length: 37 }, (_, i) => (i * Math.PI) / 18);

/**
 * Cuts a tube of outer radius `outer` and inner radius `inner` by the plane through `point` with unit `normal` (either
 * sense). Set-backs from `origin` along `away`: s(φ) = ((point - origin) · n - ρ d(φ) · n) / (away · n).
 * A saw goes straight through: cut = outer, gap = 0. Null where the plane runs along the leg.
 */
export function sawEnd(
  frame: ClockFrame,
  origin: Vec3,
  away: Vec3,
  outer: number,
  inner: number,
  point: Vec3,
  normal: Vec3,
): SawnEnd | null {
  const along = dot(away, normal);
  if (!(Math.abs(along) > ALONG)) return null;
  const base = dot(sub(point, origin), normal) / along;
  const across = dot(frame.zero.vector, normal) / along;
  const quarter = dot(frame.quarter, normal) / along;
  const setback = (rho: number, clock: number): number =>
    base - rho * (across * Math.cos(clock) + quarter * Math.sin(clock));
  const slope = Math.hypot(across, quarter);
  const off = angleBetween(away, along > 0 ? normal : scale(normal, -1));
  const ordinates = LISTED_CLOCKS.map((clock): Ordinate => {
    const cut = mm(setback(outer, clock));
    return { clock: rad(clock), cut, outer: cut, inner: mm(setback(inner, clock)), gap: mm(0) };
  });
  const square = off < SQUARE;
  const long = square ? null : clockOf(frame, along > 0 ? normal : scale(normal, -1));
  return {
    ordinates,
    minCut: mm(base - outer * slope),
    minOuter: mm(base - outer * slope),
    maxCut: mm(base + outer * slope),
    depth: mm(2 * outer * slope),
    saddleLength: mm(edgeLength(outer, outer * slope)),
    sawAngle: rad(square ? 0 : off),
    sawClock: long === null ? null : rad(long),
    curve: {
      setback,
      outer: (clock) => setback(outer, clock),
      inner: (clock) => setback(inner, clock),
      cut: (clock) => setback(outer, clock),
      gap: () => 0,
    },
  };
}

/**
 * Length of a round tube's edge of radius `r` whose set-back swings by ± `swing`: an ellipse with the half axes r and
 * a = sqrt(r² + swing²). 4 a E(m), m = 1 - (r / a)²; E by the arithmetic-geometric mean (Abramowitz and Stegun 17.6).
 */
function edgeLength(r: number, swing: number): number {
  const a = Math.hypot(r, swing);
  if (!(swing > 0)) return 2 * Math.PI * r;
  let mean = 1;
  let other = r / a;
  let sum = 1 - other * other;
  let weight = 1;
  for (let i = 0; i < 40 && Math.abs(mean - other) > 1e-16 * mean; i++) {
    const difference = (mean - other) / 2;
    const product = mean * other;
    mean = (mean + other) / 2;
    other = Math.sqrt(product);
    weight *= 2;
    sum += weight * difference * difference;
  }
  return 4 * a * (Math.PI / (2 * mean)) * (1 - sum / 2);
}
