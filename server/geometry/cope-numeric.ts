/** Small numerical tools of the cope: extremes of a function, the length of a curve. No function is called without end. */

/** The larger of two numbers, either of which may be none. */
export const larger = (a: number, b: number): number => (Number.isNaN(a) || b > a ? b : a);

/** The smaller part of the golden section. */
const SECTION = (3 - Math.sqrt(5)) / 2;
const MOST_STEPS = 100;

/**
 * Where `f` is largest between `low` and `high`, to within `tolerance`: R. P. Brent's search without derivatives
 * (Algorithms for Minimization without Derivatives, 1973, ch. 5): parabolas where they help, else golden section. Sure
 * for a function that rises, then falls, kinks included. Values that are no number count as lowest.
 */
export function peak(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
): { readonly x: number; readonly value: number } {
  const depth = (x: number): number => {
    const v = f(x);
    return Number.isNaN(v) ? Infinity : -v;
  };
  let a = low;
  let b = high;
  // x: the best so far, w: the second best, v: what w was before.
  let x = a + SECTION * (b - a);
  let w = x;
  let v = x;
  let fx = depth(x);
  let fw = fx;
  let fv = fx;
  let step = 0;
  let before = 0;
  for (let i = 0; i < MOST_STEPS; i++) {
    const middle = (a + b) / 2;
    if (!(Math.abs(x - middle) > 2 * tolerance - (b - a) / 2)) break;
    let p = 0;
    let q = 0;
    let r = 0;
    if (Math.abs(before) > tolerance) {
      r = (x - w) * (fx - fv);
      q = (x - v) * (fx - fw);
      p = (x - v) * q - (x - w) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      else q = -q;
      r = before;
      before = step;
    }
    if (Math.abs(p) < Math.abs((q * r) / 2) && p > q * (a - x) && p < q * (b - x)) {
      step = p / q;
      const u = x + step;
      if (u - a < 2 * tolerance || b - u < 2 * tolerance) step = x < middle ? tolerance : -tolerance;
    } else {
      before = (x < middle ? b : a) - x;
      step = SECTION * before;
    }
    const u = x + (Math.abs(step) >= tolerance ? step : step > 0 ? tolerance : -tolerance);
    const fu = depth(u);
    if (fu <= fx) {
      if (u < x) b = x;
      else a = x;
      v = w;
      fv = fw;
      w = x;
      fw = fx;
      x = u;
      fx = fu;
    } else {
      if (u < x) a = u;
      else b = u;
      if (fu <= fw || w === x) {
        v = w;
        fv = fw;
        w = u;
        fw = fu;
      } else if (fu <= fv || v === x || v === w) {
        v = u;
        fv = fu;
      }
    }
  }
  return { x, value: -fx };
}

/** The largest value of `f` in a stretch: the highest of evenly spread samples, refined between its neighbours. */
export function sampledMaximum(
  f: (x: number) => number,
  low: number,
  high: number,
  samples: number,
  tolerance: number,
): number {
  const step = (high - low) / samples;
  let best = NaN;
  let where = low;
  for (let i = 0; i <= samples; i++) {
    const value = f(low + i * step);
    if (!Number.isNaN(value) && !(best >= value)) {
      best = value;
      where = low + i * step;
    }
  }
  const found = peak(f, Math.max(low, where - step), Math.min(high, where + step), tolerance);
  return larger(found.value, best);
}

/** How many of the highest samples are looked at more closely. */
const CANDIDATES = 4;
/** Angle within which an extreme is found, radians: a kink with a slope of 10 diameters a radian moves it by 1e-6 mm. */
const ANGLE_TOLERANCE = 1e-9;

/**
 * The largest value of a function of a full turn that is sampled evenly in `samples` (sample i at i / n of a turn): the
 * highest few peaks among the samples, each refined. Samples that are no number are passed over; NaN if all are.
 */
export function turnMaximum(f: (angle: number) => number, samples: ArrayLike<number>): number {
  const n = samples.length;
  const step = (2 * Math.PI) / n;
  let best = NaN;
  for (let i = 0; i < n; i++) best = larger(samples[i] as number, best);
  const peaks: number[] = [];
  for (let i = 0; i < n; i++) {
    const here = samples[i] as number;
    const before = samples[(i + n - 1) % n] as number;
    const after = samples[(i + 1) % n] as number;
    if (Number.isNaN(here) || before > here || after > here) continue;
    // Between samples a crest stands above the higher of them by no more than that stands above its neighbours.
    const room = Math.max(here - before, here - after);
    if (!(here + room < best)) peaks.push(i);
  }
  peaks.sort((i, j) => (samples[j] as number) - (samples[i] as number) || i - j);
  for (const i of peaks.slice(0, CANDIDATES)) {
    best = larger(peak(f, (i - 1) * step, (i + 1) * step, ANGLE_TOLERANCE).value, best);
  }
  return best;
}

/** What the estimates of a stretch of curve may differ by, mm, and how often a stretch is halved for it. */
const LENGTH_TOLERANCE = 1e-8;
/**
 * A stretch of 4 degrees halved this often is some 3e-6 mm: what a kink hides in it is less than 1e-6, and chords are
 * still longer than the noise of heights at a grazing generator (the root of what rounding leaves: up to 1e-6), which
 * would be added up as length, and not alike on both sides of a car.
 */
const LENGTH_DEPTH = 19;
/** Halvings for one curve: enough for dozens of kinks and jumps, and an end for a curve that never settles. */
const LENGTH_BUDGET = 2000;

/**
 * Length in space of the closed curve at `radius` round an axis, `height(angle)` along it, sampled evenly in `samples`
 * (a multiple of four of them): Richardson's extrapolation of chords, halved further where that has not settled
 * (at kinks and jumps).
 */
export function curveLength(height: (angle: number) => number, samples: ArrayLike<number>, radius: number): number {
  const n = samples.length;
  const step = (2 * Math.PI) / n;
  let left = LENGTH_BUDGET;

  /** A stretch from `from`, `span` wide, whose heights at its quarters are h0 … h4. */
  const stretch = (
    from: number,
    span: number,
    h0: number,
    h1: number,
    h2: number,
    h3: number,
    h4: number,
    depth: number,
  ): number => {
    const whole = radius * 2 * Math.sin(span / 2);
    const half = radius * 2 * Math.sin(span / 4);
    const quarter = radius * 2 * Math.sin(span / 8);
    const one = side(whole, h4 - h0);
    const two = side(half, h2 - h0) + side(half, h4 - h2);
    const four = side(quarter, h1 - h0) + side(quarter, h2 - h1) + side(quarter, h3 - h2) + side(quarter, h4 - h3);
    // Chords fall short in proportion to their square: two + (two - one) / 3, then the same once finer.
    const coarse = two + (two - one) / 3;
    const fine = four + (four - two) / 3;
    if (depth >= LENGTH_DEPTH || left <= 0 || !(Math.abs(fine - coarse) > LENGTH_TOLERANCE)) return fine;
    left--;
    const middle = from + span / 2;
    const eighth = span / 8;
    return (
      stretch(from, span / 2, h0, height(from + eighth), h1, height(from + 3 * eighth), h2, depth + 1) +
      stretch(middle, span / 2, h2, height(middle + eighth), h3, height(middle + 3 * eighth), h4, depth + 1)
    );
  };

  const at = (i: number): number => samples[i % n] as number;
  let total = 0;
  for (let i = 0; i < n; i += 4) {
    total += stretch(i * step, 4 * step, at(i), at(i + 1), at(i + 2), at(i + 3), at(i + 4), 0);
  }
  return total;
}

const side = (a: number, b: number): number => Math.sqrt(a * a + b * b);
