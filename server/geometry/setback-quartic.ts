/** The quartic t⁴ + p t² + q t + r: where it turns, and where it rises through zero. */

/**
 * Zeros of the derivative 4t³ + 2pt + q, one or three, written to `into`, the largest first; returns how many
 * (trigonometric and hyperbolic forms, Viète).
 */
export function turningPoints(p: number, q: number, into: Float64Array): number {
  // t³ + a t + b
  const a = p / 2;
  const b = q / 4;
  const discriminant = (b * b) / 4 + (a * a * a) / 27;
  if (discriminant < 0) {
    const size = 2 * Math.sqrt(-a / 3);
    const third = Math.acos(Math.max(-1, Math.min(1, (3 * b) / (a * size)))) / 3;
    into[0] = polish(size * Math.cos(third), a, b);
    into[1] = polish(size * Math.cos(third - (2 * Math.PI) / 3), a, b);
    into[2] = polish(size * Math.cos(third - (4 * Math.PI) / 3), a, b);
    return 3;
  }
  const root = Math.sqrt(discriminant);
  // The cube root of the larger of the two numbers loses nothing to cancellation; the other follows from it.
  const one = Math.cbrt(b > 0 ? -b / 2 - root : -b / 2 + root);
  into[0] = polish(one === 0 ? 0 : one - a / (3 * one), a, b);
  return 1;
}

/** One Newton step on t³ + a t + b, taken only where it makes the value smaller. */
function polish(t: number, a: number, b: number): number {
  const value = (t * t + a) * t + b;
  const next = t - value / (3 * t * t + a);
  return Math.abs((next * next + a) * next + b) < Math.abs(value) ? next : t;
}

/**
 * The zero of a quartic that is negative at `low` and not negative at `high` and rises all the way between: Newton from
 * `guess`, kept between brackets by bisection.
 */
export function risingZero(p: number, q: number, r: number, low: number, high: number, guess: number): number {
  let a = low;
  let b = high;
  let t = guess > a && guess < b ? guess : (a + b) / 2;
  for (let i = 0; i < 100; i++) {
    const t2 = t * t;
    const value = (t2 + p) * t2 + q * t + r;
    if (value < 0) a = t;
    else b = t;
    let next = t - value / ((4 * t2 + 2 * p) * t + q);
    if (!(next > a && next < b)) next = (a + b) / 2;
    if (Math.abs(next - t) <= 1e-13 * (1 + Math.abs(next)) || next === t) return next;
    t = next;
  }
  return t;
}
