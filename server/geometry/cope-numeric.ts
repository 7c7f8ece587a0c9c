/** Small numerical tools of the cope: extremes of a function, the length of a curve. No function is called without end. */

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Where `f` is largest between `low` and `high`, by golden section: exact for a function that rises, then falls, kinks
 * included. Values that are no number count as lowest.
 */
export function goldenMaximum(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
): { readonly x: number; readonly value: number } {
  const value = (x: number): number => {
    const v = f(x);
    return !Number.isNaN(v) ? v : -Infinity;
  };
  let a = low;
  let b = high;
  let x1 = b - GOLDEN * (b - a);
  let x2 = a + GOLDEN * (b - a);
  let f1 = value(x1);
  let f2 = value(x2);
  for (let i = 0; i < 80 && b - a > tolerance; i++) {
    if (f1 >= f2) {
      b = x2;
      x2 = x1;
      f2 = f1;
      x1 = b - GOLDEN * (b - a);
      f1 = value(x1);
    } else {
      a = x1;
      x1 = x2;
      f1 = f2;
      x2 = a + GOLDEN * (b - a);
      f2 = value(x2);
    }
  }
  return f1 >= f2 ? { x: x1, value: f1 } : { x: x2, value: f2 };
}

/** How many of the highest samples are looked at more closely. */
const CANDIDATES = 4;
/** Angle within which an extreme is found, radians: a slope of 10 diameters a radian moves it by less than 1e-6 mm. */
const ANGLE_TOLERANCE = 1e-10;

/**
 * The largest value of a function of a full turn that is sampled evenly in `samples` (sample i at i / n of a turn): the
 * highest few peaks among the samples, each refined. Samples that are no number are passed over; NaN if all are.
 */
export function turnMaximum(f: (angle: number) => number, samples: ArrayLike<number>): number {
  const n = samples.length;
  const step = (2 * Math.PI) / n;
  const peaks: number[] = [];
  let best = NaN;
  for (let i = 0; i < n; i++) {
    const here = samples[i] as number;
    if (Number.isNaN(here)) continue;
    if (!(best >= here)) best = here;
    const before = samples[(i + n - 1) % n] as number;
    const after = samples[(i + 1) % n] as number;
    if (!(before > here) && !(after > here)) peaks.push(i);
  }
  peaks.sort((i, j) => (samples[j] as number) - (samples[i] as number) || i - j);
  for (const i of peaks.slice(0, CANDIDATES)) {
    const found = goldenMaximum(f, (i - 1) * step, (i + 1) * step, ANGLE_TOLERANCE);
    if (found.value > best) best = found.value;
  }
  return best;
}

/** What the estimates of a stretch of curve may differ by, mm, and how often a stretch is halved for it. */
const LENGTH_TOLERANCE = 1e-8;
const LENGTH_DEPTH = 26;
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
