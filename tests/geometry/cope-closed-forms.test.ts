/** Copes against closed forms, handbook figures and facts of the trade; the source stands beside each. */
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { addScaled, cross, dot, unit } from '../../server/centreline/vector';
import { cope, copeCurve } from '../../server/geometry/cope';
import { footprint } from '../../server/geometry/cope-hosts';
import { between, endOf, leaning, line, pointAt, random, through } from './joint-maker';

const turn = (degrees: number): number => (degrees * Math.PI) / 180;
const clocks = Array.from({ length: 72 }, (_, i) => turn(5 * i));
const host = line([
  [0, -500, 0],
  [0, 500, 0],
]);

/** A child of radius r that leaves along x, square to the host along y; clock 90 is then along the host. */
const square = (r: number, wall: number, z = 0): ReturnType<typeof endOf> => endOf([0, 0, z], [1, 0, 0], r, wall, 300);

describe('closed forms', () => {
  // Intersection of two cylinders at right angles, any text on descriptive geometry: s = sqrt(R² - (ρ sin φ)²), φ from
  // the host's direction.
  it.each([
    [22.5, 22.5, 2.5],
    [22.5, 19, 2.5],
    [30, 12, 1.5],
  ])('host %d, child %d, wall %d at 90 degrees', (R, r, wall) => {
    const curve = copeCurve(square(r, wall), [through(host, R, 500)]);
    for (const rho of [r, r - wall / 2, r - wall]) {
      for (const clock of clocks) {
        expect(curve.setback(rho, clock)).toBeCloseTo(Math.sqrt(R ** 2 - (rho * Math.cos(clock)) ** 2), 10);
      }
    }
  });

  // The same for a child that leans by `angle` to the host and passes it by `offset` (development of pipe branches, as in
  // texts on sheet-metal layout): s = sqrt(R² - (ρ sin ψ + e)²) / sin a + ρ cos ψ / tan a, ψ from the heel's side.
  it('any angle and offset', () => {
    const roll = random(41);
    for (let i = 0; i < 100; i++) {
      const R = between(roll, 15, 30);
      const r = R * between(roll, 0.3, 0.9);
      const angle = turn(between(roll, 30, 150));
      const offset = between(roll, -1, 1) * (R - r) * 0.99;
      const away = leaning(roll, [0, 1, 0], angle);
      const aside = unit(cross([0, 1, 0], away));
      const child = endOf(addScaled([0, 0, 0], aside, offset), away, r, 1.6, 300);
      const curve = copeCurve(child, [through(host, R, 500)]);
      const toe: Vec3 = cross(aside, away);
      for (const clock of clocks) {
        const d = addScaled(
          [child.zero[0] * Math.cos(clock), child.zero[1] * Math.cos(clock), child.zero[2] * Math.cos(clock)],
          child.quarter,
          Math.sin(clock),
        );
        const beside = r * dot(d, aside) + offset;
        // `toe` is across the leg in the plane of both axes, on the host's own side: (cos a u - y) / sin a or its negative.
        const expected =
          Math.sqrt(R ** 2 - beside ** 2) / Math.sin(angle) - (r * dot(d, inPlane(away, toe))) / Math.tan(angle);
        expect(curve.outer(clock)).toBeCloseTo(expected, 8);
      }
      expect(cope(child, [through(host, R, 500)]).offset).toBeCloseTo(Math.abs(offset), 8);
    }
  });

  /** Unit vector across the leg, in the plane of both axes, on the side to which the host's x = across component points. */
  function inPlane(away: Vec3, toe: Vec3): Vec3 {
    // across = away's own part across the host; the formula wants the direction whose part along `across` is cos a.
    const across = unit([away[0], 0, away[2]]);
    const sense = Math.sign(dot(toe, across)) * Math.sign(away[1] === 0 ? 1 : away[1]) || 1;
    return [toe[0] * sense, toe[1] * sense, toe[2] * sense];
  }

  it('the saddle of equal tubes at 90 degrees is two half ellipses with axes R and R √2', () => {
    const made = cope(square(22.5, 2.5), [through(host, 22.5, 500)]);
    // Perimeter of an ellipse by Gauss and Kummer's series in h = ((a - b) / (a + b))².
    const a = 22.5 * Math.SQRT2;
    const b = 22.5;
    const h = ((a - b) / (a + b)) ** 2;
    const perimeter = Math.PI * (a + b) * (1 + h / 4 + h ** 2 / 64 + h ** 3 / 256 + (25 * h ** 4) / 16384);
    expect(made.saddleLength).toBeCloseTo(perimeter, 6);
  });

  it('the saddle of a thin tube square on a thick one agrees with a sum over a million chords', () => {
    const made = cope(square(19, 2.5), [through(host, 22.5, 500)]);
    let sum = 0;
    const steps = 1e6;
    let before: Vec3 = [Math.sqrt(22.5 ** 2 - 19 ** 2), 19, 0];
    for (let i = 1; i <= steps; i++) {
      const t = (2 * Math.PI * i) / steps;
      const p: Vec3 = [Math.sqrt(22.5 ** 2 - (19 * Math.cos(t)) ** 2), 19 * Math.cos(t), 19 * Math.sin(t)];
      sum += Math.hypot(p[0] - before[0], p[1] - before[1], p[2] - before[2]);
      before = p;
    }
    expect(made.saddleLength).toBeCloseTo(sum, 6);
  });
});

describe('equal tubes at 90 degrees, 45 x 2.5', () => {
  const made = cope(square(22.5, 2.5), [through(host, 22.5, 500)]);

  it('the cut stands 10.3 before the outer edge at the sides, the groove there is 2.25', () => {
    const side = made.ordinates[0];
    expect((side?.cut ?? NaN) - (side?.outer ?? NaN)).toBeCloseTo(Math.sqrt(22.5 ** 2 - 20 ** 2), 9);
    // The outer edge of the cut stands at (√(R² - q²), r): √(R² - q² + r²) - R from the host's surface.
    expect(side?.gap).toBeCloseTo(Math.sqrt(22.5 ** 2 - 20 ** 2 + 22.5 ** 2) - 22.5, 9);
    expect(side?.gap).toBeCloseTo(2.25, 2);
    expect(made.maxGap).toBeCloseTo(side?.gap ?? NaN, 9);
  });

  it('included angle 90, offset 0, no overhang', () => {
    expect(made.includedAngle).toBeCloseTo(Math.PI / 2, 12);
    expect(made.offset).toBeCloseTo(0, 12);
    expect(made).toMatchObject({ contact: true, overhang: null, buried: false });
    expect(made.minOuter).toBeCloseTo(0, 4);
    expect(made.depth).toBeCloseTo(22.5 - Math.sqrt(22.5 ** 2 - 20 ** 2), 9);
  });

  // Common practice, no source: depth of an equal-tube cope is half the diameter on the outside, about a quarter at the
  // bore, and a third of the diameter at mid wall.
  it.each([
    [38.1, 2.413],
    [44.45, 2.413],
    [44.45, 3.048],
  ])('%d x %d: OD / 2 outside, .23 to .27 OD inside, .30 to .34 OD at mid wall', (od, wall) => {
    const R = od / 2;
    const curve = copeCurve(square(R, wall), [through(host, R, 500)]);
    const depth = (rho: number): number =>
      Math.max(...clocks.map((c) => curve.setback(rho, c) ?? NaN)) -
      Math.min(...clocks.map((c) => curve.setback(rho, c) ?? NaN));
    expect(depth(R) / od).toBeCloseTo(0.5, 3);
    expect(depth(R - wall) / od).toBeGreaterThan(0.22);
    expect(depth(R - wall) / od).toBeLessThan(0.28);
    expect(depth(R - wall / 2) / od).toBeGreaterThan(0.295);
    expect(depth(R - wall / 2) / od).toBeLessThan(0.345);
  });
});

describe('where the cut lies', () => {
  it('is the largest set-back over the wall, also inside it', () => {
    const roll = random(42);
    let inside = 0;
    for (let i = 0; i < 60; i++) {
      const R = between(roll, 15, 30);
      const r = R * between(roll, 0.5, 0.95);
      const away = leaning(roll, [0, 1, 0], turn(between(roll, 35, 145)));
      const child = endOf(
        addScaled([0, 0, 0], unit(cross([0, 1, 0], away)), between(roll, 0, R - r)),
        away,
        r,
        0.4 * r,
        300,
      );
      const curve = copeCurve(child, [through(host, R, 500)]);
      for (const clock of clocks) {
        let most = -Infinity;
        let where = 0;
        for (let k = 0; k <= 400; k++) {
          const rho = child.innerRadius + ((child.outerRadius - child.innerRadius) * k) / 400;
          const s = curve.setback(rho, clock) ?? -Infinity;
          if (s > most) {
            most = s;
            where = k;
          }
        }
        if (where > 0 && where < 400) inside++;
        const cut = curve.cut(clock) ?? NaN;
        expect(cut).toBeGreaterThanOrEqual(most - 1e-12);
        expect(cut).toBeLessThan(most + 2e-3);
      }
    }
    expect(inside).toBeGreaterThan(100);
  });

  it('depth is over all clocks, not only the listed ones', () => {
    const away = leaning(random(43), [0, 1, 0], turn(50));
    const made = cope(endOf([0, 0, 0], away, 19, 2.5, 300), [through(host, 22.5, 500)]);
    let high = -Infinity;
    let low = Infinity;
    for (let i = 0; i < 36000; i++) {
      const cut = made.curve.cut(turn(i / 100)) ?? NaN;
      high = Math.max(high, cut);
      low = Math.min(low, cut);
    }
    expect(made.maxCut).toBeCloseTo(high, 5);
    expect(made.minCut).toBeCloseTo(low, 5);
    expect(made.depth).toBeCloseTo(high - low, 5);
    expect(made.maxCut ?? NaN).toBeGreaterThan(Math.max(...made.ordinates.map((o) => o.cut ?? NaN)) + 1e-6);
  });

  it('a shallow joint keeps its heel: the footprint reaches farther than four radii', () => {
    // 15 degrees: the toe lies (R cos a + r) / sin a = 157 from E along a host of radius 22.5, seven radii.
    const away: Vec3 = [Math.sin(turn(15)), Math.cos(turn(15)), 0];
    const child = endOf([0, 0, 0], away, 19, 2.5, 300);
    const made = cope(child, [through(host, 22.5, 500)]);
    expect(made.overhang).toBeNull();
    expect(made.maxOuter).toBeCloseTo((22.5 + 19 * Math.cos(turn(15))) / Math.sin(turn(15)), 6);
    const print = footprint(child, [through(host, 22.5, 500)], 0);
    expect((print?.to ?? NaN) - 500).toBeCloseTo((22.5 * Math.cos(turn(15)) + 19) / Math.sin(turn(15)), 6);
  });
});

describe('bends', () => {
  it('a bend of very large radius cuts like a straight tube', () => {
    // 100 km: over the footprint such an arc leaves its tangent by 1e-5 mm.
    const radius = 1e8;
    const span = 4e-6;
    const curved = line(
      [
        [0, -600, 0],
        [0, 0, 0],
        [600 * Math.sin(span), 600 * Math.cos(span), 0],
      ],
      radius,
    );
    const arc = curved.pieces.find((piece) => piece.kind === 'arc');
    const middle = (arc?.start ?? NaN) + (arc?.length ?? NaN) / 2;
    expect(arc?.length).toBeGreaterThan(390);
    for (const degrees of [35, 60, 90]) {
      const away: Vec3 = [
        Math.cos(turn(20)) * Math.sin(turn(degrees)),
        Math.cos(turn(degrees)),
        Math.sin(turn(20)) * Math.sin(turn(degrees)),
      ];
      const child = endOf([0, 0, 0], away, 17, 2, 300);
      const onBend = { ...child, origin: pointAt(curved, middle).point };
      const bent = cope(onBend, [through(curved, 22.5, middle)]);
      const straight = cope(child, [through(host, 22.5, 500)]);
      for (const [i, ordinate] of bent.ordinates.entries()) {
        expect(ordinate.cut).toBeCloseTo(straight.ordinates[i]?.cut ?? NaN, 3);
        expect(ordinate.gap).toBeCloseTo(straight.ordinates[i]?.gap ?? NaN, 3);
      }
      expect(bent.saddleLength).toBeCloseTo(straight.saddleLength ?? NaN, 3);
    }
  });

  it('in the plane of a bend, on its outside and its inside: the circles of a torus', () => {
    // A child square on the middle of a bend, away from its centre or toward it: at the crown the tube's own radius.
    const bent = line(
      [
        [-400, -400, 0],
        [0, 0, 0],
        [400, -400, 0],
      ],
      135,
    );
    const top = 135 / Math.cos(turn(45)) - 135;
    const child = endOf([0, -top, 0], [0, 1, 0], 15, 2, 300);
    const curve = copeCurve(child, [through(bent, 22.5, bent.length / 2)]);
    // Generators in the bend's plane leave the outer circle of radius CLR + R; across it, a circle of radius R.
    const inPlane = Math.sqrt((135 + 22.5) ** 2 - 15 ** 2) - 135;
    const across = Math.sqrt(22.5 ** 2 - 15 ** 2);
    const along = turn(90);
    expect(curve.outer(0)).toBeCloseTo(across, 9);
    expect(curve.outer(turn(180))).toBeCloseTo(across, 9);
    expect(curve.outer(along)).toBeCloseTo(inPlane, 9);
    const inward = copeCurve(endOf([0, -top, 0], [0, -1, 0], 15, 2, 100), [through(bent, 22.5, bent.length / 2)]);
    expect(inward.outer(along)).toBeCloseTo(135 - Math.sqrt((135 - 22.5) ** 2 - 15 ** 2), 9);
    expect(inward.outer(0)).toBeCloseTo(across, 9);
  });
});

describe('planes', () => {
  it('a plate that slopes by a cuts at -ρ cos ψ tan a: sawn, no gap', () => {
    const child = endOf([0, 0, 0], [0, 0, 1], 22.5, 2.5, 300);
    const normal: Vec3 = [Math.sin(turn(12)), 0, Math.cos(turn(12))];
    const made = cope(child, [{ kind: 'plane', point: [0, 0, 0], normal }]);
    for (const ordinate of made.ordinates) {
      expect(ordinate.cut).toBeCloseTo(-22.5 * Math.cos(ordinate.clock) * Math.tan(turn(12)), 10);
      expect(ordinate.gap).toBe(0);
      expect(ordinate.inner).toBeCloseTo(-20 * Math.cos(ordinate.clock) * Math.tan(turn(12)), 10);
    }
    expect(made.depth).toBeCloseTo(45 * Math.tan(turn(12)), 9);
    expect(made).toMatchObject({ includedAngle: null, offset: null, overhang: null });
  });
});
