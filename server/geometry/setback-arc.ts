/** A bent stretch of a host: a sector of a torus, seen from one child's end. */
import type { Arc } from '../centreline/centreline';
import type { Vec3 } from '../centreline/vector';
import { dot, scale, sub } from '../centreline/vector';
import { arcPoint, arcTangent } from '../centreline/piece';
import type { ChildEnd } from './setback';
import { NEAR_MISS } from './setback';
import type { Flat, Span } from './setback-leg';
import { BORDER, corner } from './setback-leg';
import { risingZero, turningPoints } from './setback-quartic';

/** Newton steps on the true distance after the quartic, and what may then be left, mm. */
const POLISH_STEPS = 3;
const ON_SURFACE = 1e-6;

/**
 * Coordinates: from the bend's centre, along `fromCentre`, `tangent` and `axis`. A point at (x, y, z) lies
 * √((√(x² + y²) - M)² + z²) from the centreline of radius M, at the angle atan2(y, x) of the bend.
 */
export class ArcBody {
  private readonly origin: Vec3;
  private readonly away: Vec3;
  private readonly zero: Vec3;
  private readonly quarter: Vec3;
  private readonly bend: number;
  private readonly cosMiddle: number;
  private readonly sinMiddle: number;
  /** Of the generator that is looked at: a point of it, its quartic, and where the quartic turns. */
  private px = 0;
  private py = 0;
  private pz = 0;
  private p = 0;
  private q = 0;
  private r = 0;
  private readonly turning = new Float64Array(3);

  constructor(
    private readonly child: ChildEnd,
    private readonly arc: Arc,
    private readonly radius: number,
    /** mm along the arc. */
    readonly span: Span,
  ) {
    const seen = (v: Vec3): Vec3 => [dot(v, arc.fromCentre), dot(v, arc.tangent), dot(v, arc.axis)];
    this.origin = seen(sub(child.origin, arc.centre));
    this.away = seen(child.away);
    this.zero = seen(child.zero);
    this.quarter = seen(child.quarter);
    this.bend = arc.radius;
    this.cosMiddle = Math.cos(arc.angle / 2);
    this.sinMiddle = Math.sin(arc.angle / 2);
  }

  get start(): number {
    return this.arc.start;
  }

  /** Last exit; NaN without one in the span and below the limit. */
  exit(rho: number, cos: number, sin: number): number {
    const shift = this.aim(rho, cos, sin);
    this.write();
    const { p, q, r, turning } = this;
    const count = turningPoints(p, q, turning);
    let best = NaN;
    const last = turning[0] as number;
    const atLast = this.value(last);
    if (atLast < 0) {
      // Beyond the last minimum the quartic curves upward ever more: the parabola there hits zero late.
      const guess = last + Math.sqrt((-2 * atLast) / (12 * last * last + 2 * p));
      best = this.exitAt(risingZero(p, q, r, last, Math.max(last, this.bend + this.radius) + 1, guess), shift);
    }
    if (count === 3 && Number.isNaN(best)) {
      const low = turning[2] as number;
      const high = turning[1] as number;
      if (this.value(low) < 0 && this.value(high) >= 0) {
        best = this.exitAt(risingZero(p, q, r, low, high, (low + high) / 2), shift);
      }
    }
    if (this.span.flatLow || this.span.flatHigh) best = this.flatExit(best, shift);
    return best;
  }

  /** Closest approach of a generator that misses the torus by {@link NEAR_MISS} or less, beside the span; else NaN. */
  approach(rho: number, cos: number, sin: number): number {
    const shift = this.aim(rho, cos, sin);
    this.write();
    const count = turningPoints(this.p, this.q, this.turning);
    let best = NaN;
    let least = NEAR_MISS;
    for (let i = 0; i < count; i++) {
      const t = this.nearest(this.turning[i] as number);
      const miss = this.miss(t);
      // Where it does not miss, the exit was told, or does not count.
      if (miss > -1e-7 && miss <= least && this.counts(t) && t + shift < this.child.limit) {
        least = miss;
        best = t + shift;
      }
    }
    return best;
  }

  /** Distance to the solid, negative inside; a border without a flat is rounded, since its neighbour goes on there. */
  clearance(p: Vec3): number {
    const at = this.local(p);
    const along = this.along(at[0], at[1]);
    const { low, high, flatLow, flatHigh } = this.span;
    if (along < low || along > high) {
      const beyondLow = along < low;
      const edge = beyondLow ? low : high;
      const distance = this.toPoint(at, edge);
      if (!(beyondLow ? flatLow : flatHigh)) return distance - this.radius;
      const angle = edge / this.bend;
      const beyond = Math.abs(at[1] * Math.cos(angle) - at[0] * Math.sin(angle));
      return corner(beyond, Math.sqrt(Math.max(0, distance * distance - beyond * beyond)) - this.radius);
    }
    const out = Math.sqrt(at[0] * at[0] + at[1] * at[1]) - this.bend;
    const radial = Math.sqrt(out * out + at[2] * at[2]) - this.radius;
    return Math.max(radial, flatLow ? low - along : -Infinity, flatHigh ? along - high : -Infinity);
  }

  /** Distance to the axis within the span, and how far along it; flats do not count with `unbound`. */
  axis(p: Vec3, unbound: boolean): { readonly distance: number; readonly along: number } {
    const at = this.local(p);
    const low = unbound && this.span.flatLow ? 0 : this.span.low;
    const high = unbound && this.span.flatHigh ? this.arc.length : this.span.high;
    const along = Math.min(Math.max(this.along(at[0], at[1]), low), high);
    return { distance: this.toPoint(at, along), along };
  }

  flats(): readonly Flat[] {
    const found: Flat[] = [];
    const add = (along: number, sense: number): void => {
      const angle = along / this.bend;
      found.push({ centre: arcPoint(this.arc, angle), outward: scale(arcTangent(this.arc, angle), sense) });
    };
    if (this.span.flatLow) add(this.span.low, -1);
    if (this.span.flatHigh) add(this.span.high, 1);
    return found;
  }

  private local(p: Vec3): Vec3 {
    const rel = sub(p, this.arc.centre);
    return [dot(rel, this.arc.fromCentre), dot(rel, this.arc.tangent), dot(rel, this.arc.axis)];
  }

  /** mm along the bend at which (x, y) lies: the turn nearest to the middle of the bend. */
  private along(x: number, y: number): number {
    const { cosMiddle: c, sinMiddle: s } = this;
    return (this.arc.angle / 2 + Math.atan2(y * c - x * s, x * c + y * s)) * this.bend;
  }

  private toPoint(at: Vec3, along: number): number {
    const angle = along / this.bend;
    return Math.hypot(at[0] - this.bend * Math.cos(angle), at[1] - this.bend * Math.sin(angle), at[2]);
  }

  /** Takes up a generator; its point nearest to the bend's centre becomes t = 0, and that point's set-back is returned. */
  private aim(rho: number, cos: number, sin: number): number {
    const { origin: o, zero: z, quarter: w, away: u } = this;
    const c = rho * cos;
    const s = rho * sin;
    const x = o[0] + c * z[0] + s * w[0];
    const y = o[1] + c * z[1] + s * w[1];
    const k = o[2] + c * z[2] + s * w[2];
    const back = -(x * u[0] + y * u[1] + k * u[2]);
    this.px = x + back * u[0];
    this.py = y + back * u[1];
    this.pz = k + back * u[2];
    return back;
  }

  /** (|P|² + M² - R²)² = 4 M² (x² + y²) along the generator, written out: t⁴ + p t² + q t + r = 0. */
  private write(): void {
    const { px, py, pz } = this;
    const w = this.away[2];
    const flat = px * px + py * py;
    const m = this.bend;
    const g = flat + pz * pz + m * m - this.radius * this.radius;
    this.p = 2 * g - 4 * m * m * (1 - w * w);
    this.q = 8 * m * m * pz * w;
    this.r = g * g - 4 * m * m * flat;
  }

  private value(t: number): number {
    return ((t * t + this.p) * t + this.q) * t + this.r;
  }

  /** The set-back of the zero at t, polished, where it is an exit that counts; else NaN. */
  private exitAt(t: number, shift: number): number {
    const at = this.polish(t);
    return at + shift < this.child.limit && this.rate(at) > 0 && this.counts(at) ? at + shift : NaN;
  }

  /** By how much the generator's point at t misses the torus. */
  private miss(t: number): number {
    const x = this.px + t * this.away[0];
    const y = this.py + t * this.away[1];
    const z = this.pz + t * this.away[2];
    const out = Math.sqrt(x * x + y * y) - this.bend;
    return Math.sqrt(out * out + z * z) - this.radius;
  }

  /** Half the derivative by t of the squared distance to the bend's centreline circle. */
  private rate(t: number): number {
    const u = this.away;
    const x = this.px + t * u[0];
    const y = this.py + t * u[1];
    const z = this.pz + t * u[2];
    const flat = Math.sqrt(x * x + y * y);
    return flat === 0 ? z * u[2] : ((flat - this.bend) * (x * u[0] + y * u[1])) / flat + z * u[2];
  }

  /** Newton on the true distance, which keeps its digits where the quartic's coefficients do not. */
  private polish(t: number): number {
    let at = t;
    for (let i = 0; i < POLISH_STEPS; i++) {
      const miss = this.miss(at);
      const step = (miss * (miss + this.radius)) / this.rate(at);
      if (!(Math.abs(step) < 1)) return at;
      at -= step;
      if (Math.abs(step) < 1e-12) break;
    }
    return at;
  }

  /** The local minimum of the distance near `t`, by bisection of its rate. */
  private nearest(t: number): number {
    let width = 1e-3;
    while (width < 4 * this.radius && !(this.rate(t - width) < 0 && this.rate(t + width) > 0)) width *= 4;
    let low = t - width;
    let high = t + width;
    if (!(this.rate(low) < 0 && this.rate(high) > 0)) return t;
    for (let i = 0; i < 60 && high - low > 1e-12; i++) {
      const middle = (low + high) / 2;
      if (this.rate(middle) < 0) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }

  /** A point of the generator lies beside the span, and on or near the tube (not on the torus's other, inner sheet). */
  private counts(t: number): boolean {
    const x = this.px + t * this.away[0];
    const y = this.py + t * this.away[1];
    const along = this.along(x, y);
    return along >= this.span.low - BORDER && along <= this.span.high + BORDER && this.miss(t) < NEAR_MISS + ON_SURFACE;
  }

  /** The last exit through a flat, where that is later than `best`. */
  private flatExit(best: number, shift: number): number {
    let found = best;
    const offer = (along: number, sense: number): void => {
      const angle = along / this.bend;
      const c = Math.cos(angle);
      const s = Math.sin(angle);
      const speed = this.away[1] * c - this.away[0] * s;
      if (!(speed * sense > 0)) return;
      const t = -(this.py * c - this.px * s) / speed;
      if (!(t + shift < this.child.limit) || found >= t + shift) return;
      const at: Vec3 = [this.px + t * this.away[0], this.py + t * this.away[1], this.pz + t * this.away[2]];
      if (this.toPoint(at, along) <= this.radius) found = t + shift;
    };
    if (this.span.flatLow) offer(this.span.low, -1);
    if (this.span.flatHigh) offer(this.span.high, 1);
    return found;
  }
}
