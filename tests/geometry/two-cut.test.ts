/** Two-cut starts: never past the true curve, no worse than brute force, and as the trade saws equal tubes. */
import { describe, expect, it } from 'vitest';
import { mm, rad } from '../../grammar/units';
import { addScaled, cross, unit } from '../../server/centreline/vector';
import { cope } from '../../server/geometry/cope';
import type { CopedEnd, FlatCut, FlatStart, TwoCut } from '../../server/geometry/two-cut';
import { settable, twoCut, WORTH_A_CUT } from '../../server/geometry/two-cut';
import type { ChildEnd, Host } from '../../server/geometry/setback';
import { bentOnce, between, endOf, leaning, line, pointAt, random, through } from './joint-maker';

const turn = (degrees: number): number => (degrees * Math.PI) / 180;
const inDegrees = (angle: number): number => (angle * 180) / Math.PI;
const INCH = 25.4;
const straight = line([
  [0, -600, 0],
  [0, 600, 0],
]);

/** An end as a saw sees it; null where its cope cannot be made. */
function sawnEnd(child: ChildEnd, hosts: readonly Host[]): CopedEnd | null {
  const made = cope(child, hosts);
  const { outerRadius, innerRadius } = child;
  if (made.minCut === null || made.maxCut === null) return null;
  return { curve: made.curve, outerRadius, innerRadius, minCut: made.minCut };
}

/** The plane of a cut, from nothing but what the paper says: angle off square, clock, and where its mark is. */
function setbackOn(cut: FlatCut, end: CopedEnd, rho: number, clock: number): number {
  const mark = end.minCut + cut.fromLongPoint;
  return mark + Math.tan(cut.angle) * (rho * Math.cos(clock - (cut.deepClock ?? 0)) - end.outerRadius);
}

/** At every half degree, and at 9 places through the wall: by how much the cuts go past the curve, and what they leave. */
function measured(start: FlatStart, end: CopedEnd, wallSteps = 8): { past: number; left: number } {
  let past = -Infinity;
  let left = -Infinity;
  for (let i = 0; i < 720; i++) {
    const clock = turn(i / 2);
    const cut = end.curve.cut(clock) ?? NaN;
    for (let k = 0; k <= wallSteps; k++) {
      const rho = end.innerRadius + ((end.outerRadius - end.innerRadius) * k) / wallSteps;
      const deepest = Math.max(...start.cuts.map((flat) => setbackOn(flat, end, rho, clock)));
      past = Math.max(past, deepest - cut);
      left = Math.max(left, cut - deepest);
    }
  }
  return { past, left };
}

/** A joint at random: a straight or bent host, beside it or on it, at times a second one. */
function anyJoint(roll: () => number): CopedEnd {
  for (;;) {
    const R = between(roll, 15, 30);
    const r = R * between(roll, 0.4, 1);
    const wall = r * between(roll, 0.06, 0.3);
    const bent = roll() < 0.4;
    const host = bent ? bentOnce(roll, between(roll, 3, 5) * R) : straight;
    const station = host.length * between(roll, 0.4, 0.6);
    const { point, tangent } = pointAt(host, station);
    const away = leaning(roll, tangent, turn(between(roll, 35, 145)));
    const aside = unit(cross(tangent, away));
    const origin = addScaled(point, aside, between(roll, -1, 1) * (R - r));
    const hosts: Host[] = [through(host, R, station)];
    if (roll() < 0.3) {
      const second = leaning(roll, tangent, turn(between(roll, 30, 90)));
      const other = line([addScaled(point, second, -400), addScaled(point, second, 400)]);
      hosts.push(through(other, R * between(roll, 0.6, 1), 400));
    }
    const end = sawnEnd(endOf(origin, away, r, wall, 350), hosts);
    if (end !== null) return end;
  }
}

const known = (end: CopedEnd | null, reach?: number): { end: CopedEnd; cuts: TwoCut } => {
  const cuts = end === null ? null : twoCut(end, reach);
  if (end === null || cuts === null) throw new Error('this joint was meant to be sound');
  return { end, cuts };
};

describe('never past the true curve', () => {
  it('500 joints at random, pair and single, as computed and as a saw is set', () => {
    const roll = random(71);
    for (let i = 0; i < 500; i++) {
      const { end, cuts } = known(anyJoint(roll));
      for (const start of [cuts.pair, cuts.single]) {
        const { past, left } = measured(start, end, 4);
        expect(past).toBeLessThan(0);
        expect(left).toBeLessThan(start.left + 1e-4);
        // Half degrees see almost all of it: a kink between two of them hides a little.
        expect(left).toBeGreaterThan(start.left - 0.5);
        for (const { angle } of start.cuts) expect(angle).toBeLessThanOrEqual(turn(45) + 1e-9);
      }
      expect(cuts.pair.left).toBeLessThanOrEqual(cuts.single.left);
      expect(cuts.pair.leftSquared).toBeLessThanOrEqual(cuts.pair.left);
      expect(cuts.better === 'single').toBe(cuts.single.left - cuts.pair.left < WORTH_A_CUT);
      const set = settable(end, cuts.pair, turn(0.5), turn(1));
      expect(set === null ? NaN : measured(set, end, 2).past).toBeLessThan(0);
      // As a tape is read: whole thirty-seconds of an inch from the long point, and what those leave.
      const taped = settable(end, cuts.pair, turn(0.5), turn(1), turn(45), INCH / 32);
      const marks = taped?.cuts.map(({ fromLongPoint }) => (fromLongPoint / INCH) * 32) ?? [NaN];
      for (const mark of marks) expect(Math.abs(mark - Math.round(mark))).toBeLessThan(1e-6);
      const found = taped === null ? { past: NaN, left: NaN } : measured(taped, end, 2);
      expect(found.past).toBeLessThan(1e-9);
      expect(found.left).toBeLessThan((taped?.left ?? NaN) + 1e-4);
      expect(taped?.left).toBeLessThan((set?.left ?? NaN) + INCH / 32);
    }
  });
});

/** A joint whose curve jumps by several diameters (its host curves back along it) is nobody's two-cut start. */
function shallow(roll: () => number): CopedEnd {
  for (;;) {
    const end = anyJoint(roll);
    const cuts = Array.from({ length: 72 }, (_, i) => end.curve.cut(turn(5 * i)) ?? NaN);
    if (Math.max(...cuts) - Math.min(...cuts) < 8 * end.outerRadius) return end;
  }
}

/** Of all pairs of planes of a grid (every 3 degrees off square, every 10 of the clock) the one that leaves least. */
function bruteForce(end: CopedEnd, reach: number): FlatStart {
  const clocks = Array.from({ length: 72 }, (_, i) => turn(5 * i));
  const radii = [end.innerRadius, (end.innerRadius + end.outerRadius) / 2, end.outerRadius];
  const cuts = clocks.map((clock) => end.curve.cut(clock) ?? NaN);
  const planes: Float64Array[] = [];
  const flats: FlatCut[] = [];
  for (let off = 0; off <= reach + 1e-9; off += turn(3)) {
    for (let k = 0; k < (off === 0 ? 1 : 36); k++) {
      const rests: number[] = [];
      for (const [i, clock] of clocks.entries()) {
        for (const rho of radii) {
          rests.push((cuts[i] as number) - Math.tan(off) * rho * Math.cos(clock - turn(10 * k)));
        }
      }
      const least = Math.min(...rests);
      planes.push(Float64Array.from(rests, (rest) => rest - least));
      const swing = end.outerRadius * Math.tan(off);
      const [deep, shallow] = [mm(least + swing), mm(least - swing)];
      const fromLongPoint = mm(deep - end.minCut);
      flats.push({ angle: rad(off), deepClock: rad(turn(10 * k)), deep, shallow, fromLongPoint });
    }
  }
  let best = Infinity;
  let pair: readonly FlatCut[] = [];
  for (let i = 0; i < planes.length; i++) {
    const a = planes[i] as Float64Array;
    for (let j = i; j < planes.length; j++) {
      const b = planes[j] as Float64Array;
      let most = 0;
      for (let k = 0; k < a.length && most < best; k++) most = Math.max(most, Math.min(a[k] as number, b[k] as number));
      if (most < best) {
        best = most;
        pair = [flats[i], flats[j]].flatMap((flat) => flat ?? []);
      }
    }
  }
  return { cuts: pair, left: mm(best), leftClock: rad(0), leftSquared: mm(best) };
}

describe('the least to grind', () => {
  it('no pair of a grid of angles and clocks leaves less', () => {
    const roll = random(72);
    let gain = 0;
    for (let i = 0; i < 40; i++) {
      const { end, cuts } = known(shallow(roll));
      const { past, left } = measured(bruteForce(end, turn(45)), end);
      // The grid touches the curve at every 5 degrees only: where it goes past between them, it has to stand back.
      const brute = left + Math.max(0, past);
      // The clearance of a hundredth that the pair keeps, and a hair.
      expect(cuts.pair.left).toBeLessThan(brute + 0.02);
      gain += Math.min(1, (brute - cuts.pair.left) / cuts.pair.left);
    }
    // A grid this coarse comes near: both search the same thing.
    expect(gain / 40).toBeLessThan(0.2);
  });
});

/** Equal tubes; the child leans by `lean` from square. Clock 90 points along the host. */
function equal(od: number, wall: number, lean = 0): CopedEnd | null {
  const away = [Math.cos(turn(lean)), Math.sin(turn(lean)), 0] as const;
  return sawnEnd(endOf([0, 0, 0], away, od / 2, wall, 400), [through(straight, od / 2, 600)]);
}

// Pairs for a chop saw, equal tubes at 90 degrees: 2.0 in 30, 1.75 in 28, 1.5 in 26 degrees; a trade forum
// (ck5.com, "chop saw tube notching"), which names no wall. .095 and .120 are the usual ones.
describe('published chop-saw pairs', () => {
  const published = [
    [2.0, 30],
    [1.75, 28],
    [1.5, 26],
  ] as const;

  it.each(published)('%d in: %d degrees is the chord of the true cut, ear to throat, on the outside', (od, angle) => {
    // Ear: across the host; throat: along it, half a diameter away. So they hold on the outer line of a cut that clears
    // the bore, not on the mid-wall curve, whose chord is 4 degrees and more steeper.
    const chord = (wall: number): number => {
      const { end } = known(equal(od * INCH, wall * INCH));
      const rise = (end.curve.cut(turn(90)) ?? NaN) - (end.curve.cut(0) ?? NaN);
      return inDegrees(Math.atan(rise / end.outerRadius));
    };
    expect(angle).toBeGreaterThan(chord(0.12) - 0.2);
    expect(angle).toBeLessThan(chord(0.095) + 0.2);
    const R = od / 2;
    const m = R - 0.12 / 2;
    expect(inDegrees(Math.atan((R - Math.sqrt(R * R - m * m)) / m))).toBeGreaterThan(angle + 4);
  });

  it.each(published)(
    '%d in: at %d degrees, set where it is safe, hardly more is left than at the best',
    (od, angle) => {
      for (const wall of [0.095, 0.12]) {
        const { end, cuts } = known(equal(od * INCH, wall * INCH));
        expect(cuts.better).toBe('pair');
        const [a, b] = cuts.pair.cuts as [FlatCut, FlatCut];
        expect(inDegrees(a.deepClock ?? NaN)).toBeCloseTo(90, 4);
        expect(inDegrees(b.deepClock ?? NaN)).toBeCloseTo(270, 4);
        expect(a.angle).toBeCloseTo(b.angle, 6);
        expect(Math.abs(inDegrees(a.angle) - angle)).toBeLessThan(4.5);
        // Slope of the best pair, worked out by hand: what is left at the ear (c0 - a) equals what is left in the bore at the
        // throat (R - a - b q), so b = (R - c0) / q with c0 = sqrt(R² - q²).
        const R = end.outerRadius;
        const q = end.innerRadius;
        expect(Math.tan(a.angle)).toBeCloseTo((R - Math.sqrt(R * R - q * q)) / q, 3);
        const as = settable(end, cuts.pair, turn(angle), turn(1));
        expect((as?.left ?? NaN) - cuts.pair.left).toBeLessThan(0.03 * od * INCH);
        expect(as === null ? NaN : measured(as, end).past).toBeLessThan(0);
      }
    },
  );

  // The same forum: where the joint leans by a, one cut at -a, the other at +a of the square joint's angle.
  // It is a rule of thumb: the slopes are b / cos a - tan a and b / cos a + tan a, 4 degrees steeper at 20.
  it.each([5, 10, 15, 20])('a joint that leans by %d degrees: the square pair, less and more by that', (lean) => {
    for (const [od] of published) {
      const square = known(equal(od * INCH, 0.095 * INCH)).cuts.pair.cuts[0] as FlatCut;
      const { cuts } = known(equal(od * INCH, 0.095 * INCH, lean), turn(60));
      const [less, more] = cuts.pair.cuts.map(({ angle }) => inDegrees(angle)).sort((p, q) => p - q);
      expect(Math.abs((less ?? NaN) - (inDegrees(square.angle) - lean))).toBeLessThan(4);
      expect(Math.abs((more ?? NaN) - (inDegrees(square.angle) + lean))).toBeLessThan(4);
    }
  });
});

describe('limits', () => {
  it('no cut is steeper than the saw reaches, and a saw that reaches farther leaves less', () => {
    const end = equal(38.1, 2.4, 35);
    const lefts = [20, 45, 60].map((reach) => {
      const { cuts } = known(end, turn(reach));
      for (const { angle } of cuts.pair.cuts) expect(inDegrees(angle)).toBeLessThanOrEqual(reach + 1e-9);
      return cuts.pair.left;
    });
    expect(lefts[1]).toBeLessThan(lefts[0] ?? NaN);
    expect(lefts[2]).toBeLessThan(lefts[1] ?? NaN);
  });

  it('one cut is enough where a thin tube meets a thick one', () => {
    const { cuts } = known(
      sawnEnd(endOf([0, 0, 0], [Math.cos(0.5), Math.sin(0.5), 0], 6, 1.5, 300), [through(straight, 30, 600)]),
    );
    expect(cuts.better).toBe('single');
    // A thin tube's end is nearly flat: the cut leans as the joint does.
    expect(inDegrees(cuts.single.cuts[0]?.angle ?? NaN)).toBeCloseTo(inDegrees(0.5), 0);
  });

  it('nothing that is no tube, or has no curve, is cut', () => {
    const end = known(equal(45, 2.5)).end;
    expect(twoCut({ ...end, outerRadius: 0 })).toBeNull();
    expect(twoCut({ ...end, innerRadius: NaN })).toBeNull();
    expect(twoCut(end, NaN)).toBeNull();
    expect(twoCut(end, Math.PI / 2)).toBeNull();
    expect(twoCut({ ...end, curve: { cut: () => null } })).toBeNull();
  });
});
