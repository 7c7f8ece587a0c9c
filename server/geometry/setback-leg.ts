/** A straight stretch of a host: a cylinder, seen from one child's end. Closed forms only. */
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, dot, norm, scale, sub } from '../centreline/vector';
import type { ChildEnd } from './setback';
import { larger } from './cope-numeric';
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

  /** The largest exit over the wall, from radius `q` to `r`; `best` is that of its two faces. */
  most(q: number, r: number, cos: number, sin: number, best: number): number {
    const x1 = this.x[1] * cos + this.x[2] * sin;
    const y1 = this.y[1] * cos + this.y[2] * sin;
    // ds/dρ = 0: -x1 - y·y1 / √(R² - y²) = 0, the crest of the ellipse in which the generators' plane cuts the host.
    const crest = (-Math.sign(x1 * y1) * this.radius * Math.abs(x1)) / Math.sqrt(x1 * x1 + y1 * y1);
    const rho = (crest - this.y[0]) / y1;
    let most = best;
    if (rho > q && rho < r) most = larger(this.exit(rho, cos, sin), most);
    if (this.span.flatLow) most = this.mostAtRim(this.span.low, q, r, cos, sin, most);
    if (this.span.flatHigh) most = this.mostAtRim(this.span.high, q, r, cos, sin, most);
    return most;
  }

  /** The same at the radii whose generators pass through a flat's rim: (x + s sin α)² + y² = R² with s from the flat. */
  private mostAtRim(flat: number, q: number, r: number, cos: number, sin: number, best: number): number {
    if (Math.abs(this.cosine) < PARALLEL) return best;
    const slope = -(this.along[1] * cos + this.along[2] * sin) / this.cosine;
    const base = (flat - this.along[0]) / this.cosine;
    const a0 = this.x[0] + base * this.sine;
    const a1 = this.x[1] * cos + this.x[2] * sin + slope * this.sine;
    const b0 = this.y[0];
    const b1 = this.y[1] * cos + this.y[2] * sin;
    const a = a1 * a1 + b1 * b1;
    const b = a0 * a1 + b0 * b1;
    const c = a0 * a0 + b0 * b0 - this.radius * this.radius;
    const rest = b * b - a * c;
    if (!(rest >= 0) || a === 0) return best;
    const root = Math.sqrt(rest);
    let most = best;
    const one = (-b - root) / a;
    const two = (-b + root) / a;
    if (one > q && one < r) most = larger(this.exit(one, cos, sin), most);
    if (two > q && two < r) most = larger(this.exit(two, cos, sin), most);
    return most;
  }

  /** Distance between the leg's axis and the host's, both taken without end. */
  axesApart(): number {
    return this.sine > PARALLEL ? Math.abs(this.y[0]) : Math.sqrt(this.x[0] * this.x[0] + this.y[0] * this.y[0]);
  }

  /** Distance to the solid, negative inside; a border without a flat is rounded, since its neighbour goes on there. */
  clearance(p: Vec3): number {
    const { low, high, flatLow, flatHigh } = this.span;
    const { from, direction: d } = this;
    // Written out: this is asked more often than anything else but exits.
    const x = p[0] - from[0];
    const y = p[1] - from[1];
    const z = p[2] - from[2];
    const along = x * d[0] + y * d[1] + z * d[2];
    const bx = x - along * d[0];
    const by = y - along * d[1];
    const bz = z - along * d[2];
    const radial = Math.sqrt(bx * bx + by * by + bz * bz) - this.radius;
    const beyond = along < low ? low - along : along - high;
    if (beyond > 0) {
      if (along < low ? flatLow : flatHigh) return corner(beyond, radial);
      return Math.sqrt(beyond * beyond + (radial + this.radius) ** 2) - this.radius;
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
    const beside = addScaled(rel, this.direction, -along);
    return { distance: Math.sqrt(dot(beside, beside)), along };
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
export const corner = (beyond: number, radial: number): number =>
  radial > 0 ? Math.sqrt(beyond * beyond + radial * radial) : beyond;

/** Some unit vector across `d`. */
function anyAcross(d: Vec3): Vec3 {
  const other: Vec3 = Math.abs(d[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const across = cross(d, other);
  const size = norm(across);
  return size > 0 ? scale(across, 1 / size) : [0, 0, 1];
}
