/** Where set-backs are hard: misses by a hair, hosts that come back, ends of hosts, short legs, parallel axes. */
import { describe, expect, it } from 'vitest';
import { pointAt } from '../../server/centreline/query';
import type { Vec3 } from '../../server/centreline/vector';
import { addScaled, cross, distance, dot, sub, unit } from '../../server/centreline/vector';
import { cope, copeCurve } from '../../server/geometry/cope';
import { footprint } from '../../server/geometry/cope-hosts';
import type { TubeHost } from '../../server/geometry/setback';
import { hostField } from '../../server/geometry/setback-field';
import { risingZero, turningPoints } from '../../server/geometry/setback-quartic';
import { anyDirection, between, bentOnce, endOf, leaning, line, random, through } from './joint-maker';

const turn = (degrees: number): number => (degrees * Math.PI) / 180;
const straight = line([
  [0, -500, 0],
  [0, 500, 0],
]);

describe('a generator that misses', () => {
  it('by half a millimetre or less takes the closest approach', () => {
    const made = cope(endOf([0, 0, 0], [1, 0, 0], 22.9, 2.5, 300), [through(straight, 22.5, 500)]);
    expect(made.overhang).toBeNull();
    expect(made.curve.outer(0)).toBeCloseTo(0, 12);
    expect(made.curve.gap(0)).toBeGreaterThan(0.4);
    expect(made.saddleLength).not.toBeNull();
    // On the way there the set-back falls to that of a touch, without a jump.
    const touch = Math.acos(22.5 / 22.9);
    expect(made.curve.outer(touch + 1e-9)).toBeLessThan(1e-2);
    expect(made.curve.outer(touch - 1e-9)).toBeCloseTo(0, 6);
  });

  it('by more is an overhang, by just that amount', () => {
    for (const by of [0.5001, 0.6, 3, 12]) {
      const made = cope(endOf([0, 0, 0], [1, 0, 0], 22.5 + by, 2.5, 300), [through(straight, 22.5, 500)]);
      expect(made.overhang).toBeCloseTo(by, 6);
      expect(made).toMatchObject({ contact: true, buried: false, depth: null, saddleLength: null });
      expect(made.ordinates[0]?.cut).toBeNull();
      expect(made.ordinates[9]?.cut).not.toBeNull();
    }
    expect(cope(endOf([0, 0, 0], [1, 0, 0], 22.9999, 2.5, 300), [through(straight, 22.5, 500)]).overhang).toBeNull();
  });

  it('beside the host, is as far off as it stands', () => {
    const made = cope(endOf([0, 0, 10], [1, 0, 0], 19, 2.5, 300), [through(straight, 22.5, 500)]);
    expect(made.overhang).toBeCloseTo(10 + 19 - 22.5, 6);
    const clear = cope(endOf([0, 0, 60], [1, 0, 0], 19, 2.5, 300), [through(straight, 22.5, 500)]);
    expect(clear).toMatchObject({ contact: false, buried: false, depth: null });
    expect(clear.overhang).toBeCloseTo(60 + 19 - 22.5, 6);
    expect(clear.ordinates.every((o) => o.cut === null && o.gap === null)).toBe(true);
  });

  it('on a bend, is as far off as the nearest of many of its points', () => {
    const roll = random(61);
    for (let i = 0; i < 20; i++) {
      const radius = between(roll, 15, 25);
      const c = bentOnce(roll, radius * 5);
      const arc = c.pieces.find((piece) => piece.kind === 'arc');
      const on = pointAt(c, (arc?.start ?? 0) + (arc?.length ?? 0) / 2);
      const away = leaning(roll, on.tangent, between(roll, 1, 2));
      const child = endOf(addScaled(on.point, unit(cross(on.tangent, away)), radius * 0.8), away, radius * 0.7, 2, 150);
      const made = cope(child, [through(c, radius, on.station)]);
      let worst = -Infinity;
      for (let k = 0; k < 360; k++) {
        let least = Infinity;
        for (let s = -150; s < 150; s += 0.5) {
          const p = addScaled(
            addScaled(addScaled(child.origin, away, s), child.zero, child.outerRadius * Math.cos(turn(k))),
            child.quarter,
            child.outerRadius * Math.sin(turn(k)),
          );
          const rel: Vec3 = [p[0] - (arc?.centre[0] ?? 0), p[1] - (arc?.centre[1] ?? 0), p[2] - (arc?.centre[2] ?? 0)];
          const axis = arc?.axis ?? [0, 0, 1];
          const height = rel[0] * axis[0] + rel[1] * axis[1] + rel[2] * axis[2];
          const flat = Math.sqrt(Math.max(0, distance(rel, [0, 0, 0]) ** 2 - height ** 2));
          least = Math.min(least, Math.hypot(flat - radius * 5, height) - radius);
        }
        worst = Math.max(worst, least);
      }
      if (worst > 0.6) expect(Math.abs((made.overhang ?? NaN) - worst)).toBeLessThan(0.02);
      else expect(made.overhang ?? 0).toBeLessThan(0.62);
    }
  });
});

describe('a host that comes back', () => {
  it('a bar across a hoop does not see the far leg from either end', () => {
    const hoop = line(
      [
        [0, 300, 0],
        [0, 300, 700],
        [0, -300, 700],
        [0, -300, 0],
      ],
      120,
    );
    for (const [y, station] of [
      [300, 400],
      [-300, hoop.length - 400],
    ] as const) {
      const end = endOf([0, y, 400], [0, -Math.sign(y), 0], 19, 2.5, 300);
      const made = cope(end, [through(hoop, 22.5, station)]);
      expect(made.maxOuter).toBeCloseTo(22.5, 6);
      expect(made.minOuter).toBeCloseTo(Math.sqrt(22.5 ** 2 - 19 ** 2), 6);
    }
  });

  it('a bar across a hairpin, nearer than four radii apart along the leg’s limit, keeps to its own side', () => {
    const hairpin = line(
      [
        [0, 60, 0],
        [0, 60, 400],
        [0, -60, 400],
        [0, -60, 0],
      ],
      60,
    );
    const end = endOf([0, 60, 335], [0, -1, 0], 12, 1.5, 60);
    const made = cope(end, [through(hairpin, 20, 335)]);
    expect(made.buried).toBe(false);
    expect(made.maxCut ?? NaN).toBeLessThan(60);
  });
});

describe('a shallow joint beside a bend', () => {
  // 20 degrees to a leg: the footprint reaches 4.9 radii, farther than the four that always count.
  const c = line(
    [
      [0, -400, 0],
      [0, 0, 0],
      [400, 0, 0],
    ],
    60,
  );
  const away: Vec3 = [Math.sin(turn(20)), Math.cos(turn(20)), 0];

  it('on the straight keeps its whole footprint', () => {
    const station = 150;
    const child = endOf(pointAt(c, station).point, away, 15, 2, 300);
    const made = cope(child, [through(c, 20, station)]);
    expect(made.maxOuter).toBeCloseTo((20 + 15 * Math.cos(turn(20))) / Math.sin(turn(20)), 6);
  });
});

describe('the end of a host', () => {
  const away: Vec3 = [1, 0, 0];
  it('goes on for the figures, and the footprint says how far past it lies', () => {
    const c = line([
      [0, 0, 0],
      [0, 500, 0],
    ]);
    const hosts = [through(c, 22.5, 5)];
    const child = endOf([0, 5, 0], away, 19, 2.5, 300);
    const print = footprint(child, hosts, 0);
    expect(print?.from).toBeCloseTo(5 - 19, 6);
    expect(print?.to).toBeCloseTo(5 + 19, 6);
    expect(cope(child, hosts).overhang).toBeNull();
  });

  it('with a flat is cut there: of half a host only half is landed on', () => {
    const half: TubeHost = { ...through(straight, 22.5, 500), from: 500 };
    const curve = copeCurve(endOf([0, 0, 0], away, 19, 2.5, 300), [half]);
    const toward = (y: number): number => Math.atan2(endOf([0, 0, 0], away, 1, 0.1, 1).quarter[1] * y, 0);
    expect(curve.outer(toward(1))).toBeCloseTo(22.5, 9);
    expect(curve.outer(toward(-1))).toBeNull();
  });

  it('two ends in one line touch in their flats: nothing is cut', () => {
    const other = line([
      [0, 0, 0],
      [-400, 0, 0],
    ]);
    const made = cope(endOf([0, 0, 0], away, 22.5, 2.5, 300), [{ ...through(other, 22.5, 0), from: 0 }]);
    expect(made.maxCut).toBeCloseTo(0, 9);
    expect(made.minCut).toBeCloseTo(0, 9);
    expect(made.overhang).toBeNull();
  });

  it('two ends that meet at an angle: the later one is cut by the side and the flat of the earlier', () => {
    // The earlier one comes along y and ends at E; the later leaves at 60 degrees to where it came from.
    const earlier = line([
      [0, 400, 0],
      [0, 0, 0],
    ]);
    const host: TubeHost = { ...through(earlier, 22.5, 400), to: 400 };
    const u: Vec3 = [Math.sin(turn(60)), Math.cos(turn(60)), 0];
    const child = endOf([0, 0, 0], u, 12, 1.5, 200);
    const curve = copeCurve(child, [host]);
    // On the near side, the heel of the side: (R + r cos a) / sin a in the plane of both axes.
    const near = [0, 1].map((k) =>
      curve.outer(Math.atan2(-child.quarter[0] * u[1] + child.quarter[1] * u[0], 0) + k * Math.PI),
    );
    const heel = (22.5 + 12 * Math.cos(turn(60))) / Math.sin(turn(60));
    expect(Math.max(...near.map((s) => s ?? -Infinity))).toBeCloseTo(heel, 8);
  });

  it('a flat inside a bend cuts square across it', () => {
    const bent = line(
      [
        [-400, 0, 0],
        [0, 0, 0],
        [0, 400, 0],
      ],
      120,
    );
    const middle = bent.length / 2;
    const on = pointAt(bent, middle);
    // From the flat's centre along the tangent: the whole end stands on the flat, at set-back 0.
    const child = endOf(on.point, on.tangent, 15, 2, 100);
    const made = cope(child, [{ ...through(bent, 22.5, middle), to: middle }]);
    expect(made.maxCut).toBeCloseTo(0, 9);
    expect(made.minCut).toBeCloseTo(0, 9);
  });
});

describe('legs and axes that do not suit', () => {
  it('a leg shorter than its cope is told, not cut wrongly', () => {
    const made = cope(endOf([0, 0, 0], [1, 0, 0], 19, 2.5, 20), [through(straight, 22.5, 500)]);
    expect(made.buried).toBe(true);
    expect(made).toMatchObject({ maxCut: null, depth: null, saddleLength: null });
  });

  it('a child that runs along inside its host never comes out of it', () => {
    const made = cope(endOf([0, 0, 0], [0, 1, 0], 19, 2.5, 300), [through(straight, 22.5, 500)]);
    expect(made).toMatchObject({ contact: false, buried: true, depth: null });
  });

  it('a child parallel to its host, beside it, misses by the distance between them', () => {
    const made = cope(endOf([0, 0, 50], [0, 1, 0], 19, 2.5, 300), [through(straight, 22.5, 500)]);
    expect(made).toMatchObject({ contact: false, buried: false, depth: null });
    expect(made.overhang).toBeCloseTo(50 + 19 - 22.5, 6);
    expect(made.offset).toBeCloseTo(50, 9);
  });

  it('a child nearly parallel to its host keeps exact set-backs as far as its limit goes', () => {
    const a = turn(2);
    const child = endOf([0, 0, 0], [Math.sin(a), Math.cos(a), 0], 19, 2.5, 5000);
    const made = cope(child, [through(straight, 22.5, 500)]);
    expect(made.maxOuter).toBeCloseTo((22.5 + 19 * Math.cos(a)) / Math.sin(a), 5);
  });

  it('without hosts nothing is met', () => {
    const made = cope(endOf([0, 0, 0], [1, 0, 0], 19, 2.5, 300), []);
    expect(made).toMatchObject({ contact: false, overhang: null, buried: false, depth: null, includedAngle: null });
  });

  it('a bend tighter than the tube is thick gives figures or none, and never throws', () => {
    const tight = line(
      [
        [-300, 0, 0],
        [0, 0, 0],
        [0, 300, 0],
      ],
      10,
    );
    for (let k = 0; k < 12; k++) {
      const on = pointAt(tight, tight.length / 2);
      const child = endOf(on.point, unit([Math.cos(turn(30 * k)), Math.sin(turn(30 * k)), 0.8]), 12, 2, 150);
      const made = cope(child, [through(tight, 22.5, on.station)]);
      expect(made.maxCut === null || made.maxCut < 60).toBe(true);
    }
  });
});

describe('a torus, seen along a generator', () => {
  it('every exit lies on the tube, and nothing of the generator beyond it does', () => {
    const roll = random(62);
    let seen = 0;
    for (let i = 0; i < 600; i++) {
      const radius = between(roll, 15, 30);
      const bend = radius * between(roll, 1.2, 7);
      const c = bentOnce(roll, bend);
      const arc = c.pieces.find((piece) => piece.kind === 'arc');
      const on = pointAt(c, (arc?.start ?? 0) + (arc?.length ?? 0) * roll());
      // Away from the inside of the bend: a leg that crosses the bend meets the same host again, farther along.
      const away = anyDirection(roll);
      const inside = sub(arc?.centre ?? [0, 0, 0], on.point);
      if (dot(away, inside) > 0) continue;
      const child = endOf(on.point, away, radius * 0.8, 2, 400);
      const field = hostField(child, through(c, radius, on.station));
      for (let k = 0; k < 12; k++) {
        const s = field.exit(child.outerRadius, Math.cos(k), Math.sin(k));
        if (Number.isNaN(s)) continue;
        seen++;
        const at = (t: number): Vec3 =>
          addScaled(
            addScaled(addScaled(child.origin, child.away, t), child.zero, child.outerRadius * Math.cos(k)),
            child.quarter,
            child.outerRadius * Math.sin(k),
          );
        expect(Math.abs(field.clearance(at(s)))).toBeLessThan(1e-9);
        for (let more = 1e-3; more < 3 * radius; more *= 2) {
          if (s + more < child.limit) expect(field.clearance(at(s + more))).toBeGreaterThan(-1e-9);
        }
      }
    }
    expect(seen).toBeGreaterThan(2000);
  });

  it('a quartic with known roots turns between them and rises through every second one', () => {
    const roll = random(63);
    for (let i = 0; i < 500; i++) {
      const roots = [0, 0, 0].map(() => between(roll, -10, 10));
      roots.push(-roots.reduce((sum, r) => sum + r, 0));
      roots.sort((a, b) => a - b);
      const [a, b, c, d] = roots as [number, number, number, number];
      if (Math.min(b - a, c - b, d - c) < 1e-2) continue;
      const p = a * b + a * c + a * d + b * c + b * d + c * d;
      const q = -(a * b * c + a * b * d + a * c * d + b * c * d);
      const r = a * b * c * d;
      const turning = new Float64Array(3);
      expect(turningPoints(p, q, turning)).toBe(3);
      const [high, mid, low] = [...turning] as [number, number, number];
      expect(low > a && low < b && mid > b && mid < c && high > c && high < d).toBe(true);
      expect(risingZero(p, q, r, high, 100, NaN)).toBeCloseTo(d, 8);
      expect(risingZero(p, q, r, low, mid, (low + mid) / 2)).toBeCloseTo(b, 8);
    }
  });

  it('a quartic that turns once turns there', () => {
    const turning = new Float64Array(3);
    expect(turningPoints(0, 0, turning)).toBe(1);
    expect(turning[0]).toBe(0);
    expect(turningPoints(2, 0, turning)).toBe(1);
    expect(turning[0]).toBeCloseTo(0, 12);
    // 4t³ + 4t - 8 = 0 at t = 1.
    expect(turningPoints(2, -8, turning)).toBe(1);
    expect(turning[0]).toBeCloseTo(1, 12);
  });
});
