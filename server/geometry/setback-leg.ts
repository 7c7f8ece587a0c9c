/** A straight stretch of a host: a cylinder, seen from one child's end. Closed forms only. */
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, dot, norm, scale, sub } from '../centreline/vector';
import type { ChildEnd } from './setback';
import { NEAR_MISS } from './setback';

/** A stretch of a host, measured along it; where it ends in a flat, that flat is part of its surface. */
export interface Span {
  readonly low: number;
  readonly high: number;
  readonly flatLow: boolean;
  readonly flatHigh: boolean;
}

/** The disc in which a host is cut off. */
export interface Flat {
  readonly centre: Vec3;
  /** Unit normal out of the solid. */
  readonly outward: Vec3;
}

/** Two stretches of a host share their border; what rounding may put between them, mm. */
export const BORDER = 1e-9;
/** Below this sine a child runs along its host and leaves it only through a flat. */
const PARALLEL = 1e-12;

/**
 * The coordinates in use: axis 3 runs along the host, axis 1 across it in the plane of host and leg, axis 2 across both.
 * So u = (sin α, 0, cos α), a generator keeps its distance y from axis 3 in direction 2, and leaves the cylinder at
 * s = (-x + √(R² - y²)) / sin α.
 */
export class LegBody {
  private readonly sine: number;
  private readonly cosine: number;
  private readonly x: Three;
  private readonly y: Three;
  private readonly along: Three;

  constructor(
    private readonly child: ChildEnd,
    /** A point of the axis, from which the span is measured, and the axis. */
    private readonly from: Vec3,
    private readonly direction: Vec3,
    private readonly radius: number,
    readonly span: Span,
    /** Host station of the point `from`. */
    readonly start: number,
  ) {
    const u = child.away;
    const across = cross(direction, u);
    this.sine = norm(across);
    this.cosine = dot(direction, u);
    const two = this.sine > PARALLEL ? scale(across, 1 / this.sine) : anyAcross(direction);
    const one = cross(two, direction);
    const e = sub(child.origin, from);
    const seen = (axis: Vec3): Three => [dot(e, axis), dot(child.zero, axis), dot(child.quarter, axis)];
    this.x = seen(one);
    this.y = seen(two);
    this.along = seen(direction);
  }

  /** Sine of the angle between leg and host. */
  get sineOfAngle(): number {
    return this.sine;
  }

  /** Last exit; NaN without one in the span and below the limit. */
  exit(rho: number, cos: number, sin: number): number {
    const x = of(this.x, rho, cos, sin);
    const y = of(this.y, rho, cos, sin);
    const rest = this.radius * this.radius - y * y;
    if (!(rest >= 0)) return NaN;
    let enter = -Infinity;
    let exit = Infinity;
    if (this.sine > PARALLEL) {
      const half = Math.sqrt(rest);
      enter = (-x - half) / this.sine;
      exit = (-x + half) / this.sine;
    } else if (x * x > rest) return NaN;
    const along = of(this.along, rho, cos, sin);
    const { low, high, flatLow, flatHigh } = this.span;
    if (flatLow) {
      const at = (low - along) / this.cosine;
      if (this.cosine > 0) enter = Math.max(enter, at);
      else if (this.cosine < 0) exit = Math.min(exit, at);
      else if (along < low) return NaN;
    }
    if (flatHigh) {
      const at = (high - along) / this.cosine;
      if (this.cosine > 0) exit = Math.min(exit, at);
      else if (this.cosine < 0) enter = Math.max(enter, at);
      else if (along > high) return NaN;
    }
    if (!(enter <= exit) || !(exit < this.child.limit)) return NaN;
    const station = along + exit * this.cosine;
    return station >= low - BORDER && station <= high + BORDER ? exit : NaN;
  }

  /** Closest approach of a generator that misses the cylinder by {@link NEAR_MISS} or less, beside the span; else NaN. */
  approach(rho: number, cos: number, sin: number): number {
    const y = Math.abs(of(this.y, rho, cos, sin));
    if (!(y > this.radius) || y > this.radius + NEAR_MISS || this.sine <= PARALLEL) return NaN;
    const at = -of(this.x, rho, cos, sin) / this.sine;
    if (!(at < this.child.limit)) return NaN;
    const station = of(this.along, rho, cos, sin) + at * this.cosine;
    return station >= this.span.low - BORDER && station <= this.span.high + BORDER ? at : NaN;
  }

  /** Radii at which the set-back over the wall may be largest, besides the wall's own two. */
  peaks(cos: number, sin: number): readonly number[] {
    const x1 = this.x[1] * cos + this.x[2] * sin;
    const y1 = this.y[1] * cos + this.y[2] * sin;
    const found: number[] = [];
    // ds/dρ = 0: -x1 - y·y1 / √(R² - y²) = 0, the crest of the ellipse in which the generators' plane cuts the host.
    const crest = (-Math.sign(x1 * y1) * this.radius * Math.abs(x1)) / Math.hypot(x1, y1);
    found.push((crest - this.y[0]) / y1);
    if (this.span.flatLow) this.rims(this.span.low, cos, sin, x1, y1, found);
    if (this.span.flatHigh) this.rims(this.span.high, cos, sin, x1, y1, found);
    return found;
  }

  /** Radii whose generators pass through the rim of a flat: (x + s sin α)² + y² = R² with s given by the flat. */
  private rims(flat: number, cos: number, sin: number, x1: number, y1: number, found: number[]): void {
    if (Math.abs(this.cosine) < PARALLEL) return;
    const slope = -(this.along[1] * cos + this.along[2] * sin) / this.cosine;
    const base = (flat - this.along[0]) / this.cosine;
    const a0 = this.x[0] + base * this.sine;
    const a1 = x1 + slope * this.sine;
    const b0 = this.y[0];
    const a = a1 * a1 + y1 * y1;
    const b = a0 * a1 + b0 * y1;
    const c = a0 * a0 + b0 * b0 - this.radius * this.radius;
    const rest = b * b - a * c;
    if (!(rest >= 0) || a === 0) return;
    const root = Math.sqrt(rest);
    found.push((-b - root) / a, (-b + root) / a);
  }

  /** Distance to the solid, negative inside; a border without a flat is rounded, since its neighbour goes on there. */
  clearance(p: Vec3): number {
    const { low, high, flatLow, flatHigh } = this.span;
    const rel = sub(p, this.from);
    const along = dot(rel, this.direction);
    const radial = norm(addScaled(rel, this.direction, -along)) - this.radius;
    if (along < low)
      return flatLow ? corner(low - along, radial) : Math.hypot(low - along, radial + this.radius) - this.radius;
    if (along > high) {
      return flatHigh ? corner(along - high, radial) : Math.hypot(along - high, radial + this.radius) - this.radius;
    }
    return Math.max(radial, flatLow ? low - along : -Infinity, flatHigh ? along - high : -Infinity);
  }

  /** Distance to the axis within the span, and how far along it; flats do not count. */
  axis(p: Vec3, unbound: boolean): { readonly distance: number; readonly along: number } {
    const rel = sub(p, this.from);
    const raw = dot(rel, this.direction);
    const low = unbound && this.span.flatLow ? -Infinity : this.span.low;
    const high = unbound && this.span.flatHigh ? Infinity : this.span.high;
    const along = Math.min(Math.max(raw, low), high);
    return { distance: norm(addScaled(rel, this.direction, -along)), along };
  }

  flats(): readonly Flat[] {
    const { low, high, flatLow, flatHigh } = this.span;
    const found: Flat[] = [];
    if (flatLow) found.push({ centre: addScaled(this.from, this.direction, low), outward: scale(this.direction, -1) });
    if (flatHigh) found.push({ centre: addScaled(this.from, this.direction, high), outward: this.direction });
    return found;
  }
}

/** A coordinate of E, and what clock 0 and clock 90 degrees add to it for each mm of radius. */
type Three = readonly [number, number, number];

const of = (k: Three, rho: number, cos: number, sin: number): number => k[0] + rho * (k[1] * cos + k[2] * sin);

/** Distance to a flat's disc from beyond it. */
export const corner = (beyond: number, radial: number): number => (radial > 0 ? Math.hypot(beyond, radial) : beyond);

/** Some unit vector across `d`. */
function anyAcross(d: Vec3): Vec3 {
  const other: Vec3 = Math.abs(d[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const across = cross(d, other);
  const size = norm(across);
  return size > 0 ? scale(across, 1 / size) : [0, 0, 1];
}
